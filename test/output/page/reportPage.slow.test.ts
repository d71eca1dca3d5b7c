import { expect, test } from 'vitest';
import { demoPage } from '../../browser/pages.ts';

test('the page of a run is the same text a second time', async () => {
  const [first, second] = await Promise.all([demoPage(), demoPage()]);
  expect(second.html === first.html).toBe(true);
});
