import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { expect } from 'vitest';
import { textOfCell } from '../../sim/common/csvText.ts';
import { runMain } from '../cli/runMain.ts';
import { smallGarden } from '../cli/smallGarden.ts';
import { yearRows, yearText } from '../cli/weatherGarden.ts';
import type { Property } from '../properties/Property.ts';

/** Controls of both tables but the line break, direction marks and isolates, signs of no width, line separators, halves. */
const RAW =
  /(?!\n)[\p{Cc}\p{Cs}\u00ad\u061c\u180e\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\u{e0000}-\u{e0fff}]|\p{Variation_Selector}/u;

/** Our own colours, and a line of progress. */
const OWN = new RegExp(`${'\u001b'}\\[(?:\\d+m|K)|\\r[\\w ]*`, 'g');

const ODD = [
  ...[
    '\u001b',
    '\u001b[31m',
    '\u001b]0;title\u0007',
    '\u009b2J',
    '\u0000',
    '\u0008',
    '\r',
    '\t',
    '\n',
    '\u0085',
    '\u007f',
  ],
  ...['\u202e', '\u202a', '\u2066', '\u2069', '\u200e', '\u200f', '\u061c'],
  ...[
    '\u200b',
    '\u200d',
    '\u2060',
    '\ufeff',
    '\u00ad',
    '\ufe0f',
    '\u2028',
    '\u2029',
    '\u{e0041}',
    '\ud800',
    '\udc00',
  ],
  ...['=1+1', '+', '-2', '@', "'", "'=", ',', '"', ' ', 'שלום', '👩‍🌾'],
];
const odd = fc.oneof(fc.constantFrom(...ODD), fc.string({ unit: 'binary', maxLength: 6 }));
/** Any texts, many of which may be names. */
const name = fc
  .tuple(fc.constantFrom('n', '=', '+', '@', ''), fc.array(odd, { maxLength: 4 }), fc.constantFrom('x', ''))
  .map(([first, pieces, last]) => `${first}${pieces.join('')}${last}`);
/** Names that are taken, and show less than they hold. */
const takenName = fc
  .tuple(
    fc.constantFrom('n', '=', '+', '@', "'="),
    fc.constantFrom(...ODD.filter((sign) => /^[^\p{Cc}\p{Cs}"]+$/u.test(sign))),
  )
  .map(([first, sign]) => `${first}${sign}x`);

const asYaml = (text: string) =>
  `"${Array.from({ length: text.length }, (_, k) => `\\u${text.charCodeAt(k).toString(16).padStart(4, '0')}`).join('')}"`;

const MONTH = yearRows().slice(0, 24 * 30);

interface Names {
  spot: string;
  lamp: string;
  scenario: string;
  heading: string;
  /** Whether a person watches. */
  tty: boolean;
  json: boolean;
}

/** Names that are taken, marks in all of them. */
const MARKED: Names = {
  spot: 'n\u202ex',
  lamp: '=\u200b1',
  scenario: 'named',
  heading: 'light\u2066',
  tty: true,
  json: false,
};

/** Writes a garden's scenario and log, and a month of weather, under these names. */
function writeNamed(
  folder: string,
  small: string,
  log: string,
  { spot, lamp, scenario, heading }: Names,
): void {
  const text = small
    .replace('format: 1', () => `format: 1\nname: ${asYaml(scenario)}`)
    .replace('  bright:', () => `  ${asYaml(spot)}:`)
    .replace('  one:', () => `  ${asYaml(lamp)}:`)
    .replaceAll('column: light_W_m2', () => `column: ${asYaml(heading)}`)
    .replace('file: dim.csv', 'file: log.csv');
  writeFileSync(join(folder, 'named.yaml'), text);
  const cell = heading.replaceAll('"', '""');
  writeFileSync(
    join(folder, 'log.csv'),
    log.replace('light_W_m2', () => `"${cell}"`),
  );
  const month = yearText(MONTH, `start utc,"GHI (W/m2) ${cell}",air temperature (degC)`);
  writeFileSync(join(folder, 'month.csv'), month);
}

/** What the commands say of the garden; throws where something raw is among it. */
async function sayAll(folder: string, { heading, tty, json }: Names): Promise<void> {
  const ways = json ? ['--json'] : [];
  const commands = [
    ['run', 'named.yaml', ...ways],
    ['check', 'named.yaml', ...ways],
    ['check', 'named.yaml', '--bench', ...ways],
    ['compare', 'named.yaml', ...ways],
    ['fit', 'named.yaml', '--lamp', heading, ...ways],
    ['weather', 'month.csv', '--place', '54,10', ...ways],
    [heading],
  ];
  for (const argv of commands) {
    const { code, stdout, stderr } = await runMain(argv, { cwd: folder, tty });
    expect([0, 2], stderr).toContain(code);
    const own = tty ? OWN : /(?!)/g;
    expect(RAW.exec(`${stdout}${stderr}`.replace(own, ''))?.[0], argv.join(' ')).toBeUndefined();
    if (json && code === 0) JSON.parse(stdout);
  }
}

/** The names in a run's CSV files; throws where one is a formula. */
function namesInCsv(folder: string): Set<string>[] {
  return ['nights.csv', 'hours.csv'].flatMap((file) => {
    const text = readFileSync(join(folder, 'out', 'named', file), 'utf8');
    const rows = parse(text, { columns: true }) as { spot: string; lamp: string }[];
    return (['spot', 'lamp'] as const).map((key) => {
      for (const row of rows) expect(row[key]).not.toMatch(/^[=+@\t\r-]/);
      return new Set(rows.map((row) => textOfCell(row[key])));
    });
  });
}

/** Checks each of some gardens, in one folder. */
async function inGarden(
  names: fc.Arbitrary<Names>,
  { runs, seed, first }: { runs: number; seed: number; first: Names },
  check: (folder: string, named: Names) => Promise<void>,
): Promise<void> {
  const garden = smallGarden();
  const read = (file: string) => readFileSync(join(garden.folder, file), 'utf8');
  const [small, log] = [read('small.yaml'), read('log.csv')];
  try {
    await fc.assert(
      fc.asyncProperty(names, async (named) => {
        writeNamed(garden.folder, small, log, named);
        await check(garden.folder, named);
      }),
      { numRuns: runs, seed, examples: [[first]] },
    );
  } finally {
    garden.remove();
  }
}

const someName = fc.oneof(takenName, name);
const terminal = { tty: fc.boolean(), json: fc.boolean() };

/** What names and headings, of any signs, may not do. */
export const TERMINAL_FUZZ: Property[] = [
  {
    title: 'no name or heading brings a control character, an escape sequence or a mark to the terminal',
    runs: 48,
    check: (runs, seed = 20260103) => {
      const scenario = fc.oneof(fc.constant('named'), name);
      const names = { spot: someName, lamp: someName, scenario, heading: someName, ...terminal };
      return inGarden(fc.record(names), { runs, seed, first: MARKED }, sayAll);
    },
  },
  {
    title: 'names come back from the CSV files as they are, none of them a formula',
    runs: 80,
    check: (runs, seed = 20260103) => {
      const [scenario, heading] = [fc.constant('named'), fc.constant('light')];
      const names = { spot: takenName, lamp: takenName, scenario, heading, ...terminal };
      return inGarden(fc.record(names), { runs, seed, first: MARKED }, async (folder, { spot, lamp }) => {
        const { code, stderr } = await runMain(['run', 'named.yaml'], { cwd: folder });
        expect(code, stderr).toBe(0);
        const [spots, lamps] = [new Set([spot, 'dim']), new Set([lamp])];
        expect(namesInCsv(folder)).toEqual([spots, lamps, spots, lamps]);
      });
    },
  },
];
