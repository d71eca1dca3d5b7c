import { DateTime } from 'luxon';
import { columnsOf, type ExportColumn, hurtLight } from './damage.ts';
import { inUnit, type Kind, type Manner, mannerOf, numberText, traitsOf } from './manner.ts';

const HOUR = 3_600_000;

/** An invented export, and what is to come back of it. */
export interface ExportFile {
  seed: number;
  kind: Kind;
  /** How it was written, in words. */
  traits: string[];
  text: string;
  place: { latitude_deg: number; longitude_deg: number };
  start_ms: number;
  /** Light and air to come back, by hour; NaN where nothing can be asked. */
  ghi_W_m2: Float64Array;
  air_degC: Float64Array;
  /** Hours that were made up, and must not pass as measured: from and to. */
  madeUp?: readonly [number, number];
}

/** The export of a seed: of a kind by chance, or of the kind that is asked for. */
export function exportFile(seed: number, only?: Kind): ExportFile {
  const manner = mannerOf(seed, only);
  const { kind, sky: made } = manner;
  const light = hurtLight(manner);
  const lines = [...preamble(manner), ''];
  if (kind === 'months only') lines.push(...monthRows(manner));
  else if (kind === 'sums of days') lines.push(...dayRows(manner));
  else lines.push(...hourRows(manner, light));
  const { latitude_deg, longitude_deg, start_ms, air_degC } = made;
  return {
    ...{ seed, kind, start_ms, air_degC, traits: [...traitsOf(manner), ...light.traits] },
    text: `${lines.join('\n')}\n`,
    place: { latitude_deg, longitude_deg },
    ghi_W_m2: light.truth_W_m2,
    ...(light.madeUp === undefined ? {} : { madeUp: light.madeUp }),
  };
}

function preamble({ zoneSaid, marks, marksSaid }: Manner): string[] {
  const words = {
    start: 'Times mark the start of each hour',
    end: 'Values are means over the preceding hour',
    middle: 'Times mark the middle of the hour',
  };
  return ['Invented measurements', ...(marksSaid ? [words[marks]] : []), ...zoneSaid];
}

function monthRows(manner: Manner): string[] {
  const { sky: made, delimiter } = manner;
  const sums = new Float64Array(12);
  for (let i = 0; i < made.hours; i++)
    sums[new Date(made.start_ms + i * HOUR).getUTCMonth()]! += made.ghi_W_m2[i]! / 1000;
  const rows = Array.from(sums, (sum, month) => [String(month + 1), numberText(manner, sum, 1)]);
  return [['month', 'global kWh/m2'], ...rows].map((cells) => cells.join(delimiter));
}

/** Days of the local clock, the longitude's nearest hour. */
function dayRows(manner: Manner): string[] {
  const { sky: made, unit, unitSaid, delimiter, digits } = manner;
  const ahead_h = Math.round(made.longitude_deg / 15);
  const rows = Array.from({ length: made.hours / 24 }, (_, day) => {
    let [sum, air] = [0, 0];
    for (let hour = 0; hour < 24; hour++) {
      const i = Math.min(made.hours - 1, Math.max(0, day * 24 + hour - ahead_h));
      sum += inUnit(unit, made.ghi_W_m2[i]!);
      air += made.air_degC[i]! / 24;
    }
    const date = new Date(made.start_ms + day * 24 * HOUR).toISOString().slice(0, 10);
    const light = unit === 'W/m2' ? sum / 24 : sum;
    return [date, numberText(manner, light, Math.max(digits, 1)), numberText(manner, air, 1)];
  });
  const heading = ['date', `global radiation sum [${unitSaid ?? unit}]`, 'mean temperature [°C]'];
  return [heading, ...rows].map((cells) => cells.join(delimiter));
}

/** Stations of a file that holds two: the second has a tenth less light. */
const STATIONS = [
  ['Northfield', 1],
  ['Upper Mill', 0.9],
] as const;

function hourRows(manner: Manner, light: ReturnType<typeof hurtLight>): string[] {
  const { sky: made, kind, style, delimiter } = manner;
  const columns: readonly ExportColumn[] = columnsOf(manner, light);
  const isStationed = kind.startsWith('stations');
  const headings = [...style.headings, ...columns.map(({ heading }) => heading)];
  const row = (i: number, station: string, share: number) =>
    [
      ...(isStationed ? [station] : []),
      ...stampOf(manner, i),
      ...columns.map(({ cell }) => cell(i, share)),
    ].join(delimiter);
  const hours = Array.from({ length: made.hours }, (_, i) => i);
  const rowsOf = (list: readonly number[], stations: readonly (typeof STATIONS)[number][]) =>
    list.flatMap((i) => stations.map(([station, share]) => row(i, station, share)));
  const heading = [...(isStationed ? ['station'] : []), ...headings].join(delimiter);
  if (kind === 'stations in blocks')
    return [heading, ...STATIONS.flatMap((station) => rowsOf(hours, [station]))];
  if (kind === 'stations interleaved') return [heading, ...rowsOf(hours, STATIONS)];
  return [heading, ...rowsOf(writtenHours(manner, light.truth_W_m2, hours), [STATIONS[0]])];
}

/** Hours that have a row; those without are asked for no more. */
function writtenHours(manner: Manner, truth_W_m2: Float64Array, hours: readonly number[]): number[] {
  const { kind, random, sky: made } = manner;
  const lost = Math.floor(made.hours * random.uniform());
  const last = made.hours - 1 - Math.floor(3 * random.uniform());
  const seen = new Set<string>();
  return hours.filter((i) => {
    const stamp = stampOf(manner, i).join(' ');
    const isAgain = kind === 'doubled hour once' && seen.has(stamp);
    seen.add(stamp);
    if (isAgain) truth_W_m2[i - 1] = Number.NaN;
    const isLost = (kind === 'one lost hour' && i === lost) || (kind === 'lost end' && i >= last);
    if (isAgain || isLost) truth_W_m2[i] = Number.NaN;
    return !isAgain && !isLost;
  });
}

function stampOf({ style, zone, marks, suffix, kind, sky: made, seed }: Manner, i: number): string[] {
  const into_ms = { start: 0, middle: HOUR / 2, end: HOUR }[marks];
  const off_ms = kind === 'clock off' ? [-60, 60, 120, -90][seed % 4]! * 60_000 : 0;
  const [first = '', ...others] = style.cells(
    DateTime.fromMillis(made.start_ms + i * HOUR + into_ms + off_ms, { zone }),
  );
  return [`${first}${suffix}`, ...others];
}
