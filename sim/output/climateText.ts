import type { ClimateSection } from '../climate/schema.ts';
import { fixed } from '../common/csvText.ts';
import { MONTH_NAMES } from '../common/time.ts';
import type { HeldOut, HeldOutFigure } from '../trial/heldOutWinters.ts';
import { type Look, paint } from './textTable.ts';

/** What was learned, and how it stands the test. */
export interface ClimateAnswer {
  section: ClimateSection;
  heldOut: HeldOut;
  southern: boolean;
  /** A break in the record, and which part of it counts, in words; empty where there is none. */
  broken: readonly string[];
}

/**
 * What was learned from a record, and how well it foretells the record's own winters.
 *
 * in: answer; look, of the terminal
 * out: text, ending in a line break
 */
export function climateText({ section, heldOut, southern, broken }: ClimateAnswer, look: Look = {}): string {
  const style = paint(look);
  const { clearness_shares, air_degC, air_range_K, snow_days, persistence } = section;
  const columns: [string, (month: number) => string][] = [
    ['dullest tenth', (month) => atShare(clearness_shares, month, 0.1)],
    ['middle day', (month) => atShare(clearness_shares, month, 0.5)],
    ['brightest tenth', (month) => atShare(clearness_shares, month, 0.9)],
    ['air degC', (month) => fixed(air_degC![month]!, 1)],
    ['range K', (month) => fixed(air_range_K![month]!, 1)],
    ['snow days', (month) => (snow_days === undefined ? '-' : fixed(snow_days[month]!, 1))],
  ];
  const row = (name: string, cells: readonly string[]) =>
    [name.padEnd(10), ...cells.map((cell, i) => cell.padStart(columns[i]![0].length + 2))].join('').trimEnd();
  const quarter = southern ? 'May to July' : 'November to January';
  const percent = (share: number) => `${Math.round(share * 100)} percent`;
  return [
    ...style.wrap(`Learned from ${section.learned_from}.`),
    ...(broken.length === 0 ? [] : style.wrap(`The record breaks: ${broken.join('; ')}.`)),
    '',
    style.strong(
      row(
        'Clearness',
        columns.map(([heading]) => heading),
      ),
    ),
    ...MONTH_NAMES.map((name, month) =>
      row(
        name,
        columns.map(([, cell]) => cell(month)),
      ),
    ),
    '',
    ...style.wrap(
      `Days follow each other: ${percent(persistence.lasting)} of what is dull or bright lasts, at ${persistence.daily} from day to day; ${percent(persistence.winter)} is shared by a whole winter.`,
    ),
    '',
    ...style.wrap(
      `How well it foretells winters that it was not learned from: ${heldOut.splits} times half of them, held against winters made from the other half. kWh/m2 a day, ${quarter}.`,
    ),
    style.strong(
      `${''.padEnd(24)}${'on file (least, most)'.padEnd(26)}${'made (nine of ten)'.padEnd(26)}held`,
    ),
    ...heldOut.figures.map(
      (figure) =>
        `${FIGURE_WORDS[figure.what].padEnd(24)}${rangeText(figure.recorded).padEnd(26)}${rangeText(figure.made).padEnd(26)}${percent(figure.held)} of ${figure.tried}`,
    ),
    ...style.wrap(
      'Ideal are 90 percent; half of the winters is less to learn from than all. Hours of winters made from this are drawn, so failed nights may be a tenth off: a run with --winters on the record itself takes the hours of real days.',
    ),
    '',
  ].join('\n');
}

const FIGURE_WORDS: Record<HeldOutFigure['what'], string> = {
  mean: 'mean of a winter',
  'least ten days': 'least ten days running',
};

function atShare(shares: ClimateSection['clearness_shares'], month: number, share: number): string {
  const value = shares?.months[month]?.[shares.days.indexOf(share)];
  return value === undefined ? '-' : fixed(value, 2);
}

function rangeText({ mean, low, high }: HeldOutFigure['recorded']): string {
  return `${fixed(mean, 2)} (${fixed(low, 2)} to ${fixed(high, 2)})`;
}
