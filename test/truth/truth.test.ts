import { describe, expect, it } from 'vitest';
import { fileAt } from '../house/simFiles.ts';
import { readmeSection } from '../readmeSection.ts';
import { collectTruths } from './collectTruths.ts';
import { measure, sorted } from './measure.ts';
import { STATUSES } from './TruthCase.ts';
import { truthReadme } from './truthReadme.ts';
import { truthText } from './truthTable.ts';

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

it('every case has a status of the list', () => {
  expect(
    all.filter(({ truth }) => !Object.hasOwn(STATUSES, truth.status)).map(({ truth }) => truth.what),
  ).toEqual([]);
});

it('a case that cites what the list of sources has from memory says so, and is not called printed or computed', () => {
  const remembered = [
    ...fileAt('sim/common/SOURCES.md').text.matchAll(/^\| (\w+) \| .+\(from memory\) \|$/gm),
  ].map(([, key]) => key!.match(/[A-Z][a-z]+|[A-Z]+(?![a-z])|\d+/g)!);
  expect(remembered.length).toBeGreaterThan(20);
  const cites = (source: string) => remembered.some((parts) => parts.every((part) => source.includes(part)));
  const citing = all.filter(({ truth }) => cites(truth.source));
  expect(citing.length).toBeGreaterThan(20);
  const silent = citing.filter(
    ({ truth: { source, status } }) =>
      !/from memory/.test(source) || status === 'printed' || status === 'computed',
  );
  expect(silent.map(({ truth }) => `${truth.what}: ${truth.status}: ${truth.source}`)).toEqual([]);
});

it('an input given back counts neither as held nor as missed', () => {
  const { truth } = sorted(all).gated[0]!;
  const held = measure([truth, { ...truth, compute: () => truth.expected }]);
  const given = measure(
    [0, 1e9].map((off) => ({ ...truth, status: 'input', compute: () => truth.expected + off })),
  );
  expect(sorted([...held, ...given])).toMatchObject({ gated: held, facts: [], inputs: given });
  const counts = (text: string) => text.match(/\d+ of \d+ \w+ values hold/)![0];
  expect(counts(truthText([...held, ...given]))).toBe(counts(truthText(held)));
  const topic = (text: string) => text.split('\n')[2];
  expect(topic(truthReadme([...held, ...given]))).toBe(topic(truthReadme(held)));
  expect(truthReadme(given)).not.toMatch(/holds|MISSES/);
});

it('no case stands twice', () => {
  const names = all.map(({ truth }) => `${truth.topic}: ${truth.what} [${truth.unit}]`);
  expect(names.filter((name, i) => names.indexOf(name) !== i)).toEqual([]);
});

it('no case is without an answer', () => {
  expect(all.filter(({ got }) => !Number.isFinite(got)).map(({ truth }) => truth.what)).toEqual([]);
});

describe.each(measured)('$name', ({ results }) => {
  const { gated } = sorted(results);
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

it('the README beside shows these results (if not: npm run truth -- --readme)', () => {
  expect(readmeSection('npm run truth')).toBe(truthReadme(all));
});
