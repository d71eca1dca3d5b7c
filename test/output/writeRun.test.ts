import { createHash } from 'node:crypto';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { writeRun } from '../../sim/output/writeRun.ts';
import { smallRun, smallTrial } from './smallRun.ts';

const ALL = ['hours.csv', 'nights.csv', 'report.html', 'summary.json'];

let out = '';
beforeEach(() => {
  out = mkdtempSync(join(tmpdir(), 'written-'));
});
afterEach(() => rmSync(out, { recursive: true }));

const inFolder = (name: string) => readFileSync(join(out, 'invented', name), 'utf8');

describe('writing a run', () => {
  test('leaves the four files in a folder of the name of the scenario, and nothing else', () => {
    const written = writeRun(smallRun(), { out });
    expect(written.folder).toBe(join(out, 'invented'));
    expect(written.files).toEqual(['nights.csv', 'hours.csv', 'report.html', 'summary.json']);
    expect(readdirSync(out)).toEqual(['invented']);
    expect(readdirSync(written.folder).sort()).toEqual(ALL);
  });

  test('gives the bytes of summary.json, in which the checksums are those of the other files', () => {
    const { summary } = writeRun(smallRun(), { out });
    expect(inFolder('summary.json')).toBe(summary);
    const sum = (name: string) => createHash('sha256').update(inFolder(name)).digest('hex');
    expect(JSON.parse(summary).files).toEqual({
      'nights.csv': sum('nights.csv'),
      'hours.csv': sum('hours.csv'),
      'report.html': sum('report.html'),
    });
  });

  test('writes the same bytes twice', () => {
    const first = writeRun(smallRun(), { out }).summary;
    expect(writeRun(smallRun(), { out }).summary).toBe(first);
  });

  test('writes hours.csv of more than one year only where asked, and then leaves no old one beside a new summary', () => {
    writeRun(smallRun(), { out });
    const long = smallRun();
    long.weather.hours = 2 * 8760;
    expect(writeRun(long, { out }).files).toEqual(['nights.csv', 'report.html', 'summary.json']);
    expect(readdirSync(join(out, 'invented')).sort()).toEqual(['nights.csv', 'report.html', 'summary.json']);
    expect(writeRun(long, { out, hours: true }).files).toContain('hours.csv');
  });

  test('keeps the earlier result whole when it fails while writing', () => {
    const { summary } = writeRun(smallRun(), { out });
    const nights = inFolder('nights.csv');
    const sick = smallRun([smallTrial(), smallTrial({ lamp: 'sick' })]);
    sick.scenario.site.timeZone = 'Nowhere/At_All';
    expect(() => writeRun(sick, { out })).toThrow('Nowhere/At_All');
    expect(inFolder('summary.json')).toBe(summary);
    expect(inFolder('nights.csv')).toBe(nights);
    expect(readdirSync(join(out, 'invented')).sort()).toEqual(ALL);
  });

  test('puts the earlier files back when it fails between two renames', () => {
    writeRun(smallRun(), { out });
    const nights = inFolder('nights.csv');
    rmSync(join(out, 'invented', 'hours.csv'));
    rmSync(join(out, 'invented', 'summary.json'));
    // A folder that stands where the last file must go.
    mkdirSync(join(out, 'invented', 'summary.json'));
    writeFileSync(join(out, 'invented', 'summary.json', 'kept.txt'), 'kept');
    const other = smallRun([smallTrial({ lamp: 'other' })]);
    expect(() => writeRun(other, { out })).toThrow(/rename/);
    expect(inFolder('nights.csv')).toBe(nights);
    expect(readdirSync(join(out, 'invented')).sort()).toEqual(['nights.csv', 'report.html', 'summary.json']);
  });
});
