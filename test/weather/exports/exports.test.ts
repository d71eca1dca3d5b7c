import { expect, test } from 'vitest';
import { exportFile } from './exports.ts';
import { KINDS } from './manner.ts';
import { outcomeOf } from './outcome.ts';

/** Of seeds that stand for their kinds; all kinds stand in the slow test. */
const SEEDS = [1, 2, 3, 4, 6, 7, 9, 10, 11, 14, 17, 19, 22, 25, 29, 35, 48];

test.each(SEEDS)('the export of seed %i is read rightly, or refused with a mend that works', async (seed) => {
  const file = exportFile(seed);
  const { outcome, note } = await outcomeOf(file);
  expect(['right', 'mended'], `${outcome}, ${file.kind}: ${file.traits.join(', ')}\n${note}`).toContain(
    outcome,
  );
});

test('the same seed makes the same export, every kind one of its own', () => {
  const made = KINDS.map((kind) => exportFile(7, kind));
  expect(exportFile(7, 'decoys').text).toBe(made[KINDS.indexOf('decoys')]!.text);
  expect(new Set(made.map(({ text }) => text)).size).toBeGreaterThan(KINDS.length - 3);
});
