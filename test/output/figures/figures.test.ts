import { describe, expect, test } from 'vitest';
import { capacitorChart } from '../../../sim/output/figures/capacitorChart.ts';
import { changeChart } from '../../../sim/output/figures/changeChart.ts';
import { element, escapeText, isolated } from '../../../sim/output/figures/element.ts';
import { energyChart } from '../../../sim/output/figures/energyChart.ts';
import type { Figure } from '../../../sim/output/figures/Figure.ts';
import { fortnightChart } from '../../../sim/output/figures/fortnightChart.ts';
import { monthTicks } from '../../../sim/output/figures/monthAxis.ts';
import { nightChart } from '../../../sim/output/figures/nightChart.ts';
import type { NightColumn } from '../../../sim/output/figures/nightColumns.ts';
import { clockText } from '../../../sim/output/figures/nightColumns.ts';
import { nightStrip } from '../../../sim/output/figures/nightStrip.ts';
import { skyChart } from '../../../sim/output/figures/skyChart.ts';
import { slug, standaloneSvg } from '../../../sim/output/figures/standaloneSvg.ts';
import { thresholdChart } from '../../../sim/output/figures/thresholdChart.ts';
import { weatherChart } from '../../../sim/output/figures/weatherChart.ts';
import { darkNight, smallLight, smallNight, smallStatistics } from '../smallRun.ts';

/** Elements of a class in a picture, its legend left out. */
function marksOf(figure: Pick<Figure, 'svg'>, name: string, className: string): string[] {
  const drawn = figure.svg.replace(/<g class="legend">.*?<\/g>/gs, '');
  const found = drawn.match(new RegExp(`<${name}\\b[^>]*>`, 'g')) ?? [];
  return found.filter((tag) => (/class="([^"]*)"/.exec(tag)?.[1] ?? '').split(' ').includes(className));
}

function numberOf(tag: string, attribute: string): number {
  return Number(new RegExp(` ${attribute}="([^"]*)"`).exec(tag)?.[1]);
}

/** Every bracket closed, in the order it was opened. */
function expectWellFormed(markup: string): void {
  const open: string[] = [];
  for (const [, closing, name, own] of markup.matchAll(/<(\/?)([a-zA-Z]+)(?:\s[^<>]*?)?(\/?)>/g)) {
    if (closing === '/') expect(open.pop()).toBe(name);
    else if (own !== '/') open.push(name!);
  }
  expect(open).toEqual([]);
  expect(markup).not.toMatch(/NaN|Infinity|undefined/);
}

const night = (date: string, changes: Partial<NightColumn> = {}): NightColumn => ({
  row: smallNight(date),
  dusk_h: 16.5,
  dawn_h: 31.5,
  spans: [{ from_h: 16.5, to_h: 22.5, kind: 'lit' }],
  firstShort_h: Number.NaN,
  ...changes,
});

const NIGHTS: NightColumn[] = [
  night('2025-12-20'),
  night('2025-12-21', {
    row: darkNight('2025-12-21', 2),
    spans: [
      { from_h: 16.5, to_h: 20.5, kind: 'lit' },
      { from_h: 20.5, to_h: 22.5, kind: 'dark' },
      { from_h: 22.5, to_h: 23, kind: 'beyond' },
    ],
    firstShort_h: 20.5,
  }),
  night('2025-12-22', {
    dusk_h: Number.NaN,
    dawn_h: Number.NaN,
    spans: [],
    row: smallNight('2025-12-22', { outcome: 'nothing-promised' }),
  }),
];

describe('the night chart', () => {
  const figure = nightChart('t', 'lamp on spot', NIGHTS, 'Three nights.');

  test('has a mark for each night and kind of time in it, and a triangle for each failed night', () => {
    expect(marksOf(figure, 'path', 'lit')).toHaveLength(2);
    expect(marksOf(figure, 'path', 'hatched')).toHaveLength(1);
    expect(marksOf(figure, 'path', 'beyond')).toHaveLength(1);
    expect(marksOf(figure, 'path', 'failure')).toHaveLength(1);
    expectWellFormed(figure.svg);
  });

  test('draws an hour of one night as long as that of another, later ones further down', () => {
    const spans = [...marksOf(figure, 'path', 'lit'), ...marksOf(figure, 'path', 'hatched')].map((tag) => {
      const [, from, to] = /M[\d.]+ ([\d.]+)h[\d.]+V([\d.]+)/.exec(tag)!.map(Number);
      return { from: from!, height: to! - from! };
    });
    const [six, four, two] = spans;
    expect(four!.height / six!.height).toBeCloseTo(4 / 6, 3);
    expect(two!.height / six!.height).toBeCloseTo(2 / 6, 3);
    expect(two!.from).toBeCloseTo(four!.from + four!.height, 1);
  });

  test('breaks the night off where the sun does not sink far enough', () => {
    const all = nightChart('t', 'x', NIGHTS.slice(2), '');
    expect(marksOf(all, 'path', 'night')[0]).not.toContain(' d=');
  });

  test('says in words what it shows, and holds the data of each night', () => {
    expect(figure.svg).toContain('>Three nights.</desc>');
    expect(figure.svg).toContain('>Every night: lamp on spot</title>');
    expect(figure.table.rows).toHaveLength(3);
    const row = Object.fromEntries(
      figure.table.columns.map(({ heading }, k) => [heading, figure.table.rows[1]![k]]),
    );
    expect(row).toMatchObject({
      night: '2025-12-21',
      outcome: 'failed',
      short_h: '2.00',
      first_short_local: '20:30',
      cause: 'the capacitor ran empty',
    });
    expect(figure.reader).toMatchObject({ step: 'night', first: 1, stops: { rows: [1] } });
  });

  test('has neither nights nor errors for an empty winter', () => {
    const empty = nightChart('t', 'x', [], '');
    expect(marksOf(empty, 'path', 'lit')).toEqual([]);
    expectWellFormed(empty.svg);
  });
});

test('the strip of a winter lets short time hang down by its share of the promise', () => {
  const strip = { svg: nightStrip([smallNight('2025-12-20'), darkNight('2025-12-21', 3)]) };
  const [dark] = marksOf(strip, 'path', 'dark');
  expect(dark).toContain('d="M183 0h183V15h-183z"');
  expectWellFormed(strip.svg);
});

describe('the capacitor through the year', () => {
  const days = ['2025-12-30', '2025-12-31'].map((date, k) => ({
    night: date,
    lowest_V: 1 + k,
    highest_V: 2 + k,
  }));
  const rows = new Map([['2025-12-30', smallNight('2025-12-30', { highestReachable_V: 2.5 })]]);
  const figure = capacitorChart('t', 'x', days, rows, { cutoff_V: 0.9, rated_V: 2.7 }, '');

  test('has one band, one reachable voltage, and the cut-off and the rated voltage by name', () => {
    expect(marksOf(figure, 'path', 'band')).toHaveLength(1);
    expect(marksOf(figure, 'path', 'reachable')).toHaveLength(1);
    expect(marksOf(figure, 'path', 'limit')).toHaveLength(2);
    expect(figure.svg).toContain('cut-off 0.9 V');
    expect(figure.svg).toContain('rated 2.7 V');
    expectWellFormed(figure.svg);
  });

  test('places the limits by one scale from zero', () => {
    const [cutoff, rated] = marksOf(figure, 'path', 'limit').map((tag) =>
      Number(/M[\d.]+ ([\d.]+)H/.exec(tag)![1]),
    );
    const zero = 330 - 42;
    expect((zero - rated!) / (zero - cutoff!)).toBeCloseTo(2.7 / 0.9, 2);
  });

  test('begins to read at the lowest day, and leaves out a reachable voltage that is not known', () => {
    expect(figure.reader!.first).toBe(0);
    expect(figure.table.rows).toEqual([
      ['2025-12-30', '1.000', '2.000', '2.500'],
      ['2025-12-31', '2.000', '3.000', ''],
    ]);
  });
});

test('the darkest fortnight marks where it fell dark, short hours and lit ones', () => {
  const hours = Array.from({ length: 48 }, (_, k) => ({
    local: `2025-12-${20 + Math.floor((k + 12) / 24)}T${String((k + 12) % 24).padStart(2, '0')}:00`,
    light_W_m2: k < 4 ? 30 : 0,
    air_degC: -2,
    jar_degC: -1,
    capacitorLowest_V: 1,
    capacitorEnd_V: 1.1,
    light_lm: k >= 5 && k < 8 ? 2 : 0,
    promised_min: k >= 5 && k < 10 ? 60 : 0,
    short_min: k >= 8 && k < 10 ? 60 : 0,
  }));
  const nights = [
    { dusk: 5, dawn: 19, firstShort: 8, firstShort_local: '20:00', failed: true },
    { dusk: 29, dawn: 43, firstShort: Number.NaN, firstShort_local: '', failed: false },
  ];
  const figure = fortnightChart('t', 'x', { hours, nights }, { cutoff_V: 0.9, rated_V: 2.7 }, '');
  expect(marksOf(figure, 'rect', 'lit')).toHaveLength(3);
  expect(marksOf(figure, 'rect', 'hatched')).toHaveLength(2);
  expect(marksOf(figure, 'path', 'event')).toHaveLength(1);
  // Two nights in each of the four panels.
  expect(marksOf(figure, 'rect', 'night')).toHaveLength(8);
  expect(figure.svg).toContain('>20:00</text>');
  expect(figure.reader).toMatchObject({ first: 8, stops: { rows: [8] } });
  expectWellFormed(figure.svg);
});

test('the energy of a month is stacked to its whole, in the names of the ledger', () => {
  const { energy } = smallStatistics();
  const months = ['2025-11', '2025-12'].map((month) => ({ ...energy, month, night: `${month}-01` }));
  const figure = energyChart('t', 'x', months, '');
  const heightOf = (name: string, from: number) =>
    marksOf(figure, 'rect', name)
      .map((tag) => numberOf(tag, 'height'))
      .filter((_, k) => k % 2 === from);
  // Given, unharvested low and unharvested high lie over each other: 65, 10 and 5 of 80 kJ.
  const [given] = heightOf('lit', 0);
  const [low] = heightOf('dotted', 0);
  expect(low! / given!).toBeCloseTo(1e4 / 6.5e4, 2);
  for (const words of [
    'unharvested, capacitor low',
    'unharvested, capacitor high',
    'blocking diode',
    'leakage',
    'delayed branch',
    'driver',
    'LED',
  ])
    expect(figure.svg).toContain(`>${words}</text>`);
  expect(figure.svg).not.toContain('>limiter</text>');
  expect(
    Object.fromEntries(figure.table.columns.map(({ heading }, k) => [heading, figure.table.rows[0]![k]])),
  ).toMatchObject({
    cell_best_Wh: '22.222',
    led_Wh: '12.500',
    stored_change_Wh: '0.097',
  });
  expectWellFormed(figure.svg);
});

test('light by threshold has three bars a month, as high as their hours', () => {
  const month = {
    month: '2025-12',
    night: '2025-12-01',
    nights: 31,
    promised_h: 6,
    abovePromised_h: 6,
    aboveHalf_h: 3,
    aboveFifth_h: 4.5,
  };
  const figure = thresholdChart('t', 'x', [month], 1.5, '');
  const height = (name: string) => numberOf(marksOf(figure, 'rect', name)[0]!, 'height');
  expect(height('fill-lightDeep') / height('lit')).toBeCloseTo(0.5, 3);
  expect(height('fill-lightPale') / height('lit')).toBeCloseTo(0.75, 3);
  expect(figure.svg).toContain('at or above the promised 1.5 lm');
  expectWellFormed(figure.svg);
});

test('the year of the weather draws lit hours by their step, and filled hours apart', () => {
  const light = smallLight(48, Date.UTC(2025, 0, 1));
  light.ghi_W_m2.fill(0);
  light.ghi_W_m2.set([300, 300, 900], 10);
  light.mark[11] = 3;
  const days = [0, 1].map((k) => ({
    night: `2025-01-0${k + 1}`,
    ghi_Wh_m2: 0,
    coldest_degC: -3,
    warmest_degC: 2,
    filled_h: k === 0 ? 1 : 0,
    from: 24 * k,
    to: 24 * k + 24,
    offset_min: 60,
  }));
  const figure = weatherChart('run', days, light, '');
  // 10 and 11 h UTC are 11 and 12 h by the clock: one stroke of two hours; 264 units a day.
  const [stroke] = marksOf(figure, 'path', 'step4');
  expect(stroke).toMatch(/d="M[\d.]+ ([\d.]+)h[\d.]+V([\d.]+)h/);
  const [, from, to] = /d="M[\d.]+ ([\d.]+)h[\d.]+V([\d.]+)h/.exec(stroke!)!.map(Number);
  expect(to! - from!).toBeCloseTo(22, 0);
  expect(marksOf(figure, 'path', 'step7')).toHaveLength(1);
  expect(marksOf(figure, 'path', 'step0')).toHaveLength(0);
  expect(marksOf(figure, 'path', 'filled')).toHaveLength(1);
  expectWellFormed(figure.svg);
});

test('single changes are bars of the nights they leave, none where none fails', () => {
  const change = {
    change: 'one more <capacitor>',
    detail: '2 instead of 1',
    failedNightsBefore: 18,
    failedNights: 9,
    shortBefore_h: 30,
    short_h: 10,
  };
  const figure = changeChart(
    't',
    'x',
    [{ ...change, failedNights: 0 }, change, { ...change, failedNights: 80, cost: 4.5 }],
    '',
  );
  const bars = marksOf(figure, 'rect', 'hatched').map((tag) => numberOf(tag, 'width'));
  expect(bars).toHaveLength(2);
  // As long as twice the nights that fail now, and no longer.
  expect(bars[1]! / bars[0]!).toBeCloseTo(4, 3);
  expect(figure.svg).toContain('one more &lt;capacitor&gt;');
  expect(figure.svg).toContain('80 fail (bar cut), costs 4.50');
  expectWellFormed(figure.svg);
});

test('the sky from a spot draws what is hidden in one rect a run, and the way of the sun dotted where hidden', () => {
  const figure = skyChart(
    't',
    'north & side',
    {
      grid: {
        bearing_deg: [45, 135, 225, 315],
        elevation_deg: [22.5, 67.5],
        inLeaf: [
          [1, 0, 0, 1],
          [1, 1, 0.5, 1],
        ],
        bare: undefined,
      },
      outlines: [],
      sunPaths: [
        {
          month: 12,
          points: [
            { bearing_deg: 150, elevation_deg: 5, passes: 0 },
            { bearing_deg: 180, elevation_deg: 12, passes: 1 },
            { bearing_deg: 210, elevation_deg: 5, passes: 1 },
          ],
        },
      ],
      months: [{ month: 12, sun_h: 7.5, beam_h: 2.5 }],
    },
    false,
    '',
  );
  const hidden = marksOf(figure, 'rect', 'shut');
  expect(hidden).toHaveLength(2);
  expect(numberOf(hidden[0]!, 'width')).toBeCloseTo(numberOf(hidden[1]!, 'width') * 2, 1);
  expect(hidden[1]).toContain('fill-opacity="0.5"');
  expect(marksOf(figure, 'path', 'path')).toHaveLength(1);
  expect(marksOf(figure, 'path', 'pathHidden')).toHaveLength(1);
  expect(
    numberOf(marksOf(figure, 'rect', 'slanted')[0]!, 'height') /
      numberOf(marksOf(figure, 'rect', 'lit')[0]!, 'height'),
  ).toBeCloseTo(3, 2);
  expectWellFormed(figure.svg);
});

describe('text in pictures', () => {
  test('names that look like markup are escaped in title, words and attributes', () => {
    const name = `"><script>alert(1)</script>'&`;
    const figure = nightChart('t', name, NIGHTS, name);
    expect(figure.svg).not.toContain('<script');
    expect(figure.svg).toContain('&quot;&gt;&lt;script&gt;alert(1)&lt;/script&gt;&#39;&amp;');
    expect(element('g', { id: '"<&' })).toBe('<g id="&quot;&lt;&amp;"/>');
    expectWellFormed(
      standaloneSvg(figure)
        .replace(/^<\?xml.*\n/, '')
        .replace(/<style>.*?<\/style>/s, ''),
    );
  });

  test('characters that XML forbids, and halves of pairs, are replaced; emoji and letters of any script stay', () => {
    expect(escapeText('a\u0000b\u001fc\ud83cd')).toBe('a\ufffdb\ufffdc\ufffdd');
    expect(escapeText('🏡 שלום\t\n')).toBe('🏡 שלום\t\n');
  });

  test('a name is fenced off, and loses marks that would turn the words after it', () => {
    expect(isolated('ab\u202ec\u2069d')).toBe('\u2068abcd\u2069');
  });

  test('a file name keeps letters and digits of a name, and nothing else', () => {
    expect(slug('../Étang <1>')).toBe('e-tang-1');
    expect(slug('🏡')).toBe('');
  });
});

test('months of an axis begin where they begin, a joined year begins again', () => {
  const ticks = monthTicks(['2025-11-30', '2025-12-01', '2025-12-31', '2025-01-01']);
  expect(ticks.map(({ index, length, name, newYear }) => [index, length, name, newYear])).toEqual([
    [0, 1, 'Nov', true],
    [1, 2, 'Dec', false],
    [3, 1, 'Jan', true],
  ]);
});

test('the clock of a night goes past midnight', () => {
  expect([clockText(16.5), clockText(24), clockText(31.999), clockText(Number.NaN)]).toEqual([
    '16:30',
    '00:00',
    '08:00',
    '',
  ]);
});

test('a picture that stands alone carries its style, both themes and its title', () => {
  const text = standaloneSvg(nightChart('t', 'lamp', NIGHTS, 's'));
  expect(text).toContain('prefers-color-scheme:dark');
  expect(text).toContain('>Every night: lamp</text>');
  expect(text).toContain('<pattern id="hatch"');
});
