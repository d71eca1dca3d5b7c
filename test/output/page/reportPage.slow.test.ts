import { expect, test } from 'vitest';
import { demoPage } from '../../browser/pages.ts';

test('the page of a run is the same text a second time', () => {
  expect(demoPage().html === demoPage().html).toBe(true);
});
