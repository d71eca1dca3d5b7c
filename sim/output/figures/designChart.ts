import { max, min } from 'd3-array';
import { type ScaleLinear, type ScalePower, scaleLinear, scaleSqrt } from 'd3-scale';
import { fixed } from '../../common/csvText.ts';
import type { SizedDesign } from '../../sizing/SizedDesign.ts';
import type { Sizing, SpaceAnswer } from '../../sizing/sizeScenario.ts';
import { designWords } from '../designWords.ts';
import { namedDesigns } from '../frontTable.ts';
import { type ChartColumn, chart, numbers, texts } from './chart.ts';
import { type Box, coordinate, element, label, path } from './element.ts';
import type { Figure } from './Figure.ts';
import { LETTER_STRONG, type LegendEntry } from './legend.ts';
import { type FigureFile, slug } from './standaloneSvg.ts';

/** Largest radius of a mark. */
const LARGEST = 9;
/** Of designs that fall so close together only the brightest is drawn. */
const CELL = 4;
const LEGEND: readonly LegendEntry[] = [
  { mark: 'fill-shortPale', over: 'outlineSoft', round: true, words: 'a design; the larger, the more light' },
  {
    mark: 'lit',
    over: 'outlineSoft',
    round: true,
    words: 'nothing beats it in cost, failed nights and light',
  },
  { mark: 'capacitor', line: true, words: 'fewest failed nights for the money' },
];

/** A row of the picture's data. */
interface Row {
  named: string;
  sized: SizedDesign;
}

/**
 * What designs cost and how many nights they fail, each as large as its light: those that nothing beats, the line of what
 * money buys, and the recommended ones by name.
 *
 * in: id; name of the spot, '' where it is a choice; answer; currency
 * out: the picture, also for a narrow screen; a circle a design of those that lie apart, of class lit where nothing beats it
 */
export function designChart(
  id: string,
  name: string,
  answer: SpaceAnswer,
  currency: string | undefined,
): Figure {
  const named = namedDesigns(answer);
  const others = answer.front.filter(({ design }) => !named.some(({ sized }) => sized.design === design));
  const rows: Row[] = [...named, ...others.map((sized) => ({ named: '', sized }))].sort(
    (a, b) => costOf(a.sized) - costOf(b.sized),
  );
  const facts = {
    key: 'designs',
    id,
    title: `Cost against failed nights${name === '' ? '' : `: ${name}`}`,
    summary: summaryOf(answer, rows),
  };
  return chart<Row>(
    {
      ...facts,
      legend: LEGEND,
      height: { plot: 380 },
      above: 30,
      below: 44,
      rows,
      columns: columnsOf(answer, currency),
    },
    (plot) => ({ own: marks(plot, answer, named, currency) }),
  );
}

/**
 * The pictures of a sizing as files.
 *
 * in: sizing
 * out: names such as 'designs-lawn.svg', with their figures
 */
export function sizeFigureFiles({ answers, scenario }: Sizing): FigureFile[] {
  return answers.map((answer, k) => {
    const name = answer.spot ?? '';
    const own = slug(name);
    return {
      name: answers.length === 1 ? 'designs.svg' : `${k + 1}-designs${own === '' ? '' : `-${own}`}.svg`,
      figure: designChart(`size-${k + 1}`, name, answer, scenario.currency),
    };
  });
}

function summaryOf({ sized, front, cheapest }: SpaceAnswer, rows: readonly Row[]): string {
  const dearest = rows.at(-1)?.sized;
  const first = rows[0]?.sized;
  if (first === undefined || dearest === undefined) return 'No design was run.';
  const kept =
    cheapest === undefined
      ? 'none of them keeps the promise'
      : `the cheapest that keeps the promise costs ${costOf(cheapest).toFixed(2)}`;
  return `${sized.length} designs were run; of these nothing beats ${front.length}. Shown from ${costOf(first).toFixed(2)} with ${first.failedNights} failed nights to ${costOf(dearest).toFixed(2)} with ${dearest.failedNights}; ${kept}. The largest mark gives ${fixed(max(sized, ({ light_lm_h }) => light_lm_h) ?? Number.NaN, 0)} lm h a year.`;
}

function columnsOf({ space }: SpaceAnswer, currency: string | undefined): ChartColumn<Row>[] {
  return [
    texts('recommended', 'recommended as', ({ named }) => named),
    texts('spot', 'spot', ({ sized }) => sized.design.spot.name),
    texts('what', 'what it is', ({ sized }) => designWords(sized.design, space)),
    numbers('price', 'cost', currency ?? '', 2, ({ sized }) => costOf(sized)),
    numbers('failed_nights', 'failed nights', '', 0, ({ sized }) => sized.failedNights),
    numbers('short_h', 'short', 'h', 1, ({ sized }) => sized.short_h),
    numbers('light_lm_h', 'light a year', 'lm h', 0, ({ sized }) => sized.light_lm_h),
  ];
}

function costOf({ design }: SizedDesign): number {
  return design.price ?? Number.NaN;
}

/** Where designs stand in a plot. */
interface Scales {
  across: ScaleLinear<number, number>;
  up: ScalePower<number, number>;
  radius: ScalePower<number, number>;
}

function scalesOf(plot: Box, designs: readonly SizedDesign[]): Scales {
  const least = min(designs, costOf) ?? 0;
  const most = max(designs, costOf) ?? 1;
  const room = (most - least || 1) * 0.04;
  return {
    across: scaleLinear([Math.max(0, least - room), most + room], [plot.x, plot.x + plot.width]),
    up: scaleSqrt(
      [0, Math.max(max(designs, ({ failedNights }) => failedNights) ?? 0, 4)],
      [plot.y + plot.height, plot.y],
    ),
    radius: scaleSqrt([0, Math.max(max(designs, ({ light_lm_h }) => light_lm_h) ?? 0, 1)], [1.5, LARGEST]),
  };
}

function marks(
  plot: Box,
  answer: SpaceAnswer,
  named: readonly Row[],
  currency: string | undefined,
): string[] {
  const { front, steps } = answer;
  const recommended = named.map(({ sized }) => sized);
  const drawn = [...answer.sized, ...recommended];
  const scales = scalesOf(plot, drawn);
  const { across, up } = scales;
  const stairs = steps.length > 0 ? [steps[0]!.from, ...steps.map(({ to }) => to)] : front.slice(0, 1);
  const best = new Set(front.map(({ design }) => design.index));
  const others = apart(
    drawn.filter(({ design }) => !best.has(design.index)),
    scales,
  );
  return [
    label(plot.x, plot.y - 12, 'Failed nights', 'strong'),
    axes(plot, scales, currency),
    ...others.map((sized) => circle('fill-shortPale edged', sized, scales)),
    stairsLine(stairs, plot, across, up),
    ...front.map((sized) => circle('lit edged', sized, scales)),
    ...names(named, plot, scales),
  ];
}

/** Of designs that would lie on each other the brightest. */
function apart(designs: readonly SizedDesign[], { across, up }: Scales): SizedDesign[] {
  const cells = new Map<string, SizedDesign>();
  for (const sized of designs) {
    const cell = `${Math.round(across(costOf(sized)) / CELL)} ${Math.round(up(sized.failedNights) / CELL)}`;
    const other = cells.get(cell);
    if (other === undefined || other.light_lm_h < sized.light_lm_h) cells.set(cell, sized);
  }
  // Small ones over large ones.
  return [...cells.values()].sort((a, b) => b.light_lm_h - a.light_lm_h);
}

function circle(kind: string, sized: SizedDesign, { across, up, radius }: Scales, more = 0): string {
  return element('circle', {
    class: kind,
    cx: across(costOf(sized)),
    cy: up(sized.failedNights),
    r: radius(sized.light_lm_h) + more,
  });
}

/** From each design down and on to the next that fails fewer nights. */
function stairsLine(
  stairs: readonly SizedDesign[],
  plot: Box,
  across: (cost: number) => number,
  up: (nights: number) => number,
): string {
  const [first, ...others] = stairs;
  if (first === undefined) return '';
  const begin = `M${coordinate(across(costOf(first)))} ${coordinate(up(first.failedNights))}`;
  const steps = others.map(
    (sized) => `H${coordinate(across(costOf(sized)))}V${coordinate(up(sized.failedNights))}`,
  );
  return path('capacitor', `${begin}${steps.join('')}H${plot.x + plot.width}`);
}

const NIGHT_TICKS = [0, 1, 2, 5, 10, 20, 50, 100, 200, 365, 1000, 3000, 10_000];
/** Room that a number on the vertical axis needs, and one below the plot. */
const TICK_HEIGHT = 18;
const TICK_WIDTH = 70;

/** Failed nights on the left, drawn by their roots so that few of them can be told apart; money below. */
function axes(plot: Box, { across, up }: Scales, currency: string | undefined): string {
  const nights: number[] = [];
  for (const count of NIGHT_TICKS) {
    const last = nights.at(-1);
    if (count <= up.domain()[1]! && (last === undefined || up(last) - up(count) >= TICK_HEIGHT))
      nights.push(count);
  }
  const ticks = Math.max(2, Math.floor(plot.width / TICK_WIDTH));
  const write = across.tickFormat(ticks);
  const bottom = plot.y + plot.height;
  return [
    path(
      'grid',
      nights.map((count) => `M${plot.x} ${coordinate(up(count))}H${plot.x + plot.width}`).join(''),
    ),
    path(
      'grid',
      across
        .ticks(ticks)
        .map((cost) => `M${coordinate(across(cost))} ${plot.y}V${bottom}`)
        .join(''),
    ),
    ...nights.map((count) => label(plot.x - 8, up(count) + 4, String(count), 'axis end')),
    ...across
      .ticks(ticks)
      .map((cost) => label(across(cost), bottom + 19, write(cost).replaceAll(',', ''), 'axis middle')),
    label(
      plot.x + plot.width,
      bottom + 37,
      `Cost of one lamp${currency === undefined ? '' : `, ${currency}`}`,
      'strong end',
    ),
  ].join('');
}

/** A name needs so much height. */
const NAME_HEIGHT = 16;

/** The recommended ones, ringed and named where the names do not lie on each other. */
function names(named: readonly Row[], plot: Box, scales: Scales): string[] {
  const { across, up, radius } = scales;
  const taken: Box[] = [];
  return named
    .toSorted((a, b) => costOf(a.sized) - costOf(b.sized))
    .flatMap(({ named: words, sized }) => {
      const width = words.length * LETTER_STRONG;
      const x = across(costOf(sized));
      const y = up(sized.failedNights);
      const left = Math.min(Math.max(x - width / 2, plot.x + 2), plot.x + plot.width - width);
      const box = { x: left, y: y - radius(sized.light_lm_h) - 7 - NAME_HEIGHT, width, height: NAME_HEIGHT };
      while (taken.some((other) => overlaps(other, box))) box.y -= NAME_HEIGHT;
      taken.push(box);
      const foot = box.y + NAME_HEIGHT;
      return [
        path(
          'event',
          `M${coordinate(x)} ${coordinate(y - radius(sized.light_lm_h) - 3)}V${coordinate(foot)}`,
        ),
        circle('outline', sized, scales, 3),
        label(left + width / 2, foot - 4, words, 'strong middle halo'),
      ];
    });
}

function overlaps(one: Box, other: Box): boolean {
  return (
    one.x < other.x + other.width &&
    other.x < one.x + one.width &&
    one.y < other.y + other.height &&
    other.y < one.y + one.height
  );
}
