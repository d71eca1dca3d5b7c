import { scaleLinear } from 'd3-scale';
import { significant } from '../../common/Estimate.ts';
import { overWinters } from '../../statistics/overWinters.ts';
import type { HourlyTrial } from '../../trial/Trial.ts';
import type { BlockSetting } from '../BlockSetting.ts';
import { hourWords } from '../numberWords.ts';
import { plainSentences } from '../plainSentences.ts';
import { spokenDates } from '../words.ts';
import { type Box, borrowed, coordinate, element, isolated, rect, svg, wordsMarkup } from './element.ts';
import { fittingWords, linesOf, wordsWidth } from './fittingWords.ts';
import { type LegendEntry, legend } from './legend.ts';
import { monthTicks } from './monthAxis.ts';
import { clockSpan, evenHours } from './nightChart.ts';
import { clockText, type NightColumn, nightColumns } from './nightColumns.ts';
import { trialFigures } from './trialFigures.ts';
import { rightward } from './verticalAxis.ts';
import { worstWinter } from './worstWinter.ts';

/** Of the picture to send. */
export const SEND_SIZE = { width: 1200, height: 800 } as const;
const EDGE = 48;
const RIGHT = SEND_SIZE.width - EDGE;
const INNER = RIGHT - EDGE;

/** The picture of a trial that is sent to whoever does not build lamps. */
export interface SendPicture {
  /** SVG without styles, in which an empty `defs` waits for the marks of the night chart. */
  svg: string;
  /** The night chart whose marks it borrows. */
  nights: string;
}

/**
 * The picture to send: the nights of a year under two sentences without words of the bench, and in small print what it
 * was made from. Free of all that a browser does not have.
 *
 * in: id, the trial's own; trial; setting
 * out: undefined where there is no night to be drawn
 */
export function sendPicture(id: string, trial: HourlyTrial, setting: BlockSetting): SendPicture | undefined {
  const { site, promise, schedule, made } = setting;
  const figure = trialFigures(id, trial, setting).nights();
  const plot = figure?.reader;
  if (figure === undefined || plot === undefined) return undefined;
  const { winter } = worstWinter(trial, site.latitude_deg);
  const nights = nightColumns(trial, winter, site);
  const said = plainSentences(trial, { promise, latitude_deg: site.latitude_deg, schedule, made });
  const words = sentences(said, 148);
  const box = { x: EDGE + 62, y: words.bottom + 22, width: INNER - 62, height: 0 };
  box.height = SMALL_PRINT - 116 - box.y;
  const title = `${isolated(trial.lamp)} on ${isolated(trial.spot)}`;
  const marks = [
    rect('tag', { x: 0, y: 0, ...SEND_SIZE }),
    heading(trial, kicker(trial, winter, made, nights.length)),
    words.markup,
    element('defs', {}),
    borrowed(`${id}-nights-marks`, plot, box),
    clock(nights, box),
    dates(nights, box),
    colours(nights, box.y + box.height + 52),
    ...smallPrint(setting).map((line, k) =>
      text(EDGE, SMALL_PRINT + 22 * k, line, { 'font-size': 15, class: 'axis' }),
    ),
  ];
  return {
    svg: svg(
      'send',
      SEND_SIZE,
      { ...SEND_SIZE, role: 'img', 'aria-label': `${title}. ${said.join(' ')}` },
      marks,
    ),
    nights: figure.svg,
  };
}

const SMALL_PRINT = 758;

function text(x: number, y: number, words: string, attributes: Record<string, string | number>): string {
  return element('text', { x, y, ...attributes }, wordsMarkup(words));
}

/** Strong letters are wider. */
const STRONG = 1.12;
const LARGE = 40;
const LEAST = 24;

/** Lamp and spot on the left, as large as fits, and on how many nights or winters it kept on the right. */
function heading({ lamp, spot, statistics }: HourlyTrial, above: string): string {
  const { odds, winters } = statistics;
  const { nights, failedNights } = overWinters(winters);
  const count =
    odds === undefined
      ? nights === 0
        ? ''
        : `${nights - failedNights} of ${nights} nights`
      : `${odds.kept} of ${odds.winters} winters`;
  const taken = count === '' ? 0 : STRONG * LARGE * wordsWidth(count) + 40;
  const room = (INNER - taken) / STRONG;
  const most = (room / LEAST - wordsWidth(' on ')) / 2;
  const [a, b] = [fittingWords(lamp, most), fittingWords(spot, most)];
  // A name may take the room that the other leaves.
  const [name, place] = [
    fittingWords(lamp, 2 * most - wordsWidth(b)),
    fittingWords(spot, 2 * most - wordsWidth(a)),
  ];
  const size = Math.min(LARGE, Math.max(LEAST, room / wordsWidth(`${name} on ${place}`)));
  return [
    text(EDGE, 62, above, { 'font-size': 19, class: 'axis' }),
    text(EDGE, 106, `${isolated(name)} on ${isolated(place)}`, {
      'font-size': coordinate(size),
      class: 'strong',
    }),
    count === '' ? '' : text(RIGHT, 62, 'shines as promised on', { 'font-size': 19, class: 'axis end' }),
    text(RIGHT, 106, count, { 'font-size': LARGE, class: 'strong end' }),
  ].join('');
}

/** What of the record is drawn. */
function kicker({ statistics }: HourlyTrial, winter: string, made: boolean, nights: number): string {
  const { odds, winters } = statistics;
  if (odds !== undefined) return `Drawn: the worst of ${odds.winters} winters, ${winter}`;
  if (made) return 'The nights of a typical made winter';
  if (winters.length > 1) return `The nights of ${winter}`;
  return nights >= 365 ? 'The nights of a year' : 'The nights on record';
}

const FIRST = { size: 25, line: 34 };
const SECOND = { size: 21, line: 29 };

/** The two sentences from a height on, and where they end. */
function sentences(
  [first, second]: readonly [string, string],
  from: number,
): { markup: string; bottom: number } {
  const markup: string[] = [];
  let y = from;
  for (const [words, { size, line }, kind] of [
    [first, FIRST, 'ink'],
    [second, SECOND, 'axis'],
  ] as const) {
    for (const each of linesOf(words, INNER / size)) {
      markup.push(text(EDGE, y, each, { 'font-size': size, class: kind }));
      y += line;
    }
    y += 4;
  }
  return { markup: markup.join(''), bottom: y - SECOND.line };
}

const AXIS = { 'font-size': 17, class: 'axis end' };

function clock(nights: readonly NightColumn[], { x, y, height }: Box): string {
  const hours = clockSpan(nights);
  const down = scaleLinear(hours, [y, y + height]);
  return evenHours(hours)
    .map((hour) => text(x - 12, down(hour) + 6, clockText(hour), AXIS))
    .join('');
}

/** A record of so many nights at most has its dates named, of a longer one only the months are. */
const FEW_NIGHTS = 62;

function dates(nights: readonly NightColumn[], box: Box): string {
  const across = rightward(box, nights.length);
  const all = nights.map(({ row }) => row.night);
  const y = box.y + box.height + 32;
  const middle = { ...AXIS, class: 'axis middle' };
  if (all.length > FEW_NIGHTS)
    return monthTicks(all)
      .filter(({ length }) => across(length) - across(0) >= 40)
      .map(({ index, length, name }) => text(across(index + length / 2), y, name, middle))
      .join('');
  const every = Math.ceil(all.length / 8);
  return all
    .map((date, k) =>
      k % every === 0 ? text(across(k + 0.5), y, spokenDates(date).replace(/(\w{3})\w+$/, '$1'), middle) : '',
    )
    .join('');
}

/** Magnifies the type of a legend. */
const LEGEND_SCALE = 1.42;

/** What the colours say, those that are there. */
function colours(nights: readonly NightColumn[], y: number): string {
  const has = (kind: string) => nights.some(({ spans }) => spans.some((span) => span.kind === kind));
  const entries: (LegendEntry | false)[] = [
    has('lit') && { mark: 'lit', words: 'shines' },
    has('dim') && { mark: 'dim', words: 'too dim' },
    has('out') && { mark: 'hatched', words: 'out' },
    has('beyond') && { mark: 'beyond', words: 'more than promised' },
    { mark: 'night', words: 'night' },
    { mark: 'day', over: 'outlineSoft', words: 'day' },
    nights.some(({ row }) => row.outcome === 'failed') && {
      mark: 'solid',
      triangle: true,
      words: 'night that falls short',
    },
  ];
  const right = INNER / LEGEND_SCALE;
  const { markup } = legend(
    entries.filter((entry) => entry !== false),
    0,
    0,
    right,
  );
  return element('g', { transform: `translate(${EDGE} ${y}) scale(${LEGEND_SCALE})` }, markup);
}

/** That it is a simulation, of which weather; what shining means; and what such a lamp is not for. */
function smallPrint({ promise, days, weatherFile, made }: BlockSetting): string[] {
  const [from, to] = [days[0]?.date, days.at(-1)?.date];
  const span = from === undefined || to === undefined ? '' : `, ${spokenDates(from, to, true)}`;
  const file =
    weatherFile === undefined ? 'light logged on the cell' : isolated(fittingWords(weatherFile, 34));
  const weather = made ? 'one of many winters made by chance from a climate' : `${file}${span}`;
  const short =
    promise.tolerance_h > 0 ? `, and a night may be ${hourWords(promise.tolerance_h)} short of it` : '';
  return [
    `Made by simulation with longnight, not measured. Weather: ${weather}.`,
    `Shining means at least ${significant(promise.least_lumen, 3)} lumen${short}. Decoration: no light for stairs or exits.`,
  ];
}
