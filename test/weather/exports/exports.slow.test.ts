import { expect, test } from 'vitest';
import { shareOf } from './share.ts';

test('of 200 exports none is taken wrongly, and most are read or have a mend that works as printed', async () => {
  const { failed, part } = await shareOf(1000, 200);
  const words = failed.join('\n');
  expect(part(['wrong', 'crash']), words).toBe(0);
  expect(part(['right', 'mended']), words).toBeGreaterThanOrEqual(0.95);
  expect(part(['right']), words).toBeGreaterThanOrEqual(0.6);
  expect(part(['right'], 'clean'), words).toBeGreaterThanOrEqual(0.9);
}, 900_000);
