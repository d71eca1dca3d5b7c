import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { fortnightHours } from '../../../sim/output/figures/fortnightHours.ts';
import { clockText, nightColumns } from '../../../sim/output/figures/nightColumns.ts';
import { loadScenario } from '../../../sim/scenario/loadScenario.ts';
import { runAll } from '../../../sim/trial/runAll.ts';

/** A minute: what the hours leave open where a night changes several times within one of them. */
const MINUTE_H = 1 / 60;

describe.each(['invented-garden', 'dusk-to-dawn'])('the nights of %s as columns', async (name) => {
  const file = fileURLToPath(new URL(`../../../scenarios/${name}.yaml`, import.meta.url));
  const { scenario, trials } = await runAll(loadScenario(file, file), { withChanges: false });
  const { site } = scenario;

  test('each column is as long lit, dim, out and on beyond the promise as its row of the ledger says', () => {
    let short = 0;
    for (const trial of trials) {
      const winter = trial.statistics.winters[0]!.winter;
      for (const { row, spans } of nightColumns(trial, winter, site)) {
        const total = (kind: string) =>
          spans
            .filter((span) => span.kind === kind)
            .reduce((sum, { from_h, to_h }) => sum + to_h - from_h, 0);
        // The clocks go forward and back within the night on two nights a year.
        const changes = ['2025-03-29', '2025-10-25'].includes(row.night) ? 1 : 0;
        expect(Math.abs(total('lit') - row.lit_h), row.night).toBeLessThan(MINUTE_H + changes);
        expect(Math.abs(total('dim') - row.dim_h), row.night).toBeLessThan(MINUTE_H + changes);
        expect(Math.abs(total('out') - row.out_h), row.night).toBeLessThan(MINUTE_H + changes);
        if (row.short_h > MINUTE_H) short++;
      }
    }
    expect(short).toBeGreaterThan(10);
  });

  test('a night falls short where the ledger says, and promised time has no gap', () => {
    for (const trial of trials) {
      for (const { row, spans, firstShort_h } of nightColumns(
        trial,
        trial.statistics.winters[0]!.winter,
        site,
      )) {
        const first = spans.find(({ kind }) => kind === 'dim' || kind === 'out');
        if (row.short_h > MINUTE_H)
          expect(Math.abs(first!.from_h - firstShort_h), row.night).toBeLessThan(MINUTE_H);
        if (['2025-03-29', '2025-10-25'].includes(row.night)) continue;
        for (let k = 1; k < spans.length; k++) {
          expect(Math.abs(spans[k]!.from_h - spans[k - 1]!.to_h), row.night).toBeLessThan(MINUTE_H);
        }
      }
    }
  });

  test('columns stand in the order of the season, a night each', () => {
    const nights = nightColumns(trials[0]!, trials[0]!.statistics.winters[0]!.winter, site).map(
      ({ row }) => row.night,
    );
    expect(nights).toHaveLength(365);
    expect([nights[0], nights[183], nights[184], nights[364]]).toEqual([
      '2025-07-01',
      '2025-12-31',
      '2025-01-01',
      '2025-06-30',
    ]);
  });

  test('the darkest fortnight has 336 hours whose short minutes are those of its nights', () => {
    for (const trial of trials) {
      const { winter, darkestFortnight } = trial.statistics.winters[0]!;
      const { hours, nights } = fortnightHours(trial, darkestFortnight!, winter, site)!;
      expect(hours).toHaveLength(336);
      expect(hours[0]!.local.slice(0, 10)).toBe(darkestFortnight!.from);
      const short_h = hours.reduce((sum, hour) => sum + hour.dim_min + hour.out_min, 0) / 60;
      expect(short_h).toBeCloseTo(darkestFortnight!.short_h, 2);
      expect(nights.filter(({ failed }) => failed)).toHaveLength(darkestFortnight!.failedNights);
    }
  });
});

test('the clock of a night goes past midnight', () => {
  expect([clockText(16.5), clockText(24), clockText(31.999), clockText(Number.NaN)]).toEqual([
    '16:30',
    '00:00',
    '08:00',
    '',
  ]);
});
