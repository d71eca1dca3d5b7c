import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type Band, BELIEFS, type Belief } from '../../sim/scenario/beliefs.ts';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import { LAMP_PARTS, PARTS } from '../../sim/scenario/parts.ts';
import { questionsOf } from '../../sim/scenario/questions.ts';
import type { Json } from '../../sim/scenario/Scenario.ts';
import { changed, load, refused, SOUND } from './writeScenario.ts';

const capacitor = (keys: string): [string, string] => ['-capacitor }', `-capacitor, ${keys} }`];
const driver = (keys: string): [string, string] => ['-driver }', `-driver, ${keys} }`];
const cell = (keys: string): [string, string] => ['{ part: small-cell }', `{ part: small-cell, ${keys} }`];
const spot = (keys: string): [string, string] => ['    cell_tilt_deg', `    ${keys}\n    cell_tilt_deg`];
const beside = (keys: string): [string, string] => [
  'lamps:\n',
  `    obstacles: { it: { bearing_deg: 180, ${keys} } }\nlamps:\n`,
];
const fence = (keys: string) => beside(`kind: fence, openness: 0.4, width_m: 12, ${keys}`);
const asked = (...changes: [string, string][]) => load(changed(...changes)).questions;

it('a nought that is out of range is none in another unit either', () => {
  const { problems } = refused(changed(fence('height_m: 1.8, distance_m: 0')));
  expect(problems[0]!.fix).toBe('check the value; it is read in m.');
});

describe('numbers outside belief are questioned once, with what was likely meant', () => {
  it.each<[string, [string, string][], string]>([
    [
      'a fence 180 m high',
      [fence('distance_m: 5, height_m: 180')],
      'obstacles.it.height_m 180 m: a fence beside a garden is 0.3 to 4 m high. Did you mean 1.8 m, 180 cm? [lawn]',
    ],
    [
      'a 3.5 F capacitor in a garden lamp',
      [capacitor('capacitance_F: 3.5')],
      'capacitor.capacitance_F 3.5 F: a tenth of a promised night takes 20 to 8000 F with this driver and LED. Did you mean 350 F? [single]',
    ],
    [
      'a leakage of 0.7 uA at 350 F',
      [capacitor('capacitance_F: 350, leakage_uA: 0.7')],
      'capacitor.leakage_uA 0.7 uA: a capacitor of that size leaks 3.5 to 21000 uA after days at its rated voltage. Did you mean 700 uA, 0.7 mA? [single]',
    ],
    [
      'a lithium hybrid that is taken for another capacitor',
      [capacitor('rated_V: 3.8'), driver('cutoff_V: 1.5, restart_V: 1.7')],
      'capacitor.rated_V 3.8 V: one double-layer capacitor is rated 0.8 to 3.2 V; a lithium hybrid has 3.8 V, and is spoilt below 2.2 V or so. Which is it (kind, lowest_V)? [single]',
    ],
    [
      'a lithium hybrid discharged to 1.5 V',
      [capacitor('rated_V: 3.8, kind: lithium-hybrid'), driver('cutoff_V: 1.5, restart_V: 1.7')],
      'driver.cutoff_V 1.5 V: a driver that spares this capacitor stops at 2.2 to 3.8 V. Is it so? [single]',
    ],
    [
      'minutes of tolerance in hours',
      [['least_lumen: 0.5', 'least_lumen: 0.5, tolerance_h: 15']],
      'promise.tolerance_h 15 h: of a promise so long at most 3 h may be forgiven. Did you mean 0.25 h, 15 min? [promise]',
    ],
    [
      'amperes of a cell in milliamperes',
      [cell('short_circuit_mA: 0.5, best_current_mA: 0.46')],
      'cell.short_circuit_mA 0.5 mA: the cell of a lamp gives 1 to 20000 mA in full sun. Did you mean 500 mA, 0.5 A? [single]',
    ],
    [
      'millihenries in microhenries',
      [driver('inductance_uH: 0.68')],
      'driver.inductance_uH 0.68 uH: at that frequency and duty the inductor of a lamp has 2.2 to 89000 uH. Did you mean 680 uH, 0.68 mH? [single]',
    ],
    [
      'a cell as high as a house',
      [spot('cell_height_m: 15')],
      'cell_height_m 15 m: the cell of a garden lamp is at most 3 m up. Did you mean 0.15 m, 15 cm? [lawn]',
    ],
  ])('%s', (_, changes, question) => {
    expect(asked(...changes)).toEqual([question]);
  });

  it('the same of several lamps is one question', () => {
    const line = '    capacitor: { part: medium-capacitor, rated_V: 3.8 }\n';
    const one = SOUND.slice(SOUND.indexOf('  single:'));
    const two = SOUND + one.replace('single', 'double');
    const [question, ...others] = load(
      two.replaceAll('    capacitor: { part: medium-capacitor }\n', line),
    ).questions;
    expect(question).toMatch(/^capacitor\.rated_V 3\.8 V: .*\? \[single, double\]$/);
    expect(others).toEqual([]);
  });

  it('a number that its range refuses is refused with what was likely meant', () => {
    const fixOf = (...change: [string, string]) => refused(changed(change)).problems[0]!.fix;
    expect(fixOf(...driver('duty: 80'))).toBe('did you mean 0.8, 80 %?');
    expect(fixOf(...driver('efficiency: 90'))).toBe('did you mean 0.9, 90 %?');
    expect(fixOf(...driver('efficiency: 1.2'))).toBe('check the value.');
    expect(fixOf(...fence('distance_m: 5, height_m: 1800'))).toBe('did you mean 1.8 m, 1800 mm?');
    expect(fixOf(...capacitor('rated_V: 2700'))).toBe('did you mean 2.7 V, 2700 mV?');
    expect(fixOf('hours: 6', 'hours: 360')).toBe('did you mean 6 h, 360 min?');
    expect(fixOf('latitude_deg: 54', 'latitude_deg: 95')).toBe('check the value; it is read in deg.');
  });

  it('none in the scenarios that come along, nor of any part', () => {
    for (const file of readdirSync('scenarios').filter((name) => name.endsWith('.yaml')))
      expect(loadScenario(`scenarios/${file}`).questions).toEqual([]);
    for (const kind of LAMP_PARTS) {
      const usual = /part: ([\w-]+)/.exec(new RegExp(`\n {4}${kind}:.*`).exec(SOUND)?.[0] ?? '')?.[1];
      for (const part of Object.keys(PARTS[kind])) {
        if (usual === undefined) continue;
        expect(asked([`{ part: ${usual} }`, `{ part: ${part} }`])).toEqual([]);
      }
    }
  });
});

describe('what follows from other values is questioned on either side of its threshold', () => {
  const PLAIN = 'raw: { forward_V: 2.8, efficacy_lm_W: 150 }';
  /** 10 mW for 6 h are 216 J; C/2 (2.7^2 - 0.9^2) = 3.24 C, of which a tenth of that takes 6.667 F. */
  const tenth = (capacitance_F: number): [string, string][] => [
    ['{ part: white-led }', `{ ${PLAIN} }`],
    ['{ part: inductor-driver }', '{ kind: power, power_mW: 10, cutoff_V: 0.9 }'],
    [
      '{ part: medium-capacitor }',
      `{ capacitance_F: ${capacitance_F}, rated_V: 2.7, esr_mohm: 50, leakage_uA: 10, capacitance_rise: 0, delayed_share: 0 }`,
    ],
  ];
  const hybrid = (cutoff_V: number): [string, string][] => [
    capacitor('rated_V: 3.8, lowest_V: 2'),
    ['{ part: inductor-driver }', `{ kind: power, power_mW: 9, cutoff_V: ${cutoff_V}, restart_V: 2.2 }`],
  ];
  it.each<[string, string, [string, string][], [string, string][]]>([
    ['a tenth of the night', 'capacitance_F', tenth(6.7), tenth(6.6)],
    [
      'leakage a farad, least',
      'leakage_uA',
      [capacitor('leakage_uA: 3.61')],
      [capacitor('leakage_uA: 3.59')],
    ],
    [
      'leakage a farad, most',
      'leakage_uA',
      [capacitor('leakage_uA: 21599')],
      [capacitor('leakage_uA: 21601')],
    ],
    // 0.05 and 60 s over 360 F.
    ['time constant, least', 'esr_mohm', [capacitor('esr_mohm: 0.14')], [capacitor('esr_mohm: 0.138')]],
    ['time constant, most', 'esr_mohm', [capacitor('esr_mohm: 166')], [capacitor('esr_mohm: 167')]],
    // 60 cm2 in 4 junctions: 15 cm2 each.
    ['current of an area, most', 'short_circuit_mA', [cell('area_cm2: 45')], [cell('area_cm2: 44')]],
    ['current of an area, least', 'short_circuit_mA', [cell('area_cm2: 399')], [cell('area_cm2: 401')]],
    [
      'volts of a junction',
      'open_circuit_V',
      [cell('cells_in_series: 6')],
      [cell('cells_in_series: 7, area_cm2: 120')],
    ],
    ['lowest voltage', 'cutoff_V', hybrid(2), hybrid(1.99)],
    [
      'tolerance',
      'tolerance_h',
      [['hours: 6,', 'hours: 6, tolerance_h: 3,']],
      [['hours: 6,', 'hours: 6, tolerance_h: 3.01,']],
    ],
    [
      'a degree of sky',
      'distance_m',
      [fence('height_m: 2, distance_m: 114')],
      [fence('height_m: 2, distance_m: 114.1')],
    ],
    [
      'a cell above the fence',
      'height_m',
      [fence('height_m: 0.8, distance_m: 5'), spot('cell_height_m: 0.8')],
      [fence('height_m: 0.8, distance_m: 5'), spot('cell_height_m: 0.81')],
    ],
    // V D^2 / (2 L f) at 2 V, 9 kHz and 0.2: 2 A through 2.22 uH.
    ['current of a boost', 'inductance_uH', [driver('inductance_uH: 2.23')], [driver('inductance_uH: 2.22')]],
  ])('%s: %s', (_, key, sound, doubtful) => {
    const about = (changes: [string, string][]) =>
      asked(...changes).filter((question) => question.split(' ')[0]!.endsWith(key));
    expect(about(sound)).toEqual([]);
    expect(about(doubtful)).toHaveLength(1);
  });
});

describe('every belief without another value', () => {
  const obstacle = (kind: string) => ({
    kind,
    height_m: 2,
    depth_m: 2,
    width_m: 5,
    eaves_m: 0.5,
    distance_m: 5,
  });
  const whole = {
    site: { elevation_m: 20 },
    promise: { hours: 6, least_lumen: 0.5, tolerance_h: 0.25 },
    spots: {
      lawn: {
        cell_height_m: 0.15,
        night_light_lux: 1,
        cover: {
          thickness_mm: 3,
          inner_width_mm: 80,
          dirt_loss: 0.1,
          dirt_percent_year: 4,
          yellowing_percent_year: 1,
        },
        obstacles: {
          ...Object.fromEntries(['fence', 'wall', 'hedge', 'house'].map((kind) => [kind, obstacle(kind)])),
          ridge: { kind: 'house', ridge_height_m: 5 },
          tree: { kind: 'tree', trunk_width_m: 0.3, crown_top_m: 5, crown_width_m: 3 },
        },
      },
    },
    lamps: {
      one: {
        cell: {
          ...PARTS.cell['small-cell']!.values,
          voltage_tempco_mV_K: -2.2,
          current_tempco_percent_K: 0.05,
          decline_percent_year: 0.5,
        },
        diode: { forward_drop: [{ current_mA: 10, drop_V: 0.2 }], reverse_leakage_uA: 10 },
        capacitor: {
          ...PARTS.capacitor['medium-capacitor']!.values,
          delayed_share: 0.1,
          delayed_hours: 3,
          life: { hours: 1000, at_degC: 65, capacitance_left: 0.7, esr_times: 2 },
        },
        driver: { ...PARTS.driver['inductor-driver']!.values, standby_uA: 5, below_cutoff_uA: 2 },
        led: { table: [{ current_mA: 5, forward_V: 2.7, efficacy_lm_W: 150 }], life: { hours: 20_000 } },
        jar: { rise_K_full_sun: 20, time_constant_min: 30, seal_fails_percent_year: 2 },
        schedule: { hours: 6 },
      },
      two: { driver: { kind: 'power', power_mW: 9, efficiency: 0.8 } },
      three: { driver: { kind: 'current', current_mA: 9 } },
      four: { driver: { kind: 'conductance', conductance_mS: 9 } },
    },
  };
  type Keys = { [key: string]: Keys | number | string };

  /** Paths of numbers by a belief's key. */
  function pathsOf(value: unknown, keys: readonly string[]): string[][] {
    const [key, ...rest] = keys;
    if (key === undefined) return typeof value === 'number' ? [[]] : [];
    if (typeof value !== 'object' || value === null) return [];
    return Object.entries(value)
      .filter(([name]) => key === '*' || name === key)
      .flatMap(([name, below]) => pathsOf(below, rest).map((path) => [name, ...path]));
  }

  /** Whether a value at a path is questioned. */
  function isAsked(path: readonly string[], value: number): boolean {
    const root = structuredClone(whole) as unknown as Keys;
    const map = path.slice(0, -1).reduce((at, step) => at[step] as Keys, root);
    map[path.at(-1)!] = value;
    const resolved = root as unknown as { [key: string]: Json };
    const start = `${path.slice(path[0] === 'lamps' || path[0] === 'spots' ? 2 : 0).join('.')} `;
    return questionsOf({ resolved, lamps: [] }).some((question) => question.startsWith(start));
  }

  it('asks nothing of ordinary values', () => {
    expect(questionsOf({ resolved: whole as unknown as { [key: string]: Json }, lamps: [] })).toEqual([]);
  });

  const constant = BELIEFS.filter((belief): belief is Belief & { band: Band } => Array.isArray(belief.band));
  it.each(constant)('$key: just outside, never at the ends', ({ key, band }) => {
    const paths = pathsOf(whole, key.split('.'));
    expect(paths.length).toBeGreaterThan(0);
    const unrelated = BELIEFS.filter((other) => other.key === key).length === 1;
    for (const end of band.filter((each) => each !== 0)) {
      const outward = end === band[1] ? Math.abs(end) : -Math.abs(end);
      expect(isAsked(paths[0]!, end + outward * 1e-6)).toBe(true);
      if (unrelated) expect(isAsked(paths[0]!, end)).toBe(false);
    }
    if (band[0] === 0) expect(isAsked(paths[0]!, 0)).toBe(false);
  });

  it.each([
    ['fence', 0.3, 4],
    ['wall', 0.3, 40],
    ['hedge', 0.3, 10],
    ['house', 1.8, 60],
  ])('the height of a %s: just outside, never at the ends', (kind, least, most) => {
    const at = (height_m: number) => isAsked(['spots', 'lawn', 'obstacles', kind, 'height_m'], height_m);
    expect([least * 0.999, least, most, most * 1.001].map(at)).toEqual([true, false, false, true]);
  });
});
