import type { NightRow } from '../night/nightLedger.ts';
import type { Trial } from '../trial/Trial.ts';
import { filledEnd, shortened } from './shownWidth.ts';
import type { Emphasis, Paint } from './textTable.ts';
import { capital, monthName } from './words.ts';

/** One character a night, told apart by its shape, and what it stands for. */
const STRIP = {
  kept: ['·', 'kept'],
  partlyDim: ['░', 'dim'],
  mostlyDim: ['▒', 'dim most of it'],
  partlyOut: ['▄', 'out'],
  mostlyOut: ['█', 'out, most of it short'],
  nothingPromised: ['-', 'nothing promised'],
} as const;

const NORTHERN_MONTHS = [10, 11, 12, 1, 2, 3];
const SOUTHERN_MONTHS = [4, 5, 6, 7, 8, 9];
const DAYS = 31;
/** Columns before a strip, and between two of them. */
const [INDENT, APART] = [7, 5];

/** How a strip is drawn. */
export interface StripStyle {
  /** The site lies south of the equator. */
  southern: boolean;
  style: Paint;
  /** The winter has not happened. */
  made: boolean;
  /** Every trial, and every month of the dark half; else those with a failed night. */
  whole: boolean;
}

/**
 * The dark half of a winter, one character a night: a line a month from October to March (April to September in the
 * south), two trials side by side, after a legend of what there is.
 *
 * in: trials; winter, name of the winter shown; how it is drawn
 * out: lines; none where the record holds no night of those months, or no failed one of those asked for
 */
export function winterStrip(
  trials: readonly Trial[],
  winter: string,
  { southern, style, made, whole }: StripStyle,
): string[] {
  const nightsOf = (trial: Trial, month: number) =>
    trial.nights.filter((night) => night.winter === winter && Number(night.night.slice(5, 7)) === month);
  const told = (nights: readonly NightRow[]) =>
    whole ? nights.length > 0 : nights.some(({ outcome }) => outcome === 'failed');
  const months = (southern ? SOUTHERN_MONTHS : NORTHERN_MONTHS).filter((month) =>
    trials.some((trial) => told(nightsOf(trial, month))),
  );
  const drawn = trials.filter((trial) => months.some((month) => told(nightsOf(trial, month))));
  if (drawn.length === 0) return [];
  const named = made
    ? 'the typical made winter'
    : `winter ${winter.replace(' joined', ' (the same year repeated)')}`;
  const nights = drawn.flatMap((trial) => months.flatMap((month) => nightsOf(trial, month)));
  const lines = style.wrap(
    `${whole ? capital(named) : `Months with failed nights, ${named}`}: ${legend(nights)}`,
  );
  const beside = 2 * DAYS + APART + INDENT <= style.columns ? 2 : 1;
  for (let k = 0; k < drawn.length; k += beside) {
    const pair = drawn.slice(k, k + beside);
    const names = pair.map((trial) => filledEnd(shortened(`${trial.lamp} on ${trial.spot}`, DAYS), DAYS));
    lines.push(`${' '.repeat(INDENT)}${names.join(' '.repeat(APART))}`.trimEnd());
    for (const month of months) {
      const strips = pair.map((trial) => monthStrip(nightsOf(trial, month), style));
      lines.push(`  ${monthName(month)}  ${strips.join(' '.repeat(APART))}`.trimEnd());
    }
  }
  return lines;
}

function legend(nights: readonly NightRow[]): string {
  const there = new Set(nights.map(kindOf));
  return (Object.keys(STRIP) as Kind[])
    .filter((kind) => there.has(kind))
    .map((kind) => STRIP[kind].join(' '))
    .join('; ');
}

function monthStrip(nights: readonly NightRow[], style: Paint): string {
  const days: string[] = new Array(DAYS).fill(' ');
  for (const night of nights) days[Number(night.night.slice(8, 10)) - 1] = glyph(night, style);
  return days.join('');
}

type Kind = keyof typeof STRIP;

function kindOf({ outcome, wentOut, short_h, promised_h }: NightRow): Kind {
  if (outcome === 'nothing-promised') return 'nothingPromised';
  if (outcome === 'kept') return 'kept';
  const mostly = short_h > promised_h / 2;
  if (wentOut) return mostly ? 'mostlyOut' : 'partlyOut';
  return mostly ? 'mostlyDim' : 'partlyDim';
}

const PAINTED: Readonly<Record<Kind, Emphasis>> = {
  kept: 'good',
  partlyDim: 'middling',
  mostlyDim: 'bad',
  partlyOut: 'middling',
  mostlyOut: 'bad',
  nothingPromised: 'faint',
};

function glyph(night: NightRow, style: Paint): string {
  const kind = kindOf(night);
  return style[PAINTED[kind]](STRIP[kind][0]);
}
