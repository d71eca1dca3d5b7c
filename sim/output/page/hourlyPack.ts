import type { CivilDay } from '../../statistics/civilHours.ts';
import type { HourlyTrial, RunResult } from '../../trial/Trial.ts';
import { daysOf, weatherNights, worstWinter } from '../figures/worstWinter.ts';
import { type HourlyPack, type PackedDays, packedColumn } from './packedColumn.ts';

/**
 * The hourly columns behind the page's closer look at the capacitor and its weather, packed two bytes a number.
 *
 * in: run; drawn, those of its trials that the page draws, each with its id; days, the civil dates of its record
 * out: columns in the order of the season
 */
export function hourlyPack(
  run: RunResult,
  drawn: readonly { id: string; trial: HourlyTrial }[],
  days: readonly CivilDay[],
): HourlyPack {
  const { trials, scenario } = run;
  const { latitude_deg } = scenario.site;
  const pack: HourlyPack = {
    start_ms: trials[0]?.light.start_ms ?? 0,
    trials: {},
    lights: {},
    weather: null,
  };
  for (const { id, trial } of drawn) {
    const { winter, nights } = worstWinter(trial, latitude_deg);
    const shown = daysOf(nights, days);
    if (shown.length === 0) continue;
    const light = JSON.stringify([trial.spot, winter]);
    pack.lights[light] ??= packedColumn(picked(trial.light.planeOfArray_W_m2, shown), 1);
    const params = scenario.lamps.find((lamp) => lamp.name === trial.lamp)?.params;
    const { capacitorEnd_V, reachable_V } = trial.year.columns;
    // No light, no reachable voltage.
    const reached_V = picked(reachable_V, shown).map((volts) => (volts > 0 ? volts : Number.NaN));
    pack.trials[id] = {
      days: packedDays(shown),
      cutoff_V: params?.driver.cutoff_V ?? null,
      rated_V: params?.capacitor.rated_V ?? null,
      capacitor_V: packedColumn(picked(capacitorEnd_V, shown), 4),
      reachable_V: packedColumn(reached_V, 4),
      light,
    };
  }
  const [first] = trials;
  if (first === undefined) return pack;
  const { ghi_W_m2, planeOfArray_W_m2, mark } = first.light;
  const shown = daysOf(weatherNights(trials, latitude_deg), days);
  const logged = Number.isNaN(ghi_W_m2[0] ?? Number.NaN);
  const weather = {
    days: packedDays(shown),
    heading: logged ? 'light_on_cell_W_m2' : 'ghi_W_m2',
    light: packedColumn(picked(logged ? planeOfArray_W_m2 : ghi_W_m2, shown), 1),
    mark: packedColumn(picked(Float64Array.from(mark), shown), 0),
  };
  return { ...pack, weather };
}

function packedDays(days: readonly CivilDay[]): PackedDays {
  return {
    from: days.map(({ from }) => from),
    hours: days.map(({ from, to }) => to - from),
    offset_min: days.map(({ offset_min }) => offset_min),
  };
}

function picked(column: Float64Array, days: readonly CivilDay[]): Float64Array {
  const hours = new Float64Array(days.reduce((count, { from, to }) => count + to - from, 0));
  let next = 0;
  for (const { from, to } of days) {
    hours.set(column.subarray(from, to), next);
    next += to - from;
  }
  return hours;
}
