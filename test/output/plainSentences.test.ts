import { describe, expect, test } from 'vitest';
import type { PromiseSection } from '../../sim/lamp/schedule/schema.ts';
import type { NightRow } from '../../sim/night/nightLedger.ts';
import { type PlainSetting, plainSentences } from '../../sim/output/plainSentences.ts';
import { nightStatistics } from '../../sim/statistics/overWinters.ts';
import { winterStatistics } from '../../sim/statistics/winterStatistics.ts';
import { darkNight, nightsFrom, smallNight } from './smallRun.ts';

const PROMISE: PromiseSection = { from: 'dusk', hours: 6, least_lumen: 0.5, tolerance_h: 0.25 };
const NORTH = 54;
const SOUTH = -41;

/** A year joined to itself, from January, in which the nights named fail; the others are kept. */
function year(
  failed: readonly NightRow[] = [],
  others: Partial<NightRow> = {},
  winter = '2025 joined',
): NightRow[] {
  const byDate = new Map(failed.map((row) => [row.night, row]));
  return nightsFrom('2025-01-01', 365, (night) => byDate.get(night) ?? smallNight(night, others)).map(
    (row) => ({
      ...row,
      winter,
    }),
  );
}

/** Whole winters of a record from July on, by how many nights fail from 20 December on. */
function winters(failed: readonly number[]): NightRow[] {
  return failed.flatMap((count, k) => {
    const begins = 2000 + k;
    const nights = (Date.UTC(begins + 1, 6, 1) - Date.UTC(begins, 6, 1)) / 86_400_000;
    const dark = new Set(nightsFrom(`${begins}-12-20`, count, smallNight).map(({ night }) => night));
    const winter = `${begins}/${String(begins + 1).slice(2)}`;
    return nightsFrom(`${begins}-07-01`, nights, (night) => ({
      ...(dark.has(night) ? darkNight(night, 2, 2) : smallNight(night)),
      winter,
    }));
  });
}

function said(nights: NightRow[], setting: Partial<PlainSetting> = {}): string[] {
  const latitude_deg = setting.latitude_deg ?? NORTH;
  const statistics = nightStatistics(winterStatistics(nights, latitude_deg));
  return [...plainSentences({ nights, statistics }, { promise: PROMISE, latitude_deg, ...setting })];
}

describe('a year, in two sentences', () => {
  test('all kept: how close the closest night comes, in shares of what is usual', () => {
    const hard = smallNight('2025-12-21', { reserveDawn_J: 80 });
    expect(said(year([hard]))).toEqual([
      'It shines for six hours after dusk on every night of the year.',
      'Its closest call is the night of 21 December: by morning about a third of the usual is left.',
    ]);
    const empty = smallNight('2025-12-21', { reserveDawn_J: -1 });
    expect(said(year([empty]))[1]).toContain('by morning nothing is left to shine with.');
    expect(said(year([], { reserveDawn_J: Number.NaN }))[1]).toBe(
      'How near it comes to failing is not known.',
    );
  });

  test('one night failed is named, with what was missing of it', () => {
    expect(said(year([darkNight('2025-12-30', 2.1, 2.1)]))).toEqual([
      'It shines for six hours after dusk on every night of the year but one, 30 December.',
      'That night it is too dim for about two hours.',
    ]);
    expect(said(year([darkNight('2025-12-30', 6)]))[1]).toBe('That night it is out for all of that time.');
    expect(said(year([{ ...darkNight('2025-12-30', 0.3), cause: 'snow' }]))[1]).toBe(
      'That night it is out for about a quarter of an hour, with snow on its lid to blame.',
    );
  });

  test('a few in a row run over the turn of the year, and are named by their dates', () => {
    const before = nightsFrom('2025-12-30', 2, (night) => darkNight(night, 5.3, 1));
    const after = nightsFrom('2025-01-01', 3, (night) => darkNight(night, 2, 2));
    expect(said(year([...before, ...after]))).toEqual([
      'It shines for six hours after dusk on every night of the year but five in a row, 30 December to 3 January.',
      'Of the five nights that fall short it is out for some of that time or all of it on two, and dim rather than out on three; the worst is 30 December, when it is too dim or out for about five and a quarter hours.',
    ]);
  });

  test('a few apart from each other lie between two dates, mostly in a month, or from one to another', () => {
    const on = (...dates: string[]) => said(year(dates.map((night) => darkNight(night, 2))))[0];
    expect(on('2025-12-18', '2025-12-25', '2025-01-04')).toMatch(
      / but three, all between 18 December and 4 January\.$/,
    );
    expect(on('2025-10-30', '2025-12-18', '2025-12-25')).toMatch(/ but three, two of them in December\.$/);
    expect(on('2025-10-30', '2025-12-18', '2025-02-25')).toMatch(
      / but three, the first on 30 October, the last on 25 February\.$/,
    );
  });

  test('many failed are a count of the kept, with the season of the others', () => {
    const dark = (first: string, count: number, row = (night: string) => darkNight(night, 6)) =>
      nightsFrom(first, count, row);
    const [first, second] = said(year([...dark('2025-10-01', 92), ...dark('2025-01-01', 31)]));
    expect(first).toBe('It shines for six hours after dusk on 242 of the 365 nights of the year.');
    expect(second).toBe(
      'On the 123 nights that fall short, all between 1 October and 31 January, it is out for some of that time or all of it; the worst is 1 October, when it is out for all of that time.',
    );
    expect(said(year(dark('2025-01-01', 300)))[0]).toBe(
      'It shines for six hours after dusk on only 65 of the 365 nights of the year.',
    );
  });

  test('every night failed, dim or out', () => {
    const all = said(year(nightsFrom('2025-01-01', 365, (night) => darkNight(night, 3, 3))));
    expect(all).toEqual([
      'It shines for six hours after dusk on no night of the year.',
      'On the 365 nights that fall short it is dim rather than out; the worst is 1 July, when it is too dim for about three hours.',
    ]);
  });

  test('snow is blamed for its own', () => {
    const [one, two] = nightsFrom('2025-12-30', 2, (night) => darkNight(night, 2));
    expect(said(year([{ ...one!, cause: 'snow' }, two!]))[1]).toContain(
      'all of it (snow on the lid is to blame for one); the worst',
    );
    expect(
      said(
        year([
          { ...one!, cause: 'snow' },
          { ...two!, cause: 'snow' },
        ]),
      )[1],
    ).toContain('to blame for all)');
  });
});

describe('the promise, in words that hold', () => {
  const first = (promise: Partial<PromiseSection>, nights = year()) => {
    const { hours, ...rest } = PROMISE;
    return said(nights, {
      promise: { ...('until' in promise ? rest : PROMISE), ...promise } as PromiseSection,
    })[0];
  };

  test('by hours, by the clock, until dawn', () => {
    expect(first({ hours: 6.5 })).toContain('for six and a half hours after dusk on');
    expect(first({ hours: 1 })).toContain('for one hour after dusk on');
    expect(first({ hours: 0.5 })).toContain('for half an hour after dusk on');
    expect(first({ from: '16:30', hours: 4 })).toContain('for four hours from 16:30 on');
    expect(first({ until: 'dawn' })).toContain('from dusk until dawn on');
    expect(first({ from: '18:30', until: '23:00' })).toContain('from 18:30 until 23:00 on');
  });

  test('nights shorter than the promise end with the dawn, and only where there are such', () => {
    const summer = smallNight('2025-06-21', { promised_h: 4, lit_h: 4 });
    expect(first({}, year([summer]))).toContain('for six hours after dusk, or until dawn, on every night');
    expect(first({ until: 'dawn' }, year([summer]))).toContain('from dusk until dawn on every night');
    expect(first({ from: '16:00', hours: 6 }, year([summer]))).toContain(
      'for six hours from 16:00 on every night',
    );
  });

  test('what was forgiven is said, and only where something was', () => {
    const nearly = smallNight('2025-12-21', { lit_h: 5.8, short_h: 0.2, dim_h: 0.2 });
    expect(first({}, year([nearly]))).toContain(
      'after dusk, give or take a quarter of an hour, on every night',
    );
    expect(first({})).not.toContain('give or take');
  });

  test('nights without a promise are left out', () => {
    const none = nightsFrom('2025-06-01', 30, (night) =>
      smallNight(night, { promised_h: 0, lit_h: 0, outcome: 'nothing-promised' }),
    );
    expect(first({ until: '23:00' }, year(none))).toBe(
      'It shines from dusk until 23:00 on every night of the year for which that is promised.',
    );
    const all = nightsFrom('2025-01-01', 365, (night) =>
      smallNight(night, { promised_h: 0, outcome: 'nothing-promised' }),
    );
    expect(said(year(all))[0]).toBe('No night of this record is promised any light.');
    expect(said([])[0]).toBe('No night of this record is promised any light.');
  });

  test('a lamp that flashes, or waits, does not simply shine', () => {
    expect(said(year(), { schedule: { on_share: 0.5 } })[0]).toContain('It shines in flashes for six hours');
    const motion = { triggers_per_h: 2, shines_s: 30 };
    expect(said(year(), { schedule: { on_share: 1, motion } })[0]).toContain(
      'It shines, when something moves, for six hours after dusk on',
    );
  });

  test('a made winter is no year that was', () => {
    expect(said(year(), { made: true })[0]).toBe(
      'In a typical made winter it shines for six hours after dusk on every night.',
    );
  });
});

describe('other records', () => {
  test('the dark months alone are no year', () => {
    const winter = nightsFrom('2025-10-01', 150, (night) => smallNight(night));
    expect(said(winter)[0]).toBe(
      'From 1 October 2025 to 27 February 2026, all that is on record, it shines for six hours after dusk on every night.',
    );
    const days = nightsFrom('2025-12-08', 13, (night) =>
      night === '2025-12-14' ? darkNight(night, 6) : smallNight(night),
    );
    expect(said(days)[0]).toBe(
      'From 8 to 20 December 2025, all that is on record, it shines for six hours after dusk on every night but one, 14 December.',
    );
  });

  test('a whole winter between parts of others is named by its dates', () => {
    const rest = nightsFrom('2001-07-01', 40, (night) => smallNight(night, { winter: '2001/02' }));
    expect(said([...winters([2]), ...rest])[0]).toBe(
      'From 1 July 2000 to 30 June 2001, it shines for six hours after dusk on every night but two in a row, 20 to 21 December.',
    );
  });

  test('south of the equator a season is a calendar year, and its spells lie in June', () => {
    const dark = nightsFrom('2025-06-20', 12, (night) => darkNight(night, 2));
    expect(said(year(dark), { latitude_deg: SOUTH })[0]).toBe(
      'It shines for six hours after dusk on every night of the year but twelve in a row, 20 June to 1 July.',
    );
  });

  test('several winters: how many keep it, then the typical and the worst with its year', () => {
    expect(said(winters([0, 3, 0, 8]))).toEqual([
      'In two of four winters on record it shines for six hours after dusk on every night.',
      'In a typical winter one or two nights fall short, in the worst, 2003/04, eight: it is dim rather than out on each; the worst is 20 December 2003, when it is too dim for about two hours.',
    ]);
    expect(said(winters([1, 0, 0]))[1]).toBe(
      'In a typical winter no night falls short, in the worst, 2000/01, one: 20 December 2000, when it is too dim for about two hours.',
    );
    expect(said(winters([1, 0]))[1]).toContain('In a typical winter one night at most falls short, ');
  });

  test('several winters: all keep it, or none', () => {
    const [both, close] = said(winters([0, 0]));
    expect(both).toBe('In both winters on record it shines for six hours after dusk on every night.');
    expect(close).toMatch(
      /^Its closest call is the night of \d+ \w+ 2000: by morning about as much as usual is left\.$/,
    );
    expect(said(winters([0, 0, 0]))[0]).toMatch(/^In all three winters on record it shines/);
    expect(said(winters([1, 2, 1]))[0]).toBe(
      'Of three winters on record there is none in which it shines for six hours after dusk on every night.',
    );
  });

  test('several winters of dark months alone say so', () => {
    const dark = winters([0, 0]).filter(({ night }) => /-(10|11|12|01|02|03)-/.test(night));
    expect(said(dark)[0]).toBe(
      'In both winters on record it shines for six hours after dusk on every night that is on record.',
    );
  });
});
