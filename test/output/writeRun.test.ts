import { createHash } from 'node:crypto';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { RunWriter, writeRun } from '../../sim/output/writeRun.ts';
import { smallNight, smallRun, smallStatistics, smallTrial } from './smallRun.ts';

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

  test('one trial after the other, their hours let go since, gives the same bytes as all at once', () => {
    const trials = ['one', 'two', 'three'].map((lamp) => smallTrial({ lamp, flags: ['a flag'] }));
    const run = smallRun(trials);
    writeRun(run, { out });
    const atOnce = ALL.map(inFolder);
    const writer = new RunWriter(run.scenario, 48, { out });
    for (const trial of trials) {
      writer.add(trial);
      // What was there stays until all is written.
      expect(ALL.map(inFolder)).toEqual(atOnce);
    }
    writer.finish(run);
    writer.discard();
    expect(ALL.map(inFolder)).toEqual(atOnce);
    expect(readdirSync(join(out, 'invented')).sort()).toEqual(ALL);
  });

  test('leaves nothing of what was added where it is not finished', () => {
    const writer = new RunWriter(smallRun().scenario, 48, { out: join(out, 'new') });
    writer.add(smallTrial());
    writer.discard();
    expect(readdirSync(out)).toEqual([]);
  });

  test('of many trials draws the decisive ones, and says which and where the rest is', () => {
    const trials = Array.from({ length: 20 }, (_, k) => {
      const statistics = smallStatistics(k < 10 ? { failedNights: k + 1 } : { smallestReserve_J: 10 * k });
      const nights = Array.from({ length: 2 }, (_, n) =>
        smallNight(`2025-12-2${n}`, k < 10 ? { outcome: 'failed', short_h: 1, dim_h: 1, lit_h: 5 } : {}),
      );
      return smallTrial({ lamp: `lamp-${k}`, statistics, nights });
    });
    writeRun(smallRun(trials), { out });
    const page = inFolder('report.html');
    const drawn = ['1', '2', '9', '10', '11', '12', '19', '20'];
    const sections = [...page.matchAll(/<section class="trial" id="trial-(\d+)"([^>]*)>/g)];
    expect(sections).toHaveLength(20);
    expect(sections.flatMap(([, place, more]) => (more!.includes('data-brief') ? [] : [place]))).toEqual(
      drawn,
    );
    expect(page.match(/<a class="cell" href="#trial-\d+"/g)).toHaveLength(20);
    expect(page.match(/id="bench-\d+"/g)).toHaveLength(8);
    expect(page).toContain('Of these 20 trials 8 are drawn in full');
    expect(inFolder('nights.csv').trimEnd().split('\n')).toHaveLength(1 + 20 * 2);
    expect(JSON.parse(inFolder('summary.json')).trials).toHaveLength(20);
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
