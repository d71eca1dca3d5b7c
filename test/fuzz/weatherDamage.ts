import { readFileSync } from 'node:fs';
import fc from 'fast-check';

/** A damaged weather file, and in words what was done to it. */
export interface DamagedWeather {
  bytes: Uint8Array;
  what: string[];
}

const SAMPLES = ['', '-civil-time', '-semicolon', '-tab', '-clock-off'].map((layout) =>
  readFileSync(`data-samples/invented-year${layout}.csv`, 'utf8').split('\n'),
);
SAMPLES.push(jsonOf(SAMPLES[0]!));

/** The rows of a table as JSON, a record a line. */
function jsonOf(lines: readonly string[]): string[] {
  const [headings = [], ...rows] = lines
    .filter((line) => line !== '' && !line.startsWith('#'))
    .map((line) => line.split(','));
  return rows.map((cells) => JSON.stringify(Object.fromEntries(headings.map((key, c) => [key, cells[c]]))));
}

/** Cells that a broken export, a spreadsheet or a bad hand leaves behind. */
const CELLS = [
  '',
  ' ',
  '-',
  'NaN',
  'null',
  '#N/A',
  '-999',
  '9999',
  '1e309',
  '-1e309',
  '1e-320',
  '0x1F',
  '1,5',
  '1.234,5',
  '12:61',
  '24:00',
  '2025-02-30 00:00',
  '0000-00-00',
  '٣',
  'x'.repeat(5000),
  '\u001b[31mred\u001b[0m',
  '\u202egnp',
  '=1+1',
  '"',
  '""',
  "'",
  '\u0000',
  '−3',
  '1 000',
  '½',
  'true',
  '[object Object]',
  '__proto__',
  'constructor',
];
/** What stands between cells, in a file or a wrong one. */
const BREAKS = [',', ';', '\t', '|', ' '];

type Damage = (lines: string[], at: number, size: number) => string;

/** Each changes the lines in place and says what it did; at and size are from 0 to 1. */
const DAMAGES: Record<string, Damage> = {
  cell: (lines, at, size) => {
    const row = Math.floor(at * lines.length);
    const cell = CELLS[Math.floor(size * CELLS.length)]!;
    const cells = (lines[row] ?? '').split(/[,;\t]/);
    const column = Math.floor(at * 7919) % cells.length;
    cells[column] = cell;
    lines[row] = cells.join((lines[row] ?? '').match(/[,;\t]/)?.[0] ?? ',');
    return `row ${row}, cell ${column} is ${JSON.stringify(cell.slice(0, 20))}`;
  },
  heading: (lines, at, size) => {
    const row = lines.findIndex((line) => /W\/m2|W_m2/.test(line));
    const cells = (lines[row] ?? '').split(/[,;\t]/);
    cells[Math.floor(at * cells.length)] = CELLS[Math.floor(size * CELLS.length)]!;
    if (row >= 0) lines[row] = cells.join((lines[row] ?? '').match(/[,;\t]/)?.[0] ?? ',');
    return 'a heading replaced';
  },
  column: (lines, at, size) => {
    const cell = CELLS[Math.floor(size * CELLS.length)]!;
    lines.forEach((line, row) => {
      const cells = line.split(/[,;\t]/);
      if (cells.length > 1 && row > 8) cells[Math.floor(at * cells.length)] = cell;
      lines[row] = cells.join(line.match(/[,;\t]/)?.[0] ?? ',');
    });
    return `a whole column of ${JSON.stringify(cell.slice(0, 20))}`;
  },
  lost: (lines, at, size) => {
    const lost = lines.splice(Math.floor(at * lines.length), Math.ceil(size * size * lines.length));
    return `${lost.length} lines lost`;
  },
  doubled: (lines, at, size) => {
    const from = Math.floor(at * lines.length);
    lines.splice(from, 0, ...lines.slice(from, from + Math.ceil(size * 30)));
    return 'lines doubled';
  },
  swapped: (lines, at, size) => {
    const [a, b] = [Math.floor(at * lines.length), Math.floor(size * lines.length)];
    [lines[a], lines[b]] = [lines[b] ?? '', lines[a] ?? ''];
    return `lines ${a} and ${b} swapped`;
  },
  reversed: (lines) => {
    lines.reverse();
    return 'all lines backwards';
  },
  break: (lines, at, size) => {
    const to = BREAKS[Math.floor(size * BREAKS.length)]!;
    const from = Math.floor(at * lines.length);
    for (let row = from; row < lines.length; row++) lines[row] = lines[row]!.replace(/[,;\t]/g, to);
    return `from line ${from} on parted by ${JSON.stringify(to)}`;
  },
  scaled: (lines, at, size) => {
    const factor = [-1, 0, 1e-3, 3.6, 1e3, 1e12][Math.floor(size * 6)]!;
    const from = Math.floor(at * lines.length);
    for (let row = from; row < lines.length; row++)
      lines[row] = lines[row]!.replace(
        /([,;\t])(-?\d+)([.,]\d)?(?=[,;\t]|$)/,
        (_, parted, whole) => `${parted}${Number(whole) * factor}`,
      );
    return `from line ${from} on times ${factor}`;
  },
  cut: (lines, at) => {
    lines.length = Math.floor(at * lines.length);
    const last = lines.length - 1;
    if (last >= 0) lines[last] = lines[last]!.slice(0, Math.floor(lines[last]!.length * at));
    return 'cut off';
  },
  wide: (lines, at) => {
    const row = Math.floor(at * lines.length);
    lines[row] = `${lines[row]}${',7'.repeat(3000)}`;
    return `line ${row} has 3000 cells more`;
  },
};

const share = fc.integer({ min: 0, max: 9999 }).map((k) => k / 10_000);

/**
 * A made-up year's export with up to five things wrong. in: hours, from its first; the encoding may be wrong too
 */
export function damagedWeather(hours: number): fc.Arbitrary<DamagedWeather> {
  const one = fc.tuple(fc.constantFrom(...Object.keys(DAMAGES)), share, share);
  return fc
    .record({
      sample: fc.nat(SAMPLES.length - 1),
      damages: fc.array(one, { maxLength: 5 }),
      written: fc.constantFrom('utf8', 'utf8', 'utf8', 'utf16le', 'latin1', 'nul', 'bits'),
      at: share,
    })
    .map(({ sample, damages, written, at }) => {
      const lines = SAMPLES[sample]!.slice(0, hours + 9);
      const what = damages.map(([name, where, size]) => DAMAGES[name]!(lines, where, size));
      return {
        bytes: writtenBytes(lines.join('\n'), written, at),
        what: [`sample ${sample}`, ...what, written],
      };
    });
}

function writtenBytes(text: string, written: string, at: number): Uint8Array {
  if (written === 'utf16le') return Buffer.from(`\ufeff${text}`, 'utf16le');
  if (written === 'latin1') return Buffer.from(text.replace(/degC/g, '°C'), 'latin1');
  const bytes = Buffer.from(text, 'utf8');
  const place = Math.floor(at * bytes.length);
  if (written === 'nul' && place < bytes.length) bytes[place] = 0;
  if (written === 'bits') for (let i = place; i < Math.min(place + 7, bytes.length); i++) bytes[i]! ^= 0x95;
  return bytes;
}
