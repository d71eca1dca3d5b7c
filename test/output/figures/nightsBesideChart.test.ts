import { expect, test } from 'vitest';
import { nightsBesideChart } from '../../../sim/output/figures/nightsBesideChart.ts';
import { nightStatistics } from '../../../sim/statistics/overWinters.ts';
import { winterStatistics } from '../../../sim/statistics/winterStatistics.ts';
import type { HourlyTrial } from '../../../sim/trial/Trial.ts';
import { smallComparison } from '../smallComparison.ts';
import { darkNight, nightsFrom, smallNight, smallRun, smallTrial } from '../smallRun.ts';

/** A trial of two whole winters, in one of which some nights fail. */
function trialOf(lamp: string, failed: readonly string[]): HourlyTrial {
  const nights = [2022, 2023].flatMap((begins) =>
    nightsFrom(`${begins}-07-01`, begins === 2023 ? 366 : 365, (night) => ({
      ...(failed.includes(night) ? darkNight(night, 2, 2) : smallNight(night)),
      winter: `${begins}/${begins - 1999}`,
    })),
  );
  const trial = smallTrial({ lamp, nights });
  return { ...trial, statistics: { ...trial.statistics, ...nightStatistics(winterStatistics(nights, 54)) } };
}

function drawn(trials: HourlyTrial[]) {
  const figure = nightsBesideChart(smallComparison({ decisive: trials.map((_, k) => k) }), [
    smallRun(trials),
  ])!;
  const cell = (row: string, k: number) => figure.table.rows.find(([night]) => night === row)?.[k];
  return { figure, cell, names: figure.svg.replace(/[\u2068\u2069]/g, '') };
}

test('lamps with the same worst winter go by its dates, which name it', () => {
  const { figure, cell, names } = drawn([trialOf('a', ['2022-12-30']), trialOf('b', ['2023-01-02'])]);
  expect(figure.table.rows).toHaveLength(365);
  expect(cell('2022-12-30', 1)).toBe('2.00');
  expect(cell('2023-01-02', 3)).toBe('2.00');
  expect(names).toContain('>a on lawn, 2022/23<');
  expect(names).toContain('>2023<');
});

test('lamps with worst winters of their own go by the days of the season, each named with its winter', () => {
  const { figure, cell, names } = drawn([trialOf('a', ['2022-12-30']), trialOf('b', ['2024-02-29'])]);
  expect(figure.table.rows).toHaveLength(366);
  expect(cell('30 December', 1)).toBe('2.00');
  expect(cell('30 December', 3)).toBe('0.00');
  // No such evening in 2023; the other lamp failed on it.
  expect(cell('29 February', 1)).toBe('');
  expect(cell('29 February', 3)).toBe('2.00');
  expect(names).toContain('>a on lawn, 2022/23<');
  expect(names).toContain('>b on lawn, 2023/24<');
  expect(names).not.toMatch(/>20\d\d</);
  const failed = figure.reader!.stops!.rows.map((row) => figure.table.rows[row]![0]);
  expect(failed).toEqual(['30 December', '29 February']);
});

test('a record of one winter names none', () => {
  expect(drawn([smallTrial()]).names).toContain('>single on lawn<');
  expect(
    nightsBesideChart(smallComparison({ decisive: [0] }), [smallRun([smallTrial({ nights: [] })])]),
  ).toBeUndefined();
});
