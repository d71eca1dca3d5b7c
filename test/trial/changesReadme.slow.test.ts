import { expect, it } from 'vitest';
import { readmeSection } from '../readmeSection.ts';
import { changesTable } from './changesReadme.ts';

it('the README of the scenarios says what one change does to the demo: run npm run changes -- --readme', async () => {
  expect(readmeSection('npm run changes')).toBe(await changesTable());
});
