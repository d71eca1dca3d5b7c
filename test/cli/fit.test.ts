import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { WORN } from '../../data-samples/make/diary.ts';
import { IN_SERVICE } from '../../data-samples/make/serviceLog.ts';
import type { DiaryFit } from '../../sim/fitting/diaryFit.ts';
import { diaryNights } from '../../sim/fitting/diaryNights.ts';
import type { ServiceFit } from '../../sim/fitting/serviceLog.ts';
import { lampParams } from '../../sim/lamp/params.ts';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import { demoTrial } from '../ageing/demoTrial.ts';
import { runMain } from './runMain.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const demo = `${root}scenarios/bench-readings.yaml`;
const folder = mkdtempSync(join(tmpdir(), 'longnight-fit-'));
afterAll(() => rmSync(folder, { recursive: true }));

it('fit prints parameters with intervals, readings against the fit, the next reading and YAML to paste', async () => {
  const { code, stdout, stderr } = await runMain(['fit', demo, '--details']);
  expect(stderr).toBe('');
  expect(code).toBe(0);
  for (const part of ['cell', 'diode', 'capacitor', 'driver', 'led', 'jar'])
    expect(stdout).toContain(`measured, ${part}\n`);
  expect(stdout).toMatch(/shunt resistance +\d+ ohm +\d+ to \d+ +400/);
  expect(stdout).toMatch(/light 1, open circuit +2\.306 V +2\.30\d/);
  expect(stdout).toMatch(/Next, read .*: it narrows the/);
  expect(Math.max(...stdout.split('\n').map((line) => line.length))).toBeLessThanOrEqual(100);
});

it('the YAML to paste names the lamp as it is, though signs of it are not seen', async () => {
  const { lamps, ...document } = parse(readFileSync(demo, 'utf8')) as { lamps: { measured: object } };
  const name = 'mea\u200fsured \u{e0041}';
  const named = { ...document, weather: undefined, spots: LOGGED, lamps: { [name]: lamps.measured } };
  writeFileSync(join(folder, 'named.yaml'), JSON.stringify(named));
  writeFileSync(join(folder, 'log.csv'), 'start_utc,light_W_m2\n2025-01-01T00:00:00Z,0\n');
  const { stdout, stderr } = await runMain(['fit', join(folder, 'named.yaml'), '--details']);
  expect(stderr).toBe('');
  const pasted = parse(stdout.slice(stdout.indexOf('  "lamps":'))) as typeof named;
  expect(Object.keys(pasted.lamps)).toEqual([name]);
  expect(stdout).toContain('mea\\u{200f}sured \\u{e0041}, cell');
});

it('the YAML to paste gives the same lamp as the readings', async () => {
  const { stdout } = await runMain(['fit', demo, '--details']);
  const pasted = parse(stdout.slice(stdout.indexOf('  lamps:'))) as {
    lamps: { measured: Record<string, Record<string, unknown>> };
  };
  const short = (await runMain(['fit', demo])).stdout;
  expect(parse(short.slice(short.indexOf('  lamps:'), short.indexOf('\nWith --details')))).toEqual(pasted);
  const document = parse(readFileSync(demo, 'utf8')) as {
    lamps: { measured: Record<string, Record<string, unknown>> };
  };
  for (const [part, keys] of Object.entries(pasted.lamps.measured)) {
    const { readings: _, ...rest } = document.lamps.measured[part]!;
    document.lamps.measured[part] = { ...rest, ...keys };
  }
  const file = join(folder, 'pasted.yaml');
  writeFileSync(file, JSON.stringify({ ...document, weather: undefined, spots: LOGGED }));
  writeFileSync(join(folder, 'log.csv'), 'start_utc,light_W_m2\n2025-01-01T00:00:00Z,0\n');
  const { lamps } = loadScenario(file);
  const read = loadScenario(demo).lamps[0]!.params;
  const { cell, capacitor, driver, diode, led, jar } = lamps[0]!.params;
  // Pasted values carry 6 digits or fewer, those of the LED and the driver 3 to 4.
  for (const key of ['photocurrent_A', 'saturation_A', 'series_ohm', 'shunt_ohm', 'openCircuit_V'] as const) {
    expect(cell[key] / read.cell[key]).toBeCloseTo(1, 5);
  }
  expect(capacitor.leakage_A / read.capacitor.leakage_A).toBeCloseTo(1, 4);
  expect(capacitor.capacitance_F / read.capacitor.capacitance_F).toBeCloseTo(1, 5);
  expect(diode.saturation_A / read.diode.saturation_A).toBeCloseTo(1, 5);
  expect(driver).toEqual(read.driver);
  expect(led).toEqual(read.led);
  expect(jar).toEqual(read.jar);
});

const LOGGED = {
  logged: {
    light_on_cell: {
      file: 'log.csv',
      stamp: { column: 'start_utc', zone: 'UTC', marks: 'start' },
      column: 'light_W_m2',
      unit: 'W/m2',
      air_temperature: { constant_degC: 10 },
    },
  },
};

it('a settled lamp is the same lamp without readings', () => {
  const { settled, params } = loadScenario(demo).lamps[0]!;
  expect(JSON.stringify(settled)).not.toContain('readings');
  const again = lampParams(settled, (problem) => {
    throw new Error(JSON.stringify(problem));
  })!;
  expect(again.cell.shunt_ohm / params.cell.shunt_ohm).toBeCloseTo(1, 5);
  expect(again.driver).toEqual(params.driver);
});

it('check says where readings are not what the datasheet promised', async () => {
  const { stdout, code } = await runMain(['check', demo]);
  expect(code).toBe(0);
  expect(stdout.replace(/\s+/g, ' ')).toMatch(
    /Readings of the cell: .*shunt resistance \d+ ohm instead of 400/,
  );
  expect(stdout.replace(/\s+/g, ' ')).toMatch(
    /Readings of the capacitor: capacitance.* 315 F instead of 360/,
  );
});

it('fit --json prints JSON and nothing else', async () => {
  const { code, stdout } = await runMain(['fit', demo, '--json']);
  expect(code).toBe(0);
  const report = JSON.parse(stdout) as { lamps: { lamp: string; parts: { part: string }[] }[] };
  expect(report.lamps[0]!.lamp).toBe('measured');
  expect(report.lamps[0]!.parts.map(({ part }) => part)).toEqual([
    'cell',
    'diode',
    'capacitor',
    'driver',
    'led',
    'jar',
  ]);
});

it('a scenario without readings ends with 2 and names the demo', async () => {
  const { code, stdout, stderr } = await runMain(['fit', `${root}scenarios/invented-garden.yaml`]);
  expect(code).toBe(2);
  expect(stdout).toBe('');
  expect(stderr).toMatch(/SCENARIO_MISSING_KEY.*\n.*no readings.*bench-readings\.yaml/);
});

it('readings that cannot be are refused with the line they stand in', async () => {
  const file = join(folder, 'slip.yaml');
  const text = readFileSync(demo, 'utf8')
    .replaceAll('../data-samples/', `${root}data-samples/`)
    .replace('open_circuit_V: 1.907', 'open_circuit_V: 2.6');
  writeFileSync(file, text);
  const line = text.split('\n').findIndex((words) => words.includes('open_circuit_V: 2.6')) + 1;
  const { code, stderr } = await runMain(['run', file, '--out', folder]);
  expect(code).toBe(2);
  expect(stderr).toContain(`slip.yaml:${line}:`);
  expect(stderr).toMatch(/SCENARIO_CONFLICT.*lamps\.measured\.cell\.readings\.lights\.2\.open_circuit_V/);
});

const garden = `${root}scenarios/invented-garden.yaml`;
const serviceLog = `${root}data-samples/service-log.csv`;

it('fit --log finds again what the invented lamp in service differs in, and draws log against simulation', async () => {
  const { code, stdout, stderr } = await runMain([
    'fit',
    garden,
    '--log',
    serviceLog,
    '--lamp',
    'single',
    '--spot',
    'lawn',
    '--json',
  ]);
  expect(stderr).toBe('');
  expect(code).toBe(0);
  const report = JSON.parse(stdout) as { fit: ServiceFit; keys: { spot: { shading: { factor: number } } } };
  const truths = {
    leakage_uA: 700 * IN_SERVICE.leakage,
    light_share: IN_SERVICE.lightShare,
    draw: IN_SERVICE.draw,
  };
  for (const { key, low, high } of report.fit.estimates) {
    expect(truths[key as keyof typeof truths], key).toBeGreaterThan(low);
    expect(truths[key as keyof typeof truths], key).toBeLessThan(high);
  }
  expect(report.keys.spot.shading.factor).toBeCloseTo(IN_SERVICE.lightShare, 2);
  const text = await runMain(['fit', garden, '--log', serviceLog, '--lamp', 'single', '--spot', 'lawn']);
  expect(text.stdout).toContain('Care: a shorted capacitor');
  expect(text.stdout).toMatch(/2025-11-05 {2}[.+-]{24}\n/);
  expect(text.stdout).toMatch(/lawn:\n +shading:\n +factor: 0\.\d+/);
  // But for the path of the log, which is as long as it is.
  const widths = text.stdout
    .split('\n')
    .slice(1)
    .map((line) => line.length);
  expect(Math.max(...widths.filter((_, i) => i > 1))).toBeLessThanOrEqual(100);
});

it('a log without its lamp named, and a lamp named without a log, are refused with a suggestion', async () => {
  const { code, stderr } = await runMain(['fit', garden, '--log', serviceLog, '--lamp', 'one-stoer']);
  expect(code).toBe(2);
  expect(stderr).toMatch(/USAGE[\s\S]*--lamp single/);
  const bare = await runMain(['fit', garden, '--log', serviceLog]);
  expect(bare.stderr).toMatch(/2 lamps it may be of[\s\S]*single, double/);
  const lost = await runMain(['fit', demo, '--lamp', 'measured']);
  expect(lost.code).toBe(2);
  expect(lost.stderr).toMatch(/without --log/);
});

describe('fit --discharge', () => {
  const sample = fileURLToPath(new URL('../../data-samples/discharge-curve.csv', import.meta.url));

  it('reads a curve without a scenario and prints keys to paste', async () => {
    const { code, stdout } = await runMain(['fit', '--discharge', sample]);
    expect(code).toBe(0);
    expect(stdout).toMatch(/capacitance +25\.1\d F/);
    expect(stdout).toMatch(/ {2}capacitor:\n {4}rated_V: 2.7\n {4}capacitance_F: 25\.1/);
  });

  it('takes what is typed over what the file says, as JSON', async () => {
    const { stdout } = await runMain(['fit', '--discharge', sample, '--current', '100 mA', '--json']);
    expect(JSON.parse(stdout)).toMatchObject({ facts: { current_A: 0.1 }, keys: { rated_V: 2.7 } });
  });

  it.each([
    [['--discharge', sample, 'garden.yaml'], 'the curve alone'],
    [['--discharge', sample, '--current', '0.2', '--ohms', '10'], 'one of them'],
    [['garden.yaml', '--rated', '2.7'], 'them beside a discharge curve'],
    [[], 'SCENARIO or --discharge FILE'],
  ])('refuses %j', async (words, expected) => {
    const { code, stderr } = await runMain(['fit', ...words]);
    expect(code).toBe(2);
    expect(stderr).toContain(`expected ${expected}`);
  });
});

describe('fit --log with a diary', () => {
  const nights = `${root}data-samples/diary.txt`;
  const of = ['--lamp', 'single', '--spot', 'lawn'];

  it('finds again how worn the invented lamp of the sample is, and says what it leaves open', {
    timeout: 60_000,
  }, async () => {
    const { code, stdout, stderr } = await runMain(['fit', garden, '--log', nights, ...of, '--json']);
    expect(stderr).toBe('');
    expect(code).toBe(0);
    const report = JSON.parse(stdout) as { diary: DiaryFit; fit?: object; keys: object };
    const truths = { capacitance: WORN.capacitance, light_share: WORN.lightShare };
    for (const [key, truth] of Object.entries(truths)) {
      const { low, high } = report.diary.estimates.find((each) => each.key === key)!;
      expect(truth, key).toBeGreaterThan(low);
      expect(truth, key).toBeLessThan(high);
    }
    expect(report.fit).toBeUndefined();
    // What is not settled has no key to paste.
    expect(report.diary.open).toEqual(['leakage_uA']);
    const capacitance_F = expect.closeTo(360 * WORN.capacitance, -1.5);
    expect(report.keys).toMatchObject({ lamp: { capacitor: { capacitance_F } } });
    expect(JSON.stringify(report.keys)).not.toContain('leakage');
  });

  it('takes a log of voltages of the same lamp beside it, and prints both', { timeout: 60_000 }, async () => {
    const { lamp, light, terms } = await demoTrial('lawn', 'single');
    const { site, promise } = terms;
    const service = { lamp: lamp.params, light, site, promise };
    const rows = light.nights.eveningDate.flatMap((written, k) =>
      /2025-1[12]-/.test(written)
        ? [{ line: 1, seen: 'lit' as const, written, time_ms: light.dusk_ms[k]! + 3 * 3_600_000 }]
        : [],
    );
    const { leakage, lightShare, draw } = IN_SERVICE;
    const truth = { capacitance: 1, leakage, light: lightShare, draw };
    const lit_h = diaryNights(service, { file: 'diary.txt', rows }).lit_h(truth);
    const lines = rows.map(({ time_ms }, i) => {
      const at_ms = lit_h[i]! < 5.4 ? time_ms + (lit_h[i]! - 3) * 3_600_000 : time_ms;
      return `${new Date(at_ms).toISOString().slice(0, 16)}Z${at_ms === time_ms ? ' lit' : ''}`;
    });
    const own = join(folder, 'own.txt');
    writeFileSync(own, lines.join('\n'));
    const { code, stdout, stderr } = await runMain(['fit', garden, '--log', own, '--log', serviceLog, ...of]);
    expect(stderr).toBe('');
    expect(code).toBe(0);
    expect(stdout).toMatch(/Log less simulation: [\s\S]*Diary\n[\s\S]*Seen less simulation: \d+ minutes/);
    expect(stdout).toMatch(/2025-11-03 {2}at least 3:00/);
    expect(stdout).toMatch(/capacitance over what the scenario states +[01]\.\d+ /);
    expect(stdout).toContain('Care: a shorted capacitor');
  });

  it('refuses a log and a diary that are not of one lamp, and two diaries', async () => {
    const other = await runMain(['fit', garden, '--log', nights, '--log', serviceLog, ...of]);
    expect(other.code).toBe(2);
    expect(other.stderr).toMatch(/FIT_UNDETERMINED[\s\S]*fit each by itself/);
    const twice = await runMain(['fit', garden, '--log', nights, '--log', nights, ...of]);
    expect(twice.code).toBe(2);
    expect(twice.stderr).toMatch(/USAGE[\s\S]*a second diary[\s\S]*one of each/);
  });
});
