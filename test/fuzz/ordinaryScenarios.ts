import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { parse } from 'yaml';

/** A map as YAML has it. */
export type Plain = { [key: string]: unknown };

/** The hours that the logs and the weather of these scenarios are of. */
export const FORTNIGHT = { start_ms: Date.UTC(2025, 11, 8), hours: 336 } as const;

const folder = mkdtempSync(join(tmpdir(), 'extremes-'));
process.on('exit', () => rmSync(folder, { recursive: true, force: true }));

/** A log of the fortnight: what light came to a spot, and what share of it to the cell. */
const LOG = join(folder, 'log.csv');
writeFileSync(
  LOG,
  `start_utc,share,light_W_m2,lux,air_degC\n${Array.from({ length: FORTNIGHT.hours }, (_, hour) => {
    const stamp = new Date(FORTNIGHT.start_ms + hour * 3_600_000).toISOString();
    const ofDay = hour % 24;
    const most_W_m2 = 60 + 9 * Math.floor(hour / 24);
    const light = ofDay > 8 && ofDay < 16 ? most_W_m2 * Math.sin((Math.PI * (ofDay - 8)) / 8) : 0;
    return `${stamp},0.7,${light.toFixed(1)},${(110 * light).toFixed(0)},4`;
  }).join('\n')}\n`,
);

const stamp = { column: 'start_utc', zone: 'UTC', marks: 'start' };
const samples = (file: string) => resolve('data-samples', file);
const shared = { efficiency: 0.9, cutoff_V: 0.9, restart_V: 1.1, standby_uA: 5, below_cutoff_uA: 2 };

/** Lamps that between them use every key, each as a maker would. */
const LAMPS: Plain = {
  steady: {
    cell: {
      short_circuit_mA: 400,
      open_circuit_V: 2.4,
      best_current_mA: 360,
      best_voltage_V: 1.9,
      cells_in_series: 4,
      current_tempco_percent_K: 0.05,
      voltage_tempco_mV_K: -2.2,
      low_light_point: { irradiance_W_m2: 20, open_circuit_V: 1.75 },
      area_cm2: 60,
      price: 4,
      parallel: 1,
      series: 1,
    },
    diode: { forward_drop: [{ current_mA: 10, drop_V: 0.2 }], ideality: 1.05, series_ohm: 0.05 },
    capacitor: {
      capacitance_F: 100,
      kind: 'double-layer',
      rated_V: 2.7,
      lowest_V: 0,
      esr_mohm: 10,
      capacitance_rise: 0.15,
      delayed_share: 0.1,
      delayed_hours: 3,
      leakage_uA: 300,
      leakage_rest_h: 72,
      leakage_law: 'exponential',
      leakage_e_fold_V: 0.3,
      leakage_doubling_K: 10,
      price: 3,
      parallel: 1,
      series: 1,
      limiter: { at_V: 2.3, slope_ohm: 0.1 },
    },
    driver: { kind: 'power', power_mW: 20, ...shared, restart_needs: 'voltage', cutoff_watches: 'always' },
    led: { raw: { forward_V: 3, efficacy_lm_W: 150 }, count: 1, in_series: 1 },
    jar: { rise_K_full_sun: 20, time_constant_min: 30 },
    schedule: {
      on: 'dusk',
      hours: 6,
      before_dawn_h: 1,
      on_share: 0.8,
      dim: [{ after_h: 3, light_share: 0.4 }],
    },
  },
  boosted: {
    cell: { part: 'small-cell', shunt_V: 150 },
    diode: { switch_on_ohm: 0.1, reverse_leakage_uA: 2, reverse_voltage_V: 2, reverse_doubling_K: 10 },
    capacitor: {
      part: 'medium-capacitor',
      parallel: 2,
      series: 2,
      balancing_kohm: 1,
      limiter: { at_V: 2.4 },
    },
    driver: {
      kind: 'boost',
      inductance_uH: 680,
      frequency_kHz: 9,
      duty: 0.2,
      rectifier_drop_V: 0.2,
      current_limit_mA: 30,
      ...shared,
    },
    led: { part: 'white-led', count: 2, price: 0.2 },
    jar: { fixed_degC: 5 },
    schedule: {
      on: 'dark',
      sense: { by: 'cell-voltage', night_below_V: 0.8, day_above_V: 1 },
      hours: 7,
    },
  },
  fading: {
    cell: { part: 'poor-cell' },
    diode: {
      raw: { saturation_A: 5e-6, ideality: 1.05, series_ohm: 0.05 },
      barrier_eV: 0.69,
      reverse_leakage_uA: 1,
    },
    capacitor: {
      raw: {
        capacitance_F: 50,
        rise_F_V: 5,
        series_ohm: 0.02,
        leakage_ohm: 5000,
        delayed_branches: [
          { resistance_ohm: 50, capacitance_F: 5 },
          { resistance_ohm: 2000, capacitance_F: 5 },
        ],
      },
      rated_V: 2.7,
    },
    driver: {
      kind: 'conductance',
      conductance_mS: 8,
      ...shared,
      efficiency: [
        { capacitor_V: 0.9, efficiency: 0.7 },
        { capacitor_V: 2.4, efficiency: 0.85 },
      ],
      restart_needs: 'dusk',
      cutoff_watches: 'while-lit',
    },
    led: {
      table: [
        { current_mA: 1, forward_V: 2.6, efficacy_lm_W: 170 },
        { current_mA: 20, forward_V: 2.9, efficacy_lm_W: 175 },
      ],
      in_series: 1,
    },
    schedule: { on: '16:30', until: '23:00' },
  },
  hybrid: {
    cell: { part: 'small-cell', series: 2 },
    diode: { part: 'small-schottky' },
    capacitor: {
      part: 'medium-capacitor',
      kind: 'lithium-hybrid',
      capacitance_F: 200,
      rated_V: 3.8,
      lowest_V: 2.2,
      leakage_law: 'resistance',
      limiter: { at_V: 3.7, slope_ohm: 0.2 },
    },
    driver: {
      kind: 'table',
      table: [
        { capacitor_V: 2.5, current_mA: 6 },
        { capacitor_V: 3.8, current_mA: 9 },
      ],
      ...shared,
      cutoff_V: 2.5,
      restart_V: 2.8,
    },
    led: { part: 'white-led' },
    jar: { part: 'small-jar', price: 1 },
    schedule: { on: 'dark', sense: { by: 'lux', night_below_lux: 20, day_above_lux: 60 } },
  },
  current: {
    cell: {
      raw: { photocurrent_A: 0.3, saturation_A: 1e-9, ideality: 1.2, series_ohm: 0.3, shunt_ohm: 400 },
      cells_in_series: 4,
    },
    diode: {
      forward_drop: [
        { current_mA: 1, drop_V: 0.15 },
        { current_mA: 20, drop_V: 0.25 },
      ],
    },
    capacitor: { capacitance_F: 1, rated_V: 5.5, esr_mohm: 30_000, leakage_uA: 5 },
    driver: { kind: 'current', current_mA: 8, ...shared, restart_V: 1.6 },
    led: { part: 'white-led' },
    schedule: { on: 'dusk', until: 'dawn', motion: { triggers_per_h: 6, shines_s: 40 } },
  },
};

const obstacle = (kind: string, own: Plain) => ({
  kind,
  bearing_deg: 'S',
  distance_m: 4,
  width_m: 6,
  height_m: 2,
  ...own,
});

/** Spots that between them use every key. */
const SPOTS: Plain = {
  lawn: {
    cell_tilt_deg: 10,
    cell_bearing_deg: 180,
    cell_height_m: 0.2,
    cell_front: 'flat',
    cover: { kind: 'flat', refractive_index: 1.5, absorption_per_m: 10, thickness_mm: 3, dirt_loss: 0.05 },
    horizon: { file: samples('house.csv'), reflectance: 0.3 },
    snow: { on_lid: true, ground_albedo: 0.6 },
    shading: { factor: 0.8 },
    sky_model: 'hay-davies',
    night_light_lux: 2,
  },
  jar: {
    cover: { part: 'side-lit-jar', lid: 'clear', inner_width_mm: 80, cell_below_lid_mm: 40 },
    shading: { file: LOG, stamp, column: 'share', unit: '1' },
  },
  walled: {
    cell_tilt_deg: 30,
    cell_bearing_deg: 'SSE',
    cover: { raw: { refractive_index: 1.5, absorption_per_m: 10, thickness_mm: 3 } },
    obstacles: {
      wall: obstacle('wall', { faces_deg: 10, eaves_m: 0.3, reflectance: 0.5 }),
      house: obstacle('house', { bearing_deg: 90, depth_m: 8, ridge_height_m: 7, eaves_m: 0.4, height_m: 4 }),
      hedge: obstacle('hedge', {
        bearing_deg: 270,
        depth_m: 0.8,
        transmittance: 0.05,
        bare_transmittance: 0.2,
      }),
      fence: obstacle('fence', { bearing_deg: 135, openness: 0.4 }),
      tree: {
        kind: 'tree',
        bearing_deg: 200,
        distance_m: 6,
        trunk_width_m: 0.3,
        crown_base_m: 2,
        crown_top_m: 6,
        crown_width_m: 4,
        transmittance: 0.1,
        bare_transmittance: 0.5,
        leaf_on: '04-28',
        leaf_off: '11-05',
      },
    },
  },
  measured: {
    measured_light: {
      file: LOG,
      stamp,
      column: 'lux',
      unit: 'lux',
      lumen_per_W: 110,
      sensor_tilt_deg: 10,
      sensor_bearing_deg: 180,
      replaces: 'geometry',
      missing: [''],
    },
  },
  logged: {
    light_on_cell: {
      file: samples('light-on-cell.csv'),
      stamp,
      column: 'light_W_m2',
      unit: 'W/m2',
      air_temperature: { constant_degC: 5 },
      missing: [''],
    },
  },
};

const weather: Plain = {
  file: samples('invented-year.csv'),
  stamp,
  columns: {
    ghi: { column: 'ghi_W_m2', unit: 'W/m2' },
    air_temperature: { column: 'air_degC', unit: 'degC' },
  },
  missing: [''],
};

/** A sound scenario of one spot and one lamp. */
const scenarioOf = (spot: unknown, lamp: unknown): Plain => ({
  format: 1,
  name: 'extremes',
  seed: 1,
  site: { latitude_deg: 54, longitude_deg: 10, elevation_m: 20, time_zone: 'Europe/Berlin', albedo: 0.2 },
  weather,
  start: { capacitor_V: 1.5 },
  promise: { from: 'dusk', hours: 6, least_lumen: 1, tolerance_h: 0.25 },
  spots: { here: spot },
  lamps: { one: lamp },
});

const measuredLamp = (parse(readFileSync('scenarios/bench-readings.yaml', 'utf8')) as Plain).lamps as Plain;
const lamps = [...Object.values(LAMPS), ...Object.values(measuredLamp)];
const spots = Object.values(SPOTS);

/** Ordinary scenarios: every lamp on the lawn, then the first of them in every other spot. */
export const ORDINARY: readonly Plain[] = [
  ...lamps.map((lamp) => scenarioOf(spots[0], lamp)),
  ...spots.slice(1).map((spot) => scenarioOf(spot, lamps[0])),
];
