import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { compareJson } from '../../sim/output/compareJson.ts';
import { claimSentence, limitSentence } from '../../sim/output/limitSentence.ts';
import { terminalCompare } from '../../sim/output/terminalCompare.ts';
import { sideBySide } from '../../sim/output/textTable.ts';
import { writeFiles } from '../../sim/output/writeFiles.ts';
import { writeCompare } from '../../sim/output/writeRun.ts';
import { winterOdds } from '../../sim/statistics/WinterOdds.ts';
import { smallCompared, smallComparison, smallSpot } from './smallComparison.ts';

const PROGRAM = { version: '1.2.3', nodeMajor: 20 };
const folder = mkdtempSync(join(tmpdir(), 'longnight-compare-'));
afterAll(() => rmSync(folder, { recursive: true }));

describe('several winters side by side', () => {
  const winters = Array.from({ length: 10 }, (_, k) => ({
    winter: `20${10 + k}/${11 + k}`,
    complete: true,
    nights: 365,
    failedNights: k,
    short_h: k,
  }));
  const trial = smallCompared({ winters: 10, failedNights: 45, odds: winterOdds(winters)! });
  const comparison = smallComparison({
    trials: [trial],
    decisive: [0],
    tables: [{ name: 'single', trials: [0] }],
  });

  test('are told on the terminal as typical, worst in ten, worst, and the chance', () => {
    const text = terminalCompare(comparison, { details: true });
    for (const row of [
      /^ {2}failed nights, typical winter +4 or 5$/m,
      /^ {2}worst winter in ten +9$/m,
      /^ {2}worst winter +9$/m,
      /^ +2019\/20$/m,
      /^ {2}winters kept +1 of 10$/m,
      /^ {2}so of a hundred, 90 percent +2 to 35$/m,
      /^ {2}failed nights of all +45 of 365$/m,
    ])
      expect(text).toMatch(row);
    expect(terminalCompare(smallComparison(), { details: true })).not.toContain('typical winter');
  });

  test('stand in compare.json under their published names', () => {
    const [data] = JSON.parse(compareJson(comparison, PROGRAM)).trials;
    expect(data.odds).toMatchObject({ kept: 1, failed_nights: { typical: 4.5, worst_in_ten: 8.9 } });
  });
});

describe('compare.json', () => {
  const text = compareJson(smallComparison(), PROGRAM);

  test('asks of numbers that hardly anyone has, for people too', () => {
    const [scenario] = smallComparison().scenarios;
    const doubtful = smallComparison({
      scenarios: [{ ...scenario!, questions: ['rated_V 27 V? [single]'] }],
    });
    expect(JSON.parse(compareJson(doubtful, PROGRAM)).scenarios[0].questions).toEqual([
      'rated_V 27 V? [single]',
    ]);
    expect(terminalCompare(doubtful, { details: true })).toContain('\n? rated_V 27 V? [single]\n');
  });

  test('has the keys of schema 1 in their order', () => {
    const value = JSON.parse(text);
    expect(Object.keys(value)).toEqual([
      'schema',
      'longnight',
      'node_major',
      'by',
      'same_weather',
      'differences',
      'scenarios',
      'months',
      'axes',
      'spots',
      'claim',
      'trials',
      'tables',
      'cautions',
    ]);
    expect(value).toMatchObject({ schema: 1, longnight: '1.2.3', node_major: 20, by: 'spot' });
    expect(value.trials[0]).toMatchObject({
      spot: 'lawn',
      failed_nights: 18,
      longest_spell: { from: '2025-12-29', to: '2026-01-03', nights: 6 },
      claim: { in_winter: 'fails', winter: { evenings: 90, full: 10 } },
    });
  });

  test('holds the data of the pictures, on common axes', () => {
    const { axes, months, spots } = JSON.parse(text);
    expect(axes.light_Wh_m2_day).toBe(412);
    expect(spots[0].months.map(({ month }: { month: number }) => month)).toEqual(months);
    expect(spots[0].picture).toMatchObject({
      grid: {
        bearing_deg: [45, 135, 225, 315],
        in_leaf: [
          [1, 0, 0, 1],
          [1, 1, 0.3333, 1],
        ],
        bare: null,
      },
      outlines: [{ name: 'wall', bearing_from_to_deg: [[180, 0, 33.33]] }],
      sun_paths: [{ month: 12, bearing_elevation_passes: [[180, 12.57, 0]] }],
    });
  });

  test('gives null where a thing does not apply, and rounds the rest', () => {
    const logged = smallSpot({ limits: undefined, picture: undefined, dullShare: Number.NaN });
    const kept = smallCompared({ longestSpell: undefined, smallestReserve_J: Number.NaN });
    const value = JSON.parse(compareJson(smallComparison({ spots: [logged], trials: [kept] }), PROGRAM));
    expect(value.spots[0]).toMatchObject({ limits: null, picture: null, dull_days_light_share: null });
    expect(value.trials[0]).toMatchObject({ longest_spell: null, smallest_reserve_J: null });
    expect(value.trials[0].months[0].light_given_lm_h).toBe(800.333333);
  });

  test('holds no path of the scenario file, keeps texts as they are, and ends in a line break', () => {
    expect(text).not.toContain('/home/someone');
    expect(text.endsWith('}\n')).toBe(true);
    expect(text).toContain('"months": [7, 8, 9, 10, 11, 12, 1, 2, 3, 4, 5, 6]');
    const flags = ['a flag [ 1,\n  2 ] with a list in it'];
    const odd = compareJson(smallComparison({ trials: [smallCompared({ flags })] }), PROGRAM);
    expect(JSON.parse(odd).trials[0].flags).toEqual(flags);
  });
});

describe('the terminal', () => {
  const text = terminalCompare(smallComparison(), { details: true });

  test('shows spots side by side in at most 100 columns, the same without colour', () => {
    for (const line of text.split('\n')) expect(line.length, line).toBeLessThanOrEqual(100);
    expect(text).toContain('single, spot by spot');
    expect(text).toMatch(/failed nights +18 of 365 +18 of 365/);
    expect(text).toMatch(/promise +BROKEN +kept/);
    expect(text).toMatch(/failed in Dec \(h short\) +18 \(30\.8\) +18 \(30\.8\)/);
    expect(text).not.toContain('failed in Jan');
    const control = String.fromCharCode(27);
    const coloured = terminalCompare(smallComparison(), { colour: true, details: true });
    expect(coloured).toContain(control);
    expect(coloured.replaceAll(new RegExp(`${control}\\[\\d+m`, 'g'), '')).toBe(text);
  });

  test('gives light by month with its share of that on level ground', () => {
    expect(text).toMatch(/level ground +lawn/);
    expect(text).toMatch(/Dec +412 +204 {2}50% +204 {2}50%/);
  });

  test('draws the sky of spots with something around them, and of no other', () => {
    expect(text).toContain('Sky from lawn');
    const long = smallSpot({ spot: `behind-${'the-'.repeat(12)}hedge` });
    for (const line of terminalCompare(smallComparison({ spots: [long] }), { details: true }).split('\n'))
      expect(line.length, line).toBeLessThanOrEqual(100);
    const open = smallSpot({ hasSurroundings: false });
    const unknown = smallSpot({ picture: undefined });
    expect(terminalCompare(smallComparison({ spots: [open, unknown] }), { details: true })).not.toContain(
      'Sky from',
    );
  });

  test('says what differs before anything else, and then not that the weather is the same', () => {
    const [scenario] = smallComparison().scenarios;
    const comparison = smallComparison({
      scenarios: [scenario!, { ...scenario!, name: 'other' }],
      sameWeather: false,
      differences: ['DIFFERENT WEATHER (one; another): beware'],
    });
    const lines = terminalCompare(comparison, { details: true }).split('\n');
    expect(lines[0]).toMatch(/^invented and other compared/);
    expect(lines[1]).toBe('! DIFFERENT WEATHER (one; another): beware.');
    expect(lines.join('\n')).not.toContain('The same weather');
    expect(lines.join('\n')).toContain('invented lawn:');
  });

  test('tells how much of the claim holds, in one line for each trial, marked as without source', () => {
    expect(text).toContain('Claim tested (common practice, no source)');
    expect(text).toMatch(/^ +single on lawn +0% +0\.4 +170\/365 +10\/90 +68% +6\/12 +FAILS$/m);
  });
});

describe('a comparison of many trials', () => {
  const trials = ['single', 'double'].flatMap((lamp, l) =>
    Array.from({ length: 10 }, (_, s) =>
      smallCompared({ lamp, spot: `spot-${s}`, failedNights: l * s, verdict: l * s > 0 ? 'broken' : 'kept' }),
    ),
  );
  const comparison = smallComparison({
    trials,
    decisive: [0, 9, 19],
    spots: Array.from({ length: 10 }, (_, s) => smallSpot({ spot: `spot-${s}` })),
    tables: [
      { name: 'single', trials: trials.slice(0, 10).map((_, place) => place) },
      { name: 'double', trials: trials.slice(10).map((_, place) => 10 + place) },
    ],
  });

  test('has a line for each table, then the decisive trials in full and the sky from their spots', () => {
    const text = terminalCompare(comparison, { details: true });
    expect(text).toContain(
      [
        '\nLamp by lamp',
        '  single: kept with 10 of 10 spots',
        '  double: kept with 1 of 10 spots; most failed nights 9, with spot-9\n',
      ].join('\n'),
    );
    expect(text.replaceAll('\n', ' ')).toContain(
      'The other 17: a row each on the page, every number in compare.json.',
    );
    expect(text.match(/^ {2}\w+ on spot-\d/gm)).toEqual([
      ...['  single on spot-0', '  single on spot-9', '  double on spot-9'],
    ]);
    expect(text.match(/^Sky from spot-\d/gm)).toEqual(['Sky from spot-0', 'Sky from spot-9']);
  });

  test('keeps every trial in compare.json', () => {
    const { trials: told } = JSON.parse(compareJson(comparison, { version: '0', nodeMajor: 20 }));
    expect(told).toHaveLength(20);
  });
});

describe('limitSentence', () => {
  const { inSpot } = smallCompared();
  const comparison = (own = inSpot) => ({ trials: [{ ...smallCompared(), inSpot: own }], southern: false });

  test('names the limit and the numbers it rests on', () => {
    expect(limitSentence(smallSpot(), comparison())).toBe(
      'Limited most by the missing sun. In December and January: 50 percent of the unshaded light (87 on the ' +
        'duller half of the days), sun for 0 of 114 h of sunshine (0 percent of the direct sun), 90 percent of the light of ' +
        "the sky; at low sun the lid and the cell's front let in 71 percent of the light; the highest voltage the cell can charge to below the cut-off in 76 and below the capacitor's own in 127 of 497 hours of daylight, 8 percent of " +
        'what the cell could give not used for it; leakage took 0.2 percent of what came in.',
    );
  });

  test('gives a span where lamps differ, and the months of the south', () => {
    const other = { ...inSpot, reachableBelowCutoff_h: 90 };
    expect(
      limitSentence(smallSpot(), {
        trials: [...comparison().trials, ...comparison(other).trials],
        southern: true,
      }),
    ).toMatch(/In June and July: .* below the cut-off in 76 to 90 and/);
  });

  test.each([
    ['flat', "the lid and the cell's front"],
    ['none', "the cell's own front"],
    ['side-lit', "the jar and the cell's front"],
    ['resin', 'the resin over the cell'],
  ] as const)('names what lies over the cell where that takes most (%s)', (cover, words) => {
    const sentence = limitSentence(smallSpot({ limitedBy: 'cover', cover }), comparison());
    expect(sentence).toContain(`Limited most by ${words} at low sun.`);
    expect(sentence).toContain(`at low sun ${words} let in 71 percent of the light`);
  });

  test('says so where nothing is known of surroundings or winter', () => {
    const logged = smallSpot({ limits: undefined, limitedBy: 'dim-light' });
    expect(limitSentence(logged, comparison())).toContain('light logged on the cell');
    const summer = { ...inSpot, daylight_h: Number.NaN };
    expect(limitSentence(smallSpot({ limitedBy: 'unknown' }), comparison(summer))).toBe(
      'What limits it cannot be told. The record has no December and January.',
    );
  });
});

test('claimSentence tells what holds, in winter and in the year', () => {
  expect(claimSentence(smallCompared().claim, false)).toBe(
    'DOES NOT HOLD in winter: full on 170 of 365 evenings, 10 of 90 from December to February (then 68 percent on the ' +
      'middle evening); holds in 6 of 12 months. Full sun fills it in 0.4 h to 2.18 V.',
  );
});

describe('sideBySide', () => {
  test('breaks names at blanks and hyphens, and aligns cells under them', () => {
    const lines = sideBySide(['lawn', 'garden-a north-of-the-house'], [{ label: 'Dec', cells: ['5', '18'] }]);
    expect(lines).toEqual([
      '                  garden-a',
      '             north-of-the-',
      '       lawn          house',
      '  Dec     5             18',
    ]);
  });

  test('continues below what a line has no room for, under the same labels', () => {
    const names = Array.from({ length: 12 }, (_, k) => `a-spot-of-some-length-${k}`);
    const lines = sideBySide(names, [{ label: 'nights failed', cells: names.map((_, k) => `${k} of 365`) }]);
    for (const line of lines) expect(line.length).toBeLessThanOrEqual(100);
    expect(lines.filter((line) => line.startsWith('  nights failed'))).toHaveLength(3);
    expect(lines.join('\n').match(/\d+ of 365/g)).toHaveLength(12);
  });
});

describe('writeCompare', () => {
  test('writes page and compare.json into a folder of the scenarios’ names, byte for byte as it says', () => {
    const [scenario] = smallComparison().scenarios;
    const two = smallComparison({ scenarios: [scenario!, { ...scenario!, name: 'other' }] });
    const written = writeCompare(two, [], folder);
    expect(written).toMatchObject({
      folder: 'compare-invented+other',
      files: ['report.html', 'compare.json'],
    });
    expect(readdirSync(join(folder, written.folder)).sort()).toEqual(['compare.json', 'report.html']);
    expect(readFileSync(join(folder, written.folder, 'compare.json'), 'utf8')).toBe(written.json);
  });
});

describe('writeFiles', () => {
  test('takes away what it did not write', () => {
    const place = join(folder, 'files');
    writeFiles(place, [{ name: 'old.txt', pieces: () => ['old'] }], []);
    writeFiles(place, [{ name: 'a.txt', pieces: () => ['ab', 'c'] }], ['old.txt', 'a.txt', 'b.txt']);
    expect(readdirSync(place)).toEqual(['a.txt']);
    expect(readFileSync(join(place, 'a.txt'), 'utf8')).toBe('abc');
  });

  test('leaves the files of an earlier time where it fails half-way', () => {
    const place = join(folder, 'half');
    const known = ['a.txt', 'b.txt'];
    writeFiles(place, [{ name: 'a.txt', pieces: () => ['first'] }], known);
    const failing = {
      name: 'b.txt',
      pieces: (): Iterable<string> => {
        throw new Error('no more');
      },
    };
    expect(() => writeFiles(place, [{ name: 'a.txt', pieces: () => ['second'] }, failing], known)).toThrow(
      'no more',
    );
    expect(readdirSync(place)).toEqual(['a.txt']);
    expect(readFileSync(join(place, 'a.txt'), 'utf8')).toBe('first');
  });
});
