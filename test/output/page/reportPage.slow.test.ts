import { expect, test } from 'vitest';
import { demoPage } from '../../browser/pages.ts';

test('the page of a run is the same text a second time', () => {
  const [first, second] = [demoPage(), demoPage()];
  expect(second.html === first.html).toBe(true);
});
