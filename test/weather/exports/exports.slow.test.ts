import { expect, test } from 'vitest';
import { shareOf } from './share.ts';

test('of 200 exports none is taken wrongly, and most are read or have a mend that works as printed', async () => {
  const { failed, part } = await shareOf(1000, 200);
  const words = failed.join('\n');
  expect(part(['wrong', 'crash']), words).toBeLessThan(0.03);
  expect(part(['right', 'mended']), words).toBeGreaterThan(0.75);
  expect(part(['right']), words).toBeGreaterThan(0.55);
  expect(part(['right'], 'clean'), words).toBeGreaterThan(0.9);
}, 900_000);
