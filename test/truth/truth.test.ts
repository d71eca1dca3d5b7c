import { describe, expect, it } from 'vitest';
import { readmeSection } from '../readmeSection.ts';
import { collectTruths } from './collectTruths.ts';
import { measure } from './measure.ts';
import { truthReadme } from './truthReadme.ts';

const files = await collectTruths();
const measured = files.map(({ name, cases }) => ({ name, results: measure(cases) }));
const all = measured.flatMap(({ results }) => results);

it('there are files of outside values, and every one holds cases', () => {
  expect(files.length).toBeGreaterThan(0);
  for (const { name, cases } of files) expect(cases.length, name).toBeGreaterThan(0);
});

it('every case says what it is, where it comes from and why its tolerance is what it is', () => {
  for (const { truth } of all) {
    expect(truth.topic.trim(), truth.what).not.toBe('');
    expect(truth.what.trim(), truth.topic).not.toBe('');
    expect(truth.source.trim(), truth.what).not.toBe('');
    expect(truth.why.trim(), truth.what).not.toBe('');
    expect(Number.isFinite(truth.expected), truth.what).toBe(true);
    expect(truth.tolerance, truth.what).toBeGreaterThan(0);
    expect(Number.isFinite(truth.tolerance), truth.what).toBe(true);
  }
});

it('no case stands twice', () => {
  const names = all.map(({ truth }) => `${truth.topic}: ${truth.what} [${truth.unit}]`);
  expect(names.filter((name, i) => names.indexOf(name) !== i)).toEqual([]);
});

it('no case is without an answer', () => {
  expect(all.filter(({ got }) => !Number.isFinite(got)).map(({ truth }) => truth.what)).toEqual([]);
});

describe.each(measured)('$name', ({ results }) => {
  const gated = results.filter(({ truth }) => truth.reportOnly !== true);
  it.each(gated.map((one) => ({ ...one, what: `${one.truth.topic}: ${one.truth.what}` })))(
    '$what',
    ({ truth, got, off, holds }) => {
      const words = `expected ${truth.expected} +- ${truth.tolerance} ${truth.unit}, got ${got}, off by ${off}; ${truth.source}`;
      expect(holds, words).toBe(true);
    },
  );
  if (gated.length === 0) {
    it('holds facts that are only reported', () => {
      expect(results.length).toBeGreaterThan(0);
    });
  }
});

it('the README shows these results (if not: npm run truth -- --readme)', () => {
  expect(readmeSection('npm run truth')).toBe(truthReadme(all));
});
