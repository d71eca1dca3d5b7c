import { parseArgs } from 'node:util';
import { exportFile } from './exports.ts';
import { KINDS, type Kind } from './manner.ts';
import { OUTCOMES, outcomeOf } from './outcome.ts';

// Reads as many invented exports as are asked for, typing what refusals offer, and prints what came of each kind:
// npm run exports -- --seed 1 --count 500 [--kind "sums of days"] [--show]
const { values } = parseArgs({
  options: {
    seed: { type: 'string', default: '1' },
    count: { type: 'string', default: '200' },
    kind: { type: 'string' },
    show: { type: 'boolean', default: false },
  },
});
const kind = KINDS.find((each) => each === values.kind);
if (values.kind !== undefined && kind === undefined) {
  console.error(`exports: --kind is one of ${KINDS.join(', ')}`);
  process.exit(2);
}
const tally = new Map<Kind, Record<string, number>>();
const all = Object.fromEntries(OUTCOMES.map((outcome) => [outcome, 0]));
const first = Number(values.seed);
for (let seed = first; seed < first + Number(values.count); seed++) {
  const file = exportFile(seed, kind);
  const { outcome, typed, note } = await outcomeOf(file);
  const row = tally.get(file.kind) ?? {};
  tally.set(file.kind, { ...row, [outcome]: (row[outcome] ?? 0) + 1 });
  all[outcome]!++;
  if (values.show || !['right', 'mended'].includes(outcome))
    console.log(
      `${seed} ${outcome}, ${file.kind}: ${file.traits.join(', ')}\n  typed: ${typed.join(' ')}\n  ${note}`,
    );
}
const width = Math.max(...KINDS.map((each) => each.length));
console.log(`\n${''.padEnd(width)}  ${OUTCOMES.map((outcome) => outcome.padStart(9)).join('  ')}`);
for (const [name, row] of [
  ...[...tally].toSorted(([a], [b]) => KINDS.indexOf(a) - KINDS.indexOf(b)),
  ['all', all] as const,
])
  console.log(
    `${name.padEnd(width)}  ${OUTCOMES.map((outcome) => String(row[outcome] ?? '').padStart(9)).join('  ')}`,
  );
