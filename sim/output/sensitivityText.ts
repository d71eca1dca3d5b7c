import type { Json } from '../scenario/Scenario.ts';
import { unitInWords } from '../scenario/unitSuffixes.ts';
import type { MovedBy, Sensitivity } from '../trial/sensitivity.ts';
import type { AtEnds } from '../trial/trialAssumptions.ts';
import { keyWords } from './keyWords.ts';
import { type Look, type Paint, paint, textTable } from './textTable.ts';
import { capital, plural, shortNumber } from './words.ts';

/** So many assumptions are told. */
const TOLD = 5;

/**
 * The assumptions that move a scenario's verdict most, what each does to the failed nights and what to measure, as text.
 *
 * in: sensitivity; look, of the terminal
 * out: text, ending in a line break
 */
export function sensitivityText({ scenario, trials, assumptions }: Sensitivity, look: Look = {}): string {
  const style = paint(look);
  const told = assumptions.filter(moves).slice(0, TOLD);
  const sum = (of: 'nights' | 'failedNights' | 'short_h') =>
    trials.reduce((total, trial) => total + trial[of], 0);
  const [only] = trials;
  const whose =
    trials.length === 1 ? `${only!.lamp} on ${only!.spot}` : `all ${trials.length} trials together`;
  const lines = [
    ...style.wrap(
      `What the verdict of ${scenario} hangs on (${whose}): ${assumptions.length} assumptions, each run from one end of what it may be to the other, all else as it is. As assumed, ${nightsWords(sum('failedNights'), sum('short_h'))} of ${sum('nights')}.`,
    ),
    '',
  ];
  if (told.length === 0) lines.push('None of them by itself moves a failed night or a short hour.');
  else lines.push(...tableLines(told, style));
  for (const [k, moved] of told.entries())
    lines.push('', ...movedLines(moved, k + 1, trials.length > 1, style));
  const others = assumptions.length - told.length;
  if (told.length > 0 && others > 0) lines.push('', `The other ${others} move less; --json has them all.`);
  return `${lines.join('\n')}\n`;
}

function moves({ failedNights, short_h }: MovedBy): boolean {
  return [failedNights, short_h].some(
    ({ worse, assumed, better }) => worse !== assumed || better !== assumed,
  );
}

function nightsWords(failedNights: number, short_h: number): string {
  return `${failedNights} failed ${plural(failedNights, 'night')} (short ${shortNumber(short_h)} h)`;
}

function tableLines(told: readonly MovedBy[], style: Paint): string[] {
  const nights = (which: keyof AtEnds<unknown>) => (moved: MovedBy) => `${moved.failedNights[which]}`;
  return textTable(
    [
      {
        heading: ['', 'failed nights'],
        cell: (moved) => `${told.indexOf(moved) + 1} ${keyWords(moved.key)}`,
      },
      { heading: ['at the', 'worse end'], cell: nights('worse') },
      { heading: ['as', 'assumed'], cell: nights('assumed') },
      { heading: ['at the', 'better end'], cell: nights('better') },
    ],
    told,
    style.columns,
  );
}

const ENDS = ['worse', 'assumed', 'better'] as const;

function movedLines(moved: MovedBy, place: number, several: boolean, style: Paint): string[] {
  const { key, from, values, failedNights, short_h, trials, know } = moved;
  const words = valueWords(values, from === 'judged');
  // An end that is what is assumed says nothing.
  const ends = ENDS.filter((end) => end === 'assumed' || words[end] !== words.assumed);
  const nights = ends.map((end, k) => {
    const at = `${failedNights[end]}${k === 0 ? ` failed ${plural(failedNights[end], 'night')}` : ''}`;
    if (end !== 'assumed') return `${at} at ${words[end]}`;
    return from === 'judged' ? `${at} as stated` : `${at} at ${words[end]} as assumed`;
  });
  const hours = ends.map((end) => shortNumber(short_h[end]));
  const each = trials.map(
    (trial) =>
      `${trial.lamp} on ${trial.spot} ${ends.map((end) => trial.failedNights[end] ?? 'cannot be').join(', ')}`,
  );
  const shows = know?.shows;
  const shown = ends.map(
    (end) => `${shortNumber(shows?.[end] ?? Number.NaN)} ${shows?.unit} at ${words[end]}`,
  );
  return [
    ...style.wrap(`${place} ${capital(keyWords(key))} (${key}, ${SOURCES[from]})`, 0, 2),
    ...style.wrap(`${nights.join(', ')}; short ${hours.join(', ')} h`, 2, 4),
    ...(several ? style.wrap(each.join('; '), 2, 4) : []),
    ...(know === undefined ? [] : style.wrap(`to know it: ${know.what} (${know.how})`, 2, 4)),
    ...(shows === undefined ? [] : style.wrap(`it shows ${shown.join(', ')}`, 4, 4)),
  ];
}

const SOURCES = {
  part: 'from a generic part',
  default: 'a default',
  judged: 'by eye or by rule',
} as const;

/** The value that tells the ends apart, at each of them; of a table that of its middle row. */
function valueWords(values: MovedBy['values'], isOffset: boolean): AtEnds<string> {
  const [key] = Object.keys(values.assumed);
  const at = (end: keyof AtEnds<unknown>) => values[end][key!]!;
  const words = (end: keyof AtEnds<unknown>): string => {
    const value = at(end);
    if (isOffset) return `${Number(value) > 0 ? '+' : ''}${withUnit(key!, value)}`;
    if (!Array.isArray(value)) return withUnit(key!, value);
    const row = (of: Json) => (of as Readonly<Record<string, Json>>[])[Math.floor(value.length / 2)]!;
    const [first, ...columns] = Object.keys(row(value));
    const differing = columns.find((column) => row(at('worse'))[column] !== row(at('better'))[column]);
    return `${withUnit(differing!, row(value)[differing!]!)} (${withUnit(first!, row(value)[first!]!)})`;
  };
  return { worse: words('worse'), assumed: words('assumed'), better: words('better') };
}

function withUnit(key: string, value: Json): string {
  const unit = unitInWords(key);
  return unit === '' ? `${value}` : `${value} ${key.includes('_per_') ? 'per ' : ''}${unit}`;
}
