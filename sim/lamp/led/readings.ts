import {
  around,
  type PartFit,
  ROUNDING,
  STANDARD_ERRORS_90,
  significant,
  standardShare,
} from '../../common/Estimate.ts';
import { hypot } from '../../common/elementary/hypot.ts';
import { log } from '../../common/elementary/log.ts';
import { unitSlip } from '../../common/hints.ts';
import type { Report } from '../../common/InputProblem.ts';
import { piecewiseLinear } from '../../common/numeric.ts';
import type { LedReadings, LedSection } from './schema.ts';

type Rows = NonNullable<LedSection['table']>;

/** An LED found from readings. */
export interface LedFit extends PartFit {
  keys: { table: Rows };
}

/**
 * Forward voltage and efficacy of an LED against its current: from lux at a distance that never changed, scaled so
 * that the efficacy at one current of the datasheet is the datasheet's.
 *
 * in: stated, the datasheet's rows; readings; report, takes readings that no LED can show
 * out: rows with 90 percent intervals of the efficacy, or undefined after a problem
 * valid: the shape of the light is the same at every current, so that lux stand for lumens
 * source: JCGM100 (stated errors with a coverage factor of 2, rounding as a rectangle)
 */
export function ledFromReadings(stated: Rows, readings: LedReadings, report: Report): LedFit | undefined {
  const order = readings.points
    .map((point, at) => ({ ...point, at }))
    .sort((one, other) => one.current_mA - other.current_mA);
  if (!checkPoints(order, stated, readings.background_lux, report)) return undefined;
  const relative = order.map(
    ({ current_mA, forward_V, lux }) => (lux - readings.background_lux) / (current_mA * forward_V),
  );
  const currents = order.map(({ current_mA }) => current_mA);
  const reference = referenceRow(stated, currents);
  const scale = reference.efficacy_lm_W / piecewiseLinear(currents, relative, reference.current_mA);
  const statedAt = (key: 'efficacy_lm_W' | 'forward_V', current_mA: number) =>
    piecewiseLinear(
      stated.map((row) => row.current_mA),
      stated.map((row) => row[key]),
      current_mA,
    );
  return {
    estimates: order.map(({ current_mA, lux }, i) => {
      const value = relative[i]! * scale;
      const read = (Math.SQRT2 * readings.lux_step * ROUNDING) / (lux - readings.background_lux);
      const stateds = [readings.current_error_percent, readings.efficacy_error_percent].map(standardShare);
      const error = STANDARD_ERRORS_90 * hypot(read, ...stateds);
      return {
        key: `efficacy_lm_W at ${current_mA} mA`,
        what: `efficacy at ${current_mA} mA`,
        unit: 'lm/W',
        ...around(value, error),
        datasheet: statedAt('efficacy_lm_W', current_mA),
      };
    }),
    readings: order.map(({ current_mA, forward_V }) => ({
      what: `forward voltage at ${current_mA} mA, datasheet beside it`,
      unit: 'V',
      measured: forward_V,
      error: Number.NaN,
      fitted: statedAt('forward_V', current_mA),
    })),
    notes: [
      `efficacies are scaled by the datasheet's ${reference.efficacy_lm_W} lm/W at ${reference.current_mA} mA, so their common error is the datasheet's`,
      ...(order.length < 3
        ? ['read three currents or more: efficacy bends below a tenth of the usual current']
        : []),
    ],
    keys: {
      table: order.map(({ current_mA, forward_V }, i) => ({
        current_mA,
        forward_V,
        efficacy_lm_W: significant(relative[i]! * scale, 4),
      })),
    },
  };
}

/** The datasheet's row of the highest current that was read, or the nearest to what was read. */
function referenceRow(stated: Rows, currents: readonly number[]): Rows[number] {
  const within = stated.filter(
    ({ current_mA }) => current_mA >= currents[0]! && current_mA <= currents.at(-1)!,
  );
  const last = within.at(-1);
  if (last !== undefined) return last;
  const gap = ({ current_mA }: Rows[number]) =>
    Math.min(...currents.map((current) => Math.abs(log(current_mA / current))));
  return stated.reduce((best, row) => (gap(row) < gap(best) ? row : best));
}

type Point = LedReadings['points'][number] & { at: number };

function checkPoints(order: readonly Point[], stated: Rows, background_lux: number, report: Report): boolean {
  const highest = order.at(-1)!;
  const slip = unitSlip(highest.current_mA, stated.at(-1)!.current_mA);
  const path = (at: number, key: string) => ['readings', 'points', at, key];
  if (slip !== undefined) {
    report({
      code: 'SCENARIO_WRONG_UNIT',
      path: path(highest.at, 'current_mA'),
      got: `${highest.current_mA} mA`,
      expected: `currents such as the datasheet's ${stated.at(-1)!.current_mA} mA`,
      fix: `the key is in mA; write ${significant(highest.current_mA / slip, 12)}`,
    });
    return false;
  }
  for (let i = 0; i < order.length; i++) {
    const now = order[i]!;
    const before = order[i - 1];
    if (now.lux <= background_lux) {
      report({
        code: 'SCENARIO_CONFLICT',
        path: path(now.at, 'lux'),
        got: `${now.lux} lux with the LED on, ${background_lux} with it off`,
        expected: 'more light with the LED on',
        fix: 'darken the room, or bring the meter nearer',
      });
      return false;
    }
    if (before === undefined || (now.forward_V >= before.forward_V && now.lux > before.lux)) continue;
    const key = now.lux > before.lux ? 'forward_V' : 'lux';
    report({
      code: 'SCENARIO_CONFLICT',
      path: path(now.at, key),
      got: `${now[key]} at ${now.current_mA} mA after ${before[key]} at ${before.current_mA} mA`,
      expected: 'forward voltage and light that rise with the current',
      fix: 'were two readings exchanged, or was the meter moved? Read them again',
    });
    return false;
  }
  return true;
}
