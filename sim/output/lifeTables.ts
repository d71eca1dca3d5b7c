import type { LifeWinter } from '../ageing/LifeRun.ts';
import type { TrialLife } from '../ageing/ScenarioLives.ts';
import { fixed } from '../common/csvText.ts';
import { bandOf, bandWords, nightsText } from './bandWords.ts';
import type { TextColumn } from './textTable.ts';

/** A winter of a trial's three lives. */
export type BandWinter = readonly LifeWinter[];

/**
 * Some winters of a trial, evenly from the first to the last.
 *
 * in: trial; rows, how many at most
 */
export function someWinters({ bands }: TrialLife, rows = 5): BandWinter[] {
  const last = bands[0]!.winters.length;
  const chosen = Array.from({ length: rows }, (_, k) => Math.max(1, Math.round((k * last) / (rows - 1))));
  return [...new Set(chosen)].map((winter) => bands.map(({ winters }) => winters[winter - 1]!));
}

/**
 * The columns of a table of winters: capacitance left, failed nights, and light, or of several winters of weather in
 * how many of a hundred the promise is broken; each by the middle factor, and between which the others lie.
 *
 * in: several, whether each winter is run through several
 */
export function winterColumns(several: boolean): TextColumn<BandWinter>[] {
  const band = (of: (winter: LifeWinter) => number, decimals: number) => (winters: BandWinter) =>
    bandWords(bandOf(winters, of), (value) => fixed(value, decimals));
  return [
    { heading: ['', 'winter'], cell: ([first]) => `${first!.winter}` },
    {
      heading: ['capacitance', 'left, percent'],
      cell: band(({ age }) => 100 * age.capacitor.capacitance, 0),
    },
    {
      heading: ['failed', 'nights'],
      cell: (winters) =>
        bandWords(
          bandOf(winters, ({ failedNights }) => failedNights),
          nightsText,
        ),
    },
    several
      ? { heading: ['winters broken', 'of 100'], cell: band(({ broken }) => 100 * broken, 0) }
      : { heading: ['light', 'klm h'], cell: band(({ light_lm_h }) => light_lm_h / 1000, 1) },
  ];
}
