import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { PICTURE, readmePicture } from './readmePicture.ts';

test('the picture of the README shows the demo as it is now (if not: npm run picture)', async () => {
  expect(readFileSync(PICTURE, 'utf8') === (await readmePicture())).toBe(true);
});
