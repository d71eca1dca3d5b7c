import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { LiveTrials } from '../../../sim/trial/live/LiveTrials.ts';
import { besideIt, carried, holdsBeside } from './besideIt.ts';

const garden = readFileSync('scenarios/invented-garden.yaml', 'utf8');

/** The garden with pieces of its text replaced; each must be there. */
function changed(...pieces: readonly (readonly [from: string, to: string])[]): string {
  return pieces.reduce((text, [from, to]) => {
    if (!text.includes(from)) throw new Error(`no "${from}" in the garden`);
    return text.replace(from, to);
  }, garden);
}

function refusal(trial: ReturnType<LiveTrials['trial']>): string {
  return 'refused' in trial ? trial.refused : '';
}

describe('a lamp with readings', () => {
  it('keeps them where only a count is turned, and gives them up where they say the value', async () => {
    const bench = await carried('scenarios/bench-readings.yaml');
    const beside = await holdsBeside(bench, 'lawn', 'measured', [
      { of: 'lamp', key: 'cell.parallel', value: 2 },
      { of: 'lamp', key: 'capacitor.parallel', value: 2 },
    ]);
    expect(beside.yaml.match(/readings:/g)).toHaveLength(6);
    expect(beside.trial.flags.join()).toContain('Readings of the capacitor');
    const other = await holdsBeside(bench, 'lawn', 'measured', [
      { of: 'lamp', key: 'capacitor.capacitance_F', value: 500 },
      { of: 'lamp', key: 'driver.inductance_uH', value: 560 },
    ]);
    expect(other.yaml.match(/readings:/g)).toHaveLength(4);
    expect(other.yaml).toContain('capacitance_F: 500\n');
    expect(other.trial.flags.join()).not.toContain('Readings of the capacitor');
  });
});

describe('raw parameters under light logged on the cell', () => {
  it('are turned where they are stated, the spot is not', async () => {
    const raw = await carried('scenarios/raw-parameters.yaml');
    const { knobs, fixed } = raw.live.knobs('logged', 'raw');
    expect(knobs.map(({ of, key }) => `${of} ${key}`)).toEqual([
      'lamp capacitor.raw.capacitance_F',
      'lamp capacitor.parallel',
      'lamp cell.parallel',
      'lamp driver.power_mW',
      'lamp schedule.hours',
      'promise hours',
      'promise least_lumen',
    ]);
    expect(fixed.map(({ label }) => label)).toEqual(['tilt of the cell', 'share of the light']);
    await holdsBeside(
      raw,
      'logged',
      'raw',
      [
        { of: 'lamp', key: 'capacitor.raw.capacitance_F', value: 470 },
        { of: 'lamp', key: 'driver.power_mW', value: 10 },
        { of: 'lamp', key: 'schedule.hours', value: 5 },
        { of: 'promise', key: 'hours', value: 7 },
      ],
      { withChanges: true },
    );
  });
});

describe('an evening until a time of the clock', () => {
  it('is promised and lit until another', async () => {
    const dawn = await carried('scenarios/dusk-to-dawn.yaml');
    const { trial } = await holdsBeside(dawn, 'lawn', 'double', [
      { of: 'promise', key: 'until', value: '22:30' },
      { of: 'lamp', key: 'cell.parallel', value: 4 },
    ]);
    expect(trial.statistics.verdict).toBe('kept');
  });
});

describe('a driver of a measured table', () => {
  it('has no knob for its current, and says why', async () => {
    const table =
      'driver: { kind: table, table: [{ capacitor_V: 1, current_mA: 9 }, { capacitor_V: 2.5, current_mA: 6 }] }';
    const { live } = await carried(
      besideIt(changed(['    driver: { part: inductor-driver }', `    ${table}`])),
    );
    const { knobs, fixed } = live.knobs('lawn', 'single');
    expect(knobs.some(({ key }) => key.startsWith('driver'))).toBe(false);
    expect(fixed).toEqual([
      { label: 'current for the LED', why: 'the driver is a measured table, which no single value moves' },
    ]);
  });
});

describe('a turn after which no lamp can be', () => {
  it('is refused in the words of its scenario', async () => {
    const { live } = await carried(
      besideIt(
        changed(['diode: { part: small-schottky }', 'diode: { part: small-schottky, series_ohm: 3 }']),
      ),
    );
    expect(refusal(live.trial('lawn', 'single', [{ of: 'lamp', key: 'cell.parallel', value: 8 }]))).toMatch(
      /^lamps\.single\.diode\.series_ohm: 3\.?0* ohm behind a cell of .* mA, expected at most/,
    );
    expect(refusal(live.trial('lawn', 'single'))).toBe('');
  });
});

describe('a flat cell', () => {
  it('faces the noon sun of its side of the Earth once it is tilted', async () => {
    const flat = changed(
      ['latitude_deg: 54.0', 'latitude_deg: -54.0'],
      ['    cell_tilt_deg: 10\n    cell_bearing_deg: 180\n', '    cell_tilt_deg: 0\n'],
      ['../data-samples/invented-year.csv', 'south.csv'],
    );
    besideIt(southern(), 'south.csv');
    const south = await carried(besideIt(flat));
    const { yaml } = await holdsBeside(
      south,
      'lawn',
      'single',
      [{ of: 'spot', key: 'cell_tilt_deg', value: 60 }],
      { withChanges: true },
    );
    expect(yaml).toContain('cell_tilt_deg: 60\n    cell_front: flat');
    expect(yaml).toContain('cell_bearing_deg: 0\n');
  });
});

/** The invented year half a year later, without the light of hours that are dusk or dawn. */
function southern(): string {
  const [head, ...rows] = readFileSync('data-samples/invented-year.csv', 'utf8').trimEnd().split('\n');
  const shifted = rows.map((row, i) => {
    const [stamp] = row.split(',');
    const [, ghi, air] = rows[(i + 182 * 24) % rows.length]!.split(',');
    return `${stamp},${Number(ghi) < 15 ? 0 : ghi},${air}`;
  });
  return `${[head, ...shifted].join('\n')}\n`;
}

describe('snow', () => {
  it('is brushed off where it lies, and has no knob where none does', async () => {
    const rows = readFileSync('data-samples/invented-year.csv', 'utf8').trimEnd().split('\n');
    const snowy = rows.map((row, i) => {
      if (i === 0) return `${row},snow_m`;
      const lies = i > 20 * 24 && i < 36 * 24;
      const [stamp, ghi, air] = row.split(',');
      return `${stamp},${ghi},${lies ? Math.min(Number(air), -1) : air},${lies ? 0.2 : 0}`;
    });
    besideIt(`${snowy.join('\n')}\n`, 'snowy.csv');
    const path = besideIt(
      changed(
        ['../data-samples/invented-year.csv', 'snowy.csv'],
        ['unit: degC }', 'unit: degC }\n    snow_depth: { column: snow_m, unit: m }'],
      ),
    );
    const snow = await carried(path);
    expect(snow.live.knobs('lawn', 'double').knobs.at(-1)).toMatchObject({ key: 'snow.on_lid', value: true });
    const { trial } = await holdsBeside(snow, 'lawn', 'double', [
      { of: 'spot', key: 'snow.on_lid', value: false },
    ]);
    expect(trial.statistics.verdict).toBe('kept');
    const left = await holdsBeside(snow, 'lawn', 'double', [
      { of: 'spot', key: 'shading.factor', value: 0.95 },
    ]);
    expect(left.trial.snow!.bySnow).toBeGreaterThan(3);
  });
});

describe('a record of one winter', () => {
  it('is led in, as in the file', async () => {
    const winter = await carried(
      besideIt(
        garden.replace(
          /weather:[\s\S]*?start: cyclic/,
          'weather: { file: ../data-samples/invented-winter.csv }',
        ),
      ),
    );
    await holdsBeside(winter, 'lawn', 'single', [
      { of: 'lamp', key: 'capacitor.capacitance_F', value: 470 },
      { of: 'spot', key: 'cell_tilt_deg', value: 60 },
    ]);
  });
});

describe('files named by paths from the root', () => {
  it('are carried without the path, those of the same name apart, and have to be written again', async () => {
    besideIt('bearing_deg,elevation_deg\n0,5\n120,5\n240,5\n', 'house.csv');
    const near = resolve('data-samples/house.csv');
    const path = besideIt(
      changed(
        ['{ file: ../data-samples/house.csv }', `{ file: ${near} }`],
        [
          '    cover: { part: flat-lid }\n',
          '    cover: { part: flat-lid }\n    horizon: { file: house.csv }\n',
        ],
      ),
    );
    const rooted = await carried(path);
    expect(JSON.stringify(rooted.run)).not.toContain(resolve('.'));
    for (const spot of ['lawn', 'north-side'])
      expect(rooted.live.trial(spot, 'single')).toHaveProperty('statistics');
    const [lawn, north] = ['lawn', 'north-side'].map((spot) => {
      const trial = rooted.live.trial(spot, 'single');
      return 'refused' in trial ? undefined : trial.light.planeOfArray_W_m2;
    });
    expect(lawn).not.toEqual(north);
    expect(rooted.run.rootedFiles).toEqual(['spots.north-side.horizon.file']);
  });
});
