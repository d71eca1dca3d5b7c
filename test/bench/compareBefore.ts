import { spawnSync } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { checkout } from './checkout.ts';
import { causesNow, columnNow, keyNow, nameNow } from './renamed.ts';

// Holds what the program writes beside what it wrote before the restructuring, number by number:
// npm run compare-before [-- SCENARIO...]
// The old program is built once in the temporary folder. The scenarios are those of that commit; test/bench/before/
// has them under today's keys, with every value that the library of parts has changed since written out.

const COMMIT = '8755f5e';
const root = fileURLToPath(new URL('../..', import.meta.url));
const BOTH = ['run', 'compare', 'fit'] as const;
/** A library's sum in place of ours may move the last bits; a printed decimal may then round the other way. */
const RELATIVE = 1e-9;
/**
 * The hourly loop was made anew: by unit, how far its numbers may be from those of the former loop, and as a share of
 * themselves. Nights a few seconds from their tolerance may change sides; what rests on their count changes with them.
 */
const NEW_LOOP: Readonly<Record<string, number>> = { V: 4e-3, h: 0.02, s: 60, C: 3, J: 6, mA: 0.05 };
const NEW_LOOP_RELATIVE = 5e-3;
const NEW_LOOP_S = 60;
/** What should be nothing, as the stored energy that a repeated year gains, and is the rounding of joules by the thousand. */
const NOTHING = 1e-11;
/** A change that is no longer tried, for it never helped. */
const NO_LONGER_TRIED = 'half the light after three hours';
/** What rests on a fit of readings: another least squares stops elsewhere near the same least. */
const FITTED = { names: /bench-readings/, relative: 5e-5 };
/** Two nights fail for the whole promise: which came first out of the last bits was chance, now it is the earlier. */
const TIE = { names: /bench-readings/, place: '.trials[0].winters[0].worst_night.night' };

/** The old program, and in `out/` what it writes of its own scenarios. */
const before = checkout(COMMIT, (folder) => {
  for (const name of namesOf(join(folder, 'scenarios'))) write(folder, folder, name);
});

function namesOf(folder: string): string[] {
  return readdirSync(folder).flatMap((file) => (file.endsWith('.yaml') ? [file.slice(0, -5)] : []));
}

/** What a program writes of a scenario that stands in `scenarios/` of a folder; a command may have nothing to say. */
function write(program: string, folder: string, name: string): void {
  for (const command of BOTH) {
    const words = [command, `scenarios/${name}.yaml`, ...(command === 'fit' ? ['--json'] : ['--out', 'out'])];
    const { status, stdout, stderr } = spawnSync('node', [join(program, 'dist/cli/main.js'), ...words], {
      cwd: folder,
      encoding: 'utf8',
      maxBuffer: 2 ** 28,
    });
    if (status === 0 && command === 'fit') writeFileSync(join(folder, 'out', `fit-${name}.json`), stdout);
    else if (status !== 0 && command !== 'fit')
      throw new Error(`${words.join(' ')} ended with ${status}\n${stderr}`);
  }
}

/** Today's output of the same scenarios, with the weather of that time beside them. */
function makeNow(names: readonly string[]): string {
  const folder = mkdtempSync(join(tmpdir(), 'longnight-now-'));
  mkdirSync(join(folder, 'scenarios'));
  mkdirSync(join(folder, 'out'));
  cpSync(join(before, 'data-samples'), join(folder, 'data-samples'), { recursive: true });
  for (const name of names) {
    cpSync(join(root, 'test/bench/before', `${name}.yaml`), join(folder, 'scenarios', `${name}.yaml`));
    write(root, folder, name);
  }
  return folder;
}

/** Numbers, dates, truths and words of a file by the place where they stand, under today's names. */
type Leaves = Map<string, string | number | boolean | null>;

function leavesOfCsv(text: string): Leaves {
  const [heading, ...rows] = text
    .trimEnd()
    .split('\n')
    .map((line) => line.split(','));
  const columns = heading!.map(columnNow);
  return new Map(
    rows.flatMap((cells, row) =>
      cells.map((cell, i): [string, string | number] => {
        const word = columns[i] === 'cause' ? causesNow(cell) : nameNow(cell);
        return [`${columns[i]}@${row + 2}`, word === '' || Number.isNaN(Number(word)) ? word : Number(word)];
      }),
    ),
  );
}

/** Sentences may be worded anew and digests differ; numbers, truths and dates may not. */
function leavesOfJson(value: unknown, place = '', leaves: Leaves = new Map()): Leaves {
  if (value !== null && typeof value === 'object') {
    const inside = Array.isArray(value) ? value.filter((one) => one?.change !== NO_LONGER_TRIED) : value;
    for (const [key, inner] of Object.entries(inside)) {
      leavesOfJson(inner, Array.isArray(value) ? `${place}[${key}]` : `${place}.${keyNow(key)}`, leaves);
    }
  } else if (typeof value !== 'string' || /^\d{4}-\d\d/.test(value)) {
    leaves.set(place, value as number);
  }
  return leaves;
}

function leavesOf(path: string): Leaves {
  const text = readFileSync(path, 'utf8');
  return path.endsWith('.csv') ? leavesOfCsv(text) : leavesOfJson(JSON.parse(text));
}

/** One line a file; true where everything is as it was. */
function sameFile(name: string, old: string, now: string): boolean {
  const was = leavesOf(old);
  const is = leavesOf(now);
  const decimal = old.endsWith('.csv');
  const allowed = FITTED.names.test(name) ? FITTED.relative : RELATIVE;
  const missing = [...was.keys()].filter((place) => !is.has(place));
  const added = [...is.keys()].filter((place) => !was.has(place));
  const differing: string[] = [];
  let [rounded, largest] = [0, 0];
  for (const [place, value] of was) {
    const other = is.get(place);
    if (other === undefined || Object.is(other, value) || other === value) continue;
    if (place === TIE.place && TIE.names.test(name)) continue;
    if (Math.abs(Date.parse(String(other)) - Date.parse(String(value))) <= NEW_LOOP_S * 1000) continue;
    if (typeof value !== 'number' || typeof other !== 'number') {
      differing.push(`${place} ${value} -> ${other}`);
      continue;
    }
    if (Math.abs(value) < NOTHING && Math.abs(other) < NOTHING) continue;
    const relative = Math.abs(other - value) / Math.max(Math.abs(other), Math.abs(value));
    largest = Math.max(largest, relative);
    const near = NEW_LOOP[/_([A-Za-z]+)(?:@\d+)?$/.exec(place)?.[1] ?? ''] ?? 0;
    if (relative <= NEW_LOOP_RELATIVE || Math.abs(other - value) <= near) rounded++;
    else if (relative <= allowed || (decimal && Math.abs(other - value) <= 1.001 * lastPlace(value, other)))
      rounded++;
    else differing.push(`${place} ${value} -> ${other}`);
  }
  const same = differing.length === 0 && missing.length === 0;
  const counts = [
    `${was.size} values`,
    `${rounded} rounded otherwise`,
    `largest relative difference ${largest.toExponential(1)}`,
    ...(added.length > 0 ? [`${added.length} new (${added.slice(0, 2).join(', ')})`] : []),
  ];
  console.log(`${same ? 'same     ' : 'DIFFERENT'}  ${name}: ${counts.join(', ')}`);
  const lost = missing.map((place) => `${place} is missing`);
  for (const line of [...differing.slice(0, 8), ...lost.slice(0, 8)]) console.log(`             ${line}`);
  if (!same) console.log(`             ${differing.length} differ, ${missing.length} missing`);
  return same;
}

/** The last decimal that either number was printed with. */
function lastPlace(...values: number[]): number {
  return 10 ** -Math.max(...values.map((value) => String(value).split('.')[1]?.length ?? 0));
}

function main(chosen: string[]): void {
  const all = namesOf(join(root, 'test/bench/before'));
  const names = chosen.length > 0 ? chosen : all;
  const now = makeNow(names);
  const files = names.flatMap((name) => [
    ...['nights.csv', 'hours.csv', 'summary.json'].map((file) => join(name, file)),
    join(`compare-${name}`, 'compare.json'),
    `fit-${name}.json`,
  ]);
  const there = files.filter((file) => existsSync(join(before, 'out', file)));
  const verdicts = there.map((file) => sameFile(file, join(before, 'out', file), join(now, 'out', file)));
  rmSync(now, { recursive: true });
  const different = verdicts.filter((same) => !same).length;
  console.log(`${verdicts.length - different} files as before, ${different} different`);
  process.exitCode = different > 0 ? 1 : 0;
}

main(process.argv.slice(2));
