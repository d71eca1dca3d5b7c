import type { NightRow } from '../night/nightLedger.ts';
import type { Trial } from '../trial/Trial.ts';
import type { Paint } from './textTable.ts';
import { monthName } from './words.ts';

/** One character a night, told apart by its shape. */
const STRIP = {
  kept: '·',
  partlyDim: '░',
  mostlyDim: '▒',
  partlyOut: '▄',
  mostlyOut: '█',
  nothingPromised: '-',
} as const;

const NORTHERN_MONTHS = [10, 11, 12, 1, 2, 3];
const SOUTHERN_MONTHS = [4, 5, 6, 7, 8, 9];
const DAYS = 31;

/**
 * The dark half of a winter, one character a night: a line a month from October to March (April to September in the
 * south), two trials side by side, with a legend.
 *
 * in: trials; winter, name of the winter shown; southern, whether the site lies south of the equator; paint; made,
 *   whether it has not happened
 * out: lines; none where the record holds no night of those months
 */
export function winterStrip(
  trials: readonly Trial[],
  winter: string,
  southern: boolean,
  paint: Paint,
  made = false,
): string[] {
  const all = southern ? SOUTHERN_MONTHS : NORTHERN_MONTHS;
  const nightsOf = (trial: Trial, month: number) =>
    trial.nights.filter((night) => night.winter === winter && Number(night.night.slice(5, 7)) === month);
  const months = all.filter((month) => trials.some((trial) => nightsOf(trial, month).length > 0));
  if (months.length === 0) return [];
  const named = made
    ? 'The typical made winter'
    : `Winter ${winter.replace(' joined', ' (the same year repeated)')}`;
  const lines = [
    `${named}, one character a night, from the 1st of a month to its last:`,
    `  ${STRIP.kept} kept   ${STRIP.partlyDim} failed, dim   ${STRIP.partlyOut} failed, out   ${STRIP.nothingPromised} nothing promised`,
    `  ${STRIP.mostlyDim} dim, more than half of the promise short   ${STRIP.mostlyOut} out, more than half short`,
  ];
  for (let k = 0; k < trials.length; k += 2) {
    const pair = trials.slice(k, k + 2);
    const names = pair.map((trial) => shortened(`${trial.lamp} on ${trial.spot}`).padEnd(DAYS));
    lines.push('', `       ${names.join('     ')}`.trimEnd());
    for (const month of months) {
      const strips = pair.map((trial) => monthStrip(nightsOf(trial, month), paint));
      lines.push(`  ${monthName(month)}  ${strips.join('     ')}`.trimEnd());
    }
  }
  return lines;
}

function monthStrip(nights: readonly NightRow[], paint: Paint): string {
  const days: string[] = new Array(DAYS).fill(' ');
  for (const night of nights) days[Number(night.night.slice(8, 10)) - 1] = glyph(night, paint);
  return days.join('');
}

function glyph(night: NightRow, paint: Paint): string {
  if (night.outcome === 'nothing-promised') return paint.faint(STRIP.nothingPromised);
  if (night.outcome === 'kept') return paint.good(STRIP.kept);
  const [partly, mostly] = night.wentOut
    ? [STRIP.partlyOut, STRIP.mostlyOut]
    : [STRIP.partlyDim, STRIP.mostlyDim];
  return night.short_h > night.promised_h / 2 ? paint.bad(mostly) : paint.middling(partly);
}

function shortened(name: string): string {
  return name.length <= DAYS ? name : `${name.slice(0, DAYS - 3)}...`;
}
