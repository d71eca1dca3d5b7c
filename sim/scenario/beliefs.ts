import { square } from '../common/numeric.ts';
import { HYBRID_LOWEST_V } from '../lamp/capacitor/params.ts';
import { capacitorEnergy_J } from '../lamp/capacitor/step.ts';
import { LitLoad } from '../lamp/loadTable.ts';
import { usualShare } from '../lamp/schedule/motion.ts';
import type { ScenarioLamp } from './Scenario.ts';

type Keys = Readonly<Record<string, unknown>>;

/** Least and most that a maker would ever have. */
export type Band = readonly [least: number, most: number];

/** What stands around a value. */
export interface Near {
  /** The map that it stands in. */
  beside: Keys;
  /** The lamp or spot that it belongs to. */
  owner: Keys;
  /** That lamp, where it could be made. */
  lamp?: ScenarioLamp | undefined;
  /** Hours of a promised night. */
  night_h: number;
}

/** What a maker would ever have of one value. A number outside is questioned, never refused. */
export interface Belief {
  /** Its keys from the root of the scenario, '*' for any name or place in a list. */
  key: string;
  /** NaN where what it follows from is not given. */
  band: Band | ((near: Near) => Band);
  /** Says it, with the band in place of {}, and what kind it is in place of {kind}. */
  says: string;
  /** Values from which the band follows: while one of them is in question itself, this is not asked. */
  follows?: readonly string[];
  /** The question, where neither another unit nor a slip explains the number. */
  asks?: string;
}

const UNKNOWN = Number.NaN;
const NOT_KNOWN: Band = [UNKNOWN, UNKNOWN];
const HEIGHTS_M = { fence: [0.3, 4], wall: [0.3, 40], hedge: [0.3, 10], house: [1.8, 60] } as const;
const MOST_F = 8000;

const by =
  (kinds: Readonly<Record<string, Band>>) =>
  ({ beside }: Near): Band =>
    kinds[String(beside.kind)] ?? NOT_KNOWN;

/** So many times a number beside. */
const times =
  (least: number, most: number, of: (beside: Keys) => number) =>
  ({ beside }: Near): Band => {
    const size = of(beside);
    return [least * size, most * size];
  };

const given = (keys: unknown, key: string): number => {
  const value = (keys as Keys | undefined)?.[key];
  return typeof value === 'number' ? value : UNKNOWN;
};

/** Every number of the table is from memory; those that follow from another value come after those that do not. */
export const BELIEFS: readonly Belief[] = [
  { key: 'site.elevation_m', band: [-430, 5200], says: 'gardens lie at {}' },
  { key: 'promise.hours', band: [0.25, 24], says: 'a promised evening is {}' },
  { key: 'promise.least_lumen', band: [0.02, 300], says: 'a garden lamp gives {}' },
  {
    key: 'promise.tolerance_h',
    band: ({ night_h }) => [0, night_h / 2],
    follows: ['promise.hours'],
    says: 'of a promise so long {} may be forgiven',
  },
  { key: 'spots.*.cell_height_m', band: [0, 3], says: 'the cell of a garden lamp is {} up' },
  { key: 'spots.*.night_light_lux', band: [0, 200], says: 'a street or porch lamp gives {}' },
  { key: 'spots.*.cover.thickness_mm', band: [0.3, 25], says: 'lids are {} thick' },
  { key: 'spots.*.cover.inner_width_mm', band: [25, 600], says: 'jars are {} wide' },
  { key: 'spots.*.cover.dirt_loss', band: [0, 0.5], says: 'dirt takes {} of the light' },
  {
    key: 'spots.*.obstacles.*.height_m',
    band: by(HEIGHTS_M),
    says: 'a {kind} beside a garden is {} high',
  },
  { key: 'spots.*.obstacles.*.ridge_height_m', band: [2, 80], says: 'the ridge of a house is {} high' },
  {
    key: 'spots.*.obstacles.*.depth_m',
    band: by({ hedge: [0.15, 10], house: [1, 100] }),
    says: 'a {kind} is {} deep',
  },
  { key: 'spots.*.obstacles.*.eaves_m', band: [0, 3], says: 'a roof reaches out {}' },
  { key: 'spots.*.obstacles.*.width_m', band: [0.3, 500], says: 'a {kind} is {} long' },
  { key: 'spots.*.obstacles.*.trunk_width_m', band: [0.02, 3], says: 'a trunk is {} thick' },
  { key: 'spots.*.obstacles.*.crown_top_m', band: [1, 50], says: 'a tree is {} high' },
  { key: 'spots.*.obstacles.*.crown_width_m', band: [0.5, 35], says: 'a crown is {} wide' },
  {
    key: 'spots.*.obstacles.*.height_m',
    band: (near) => [given(near.owner, 'cell_height_m'), by(HEIGHTS_M)(near)[1]],
    follows: ['spots.*.cell_height_m'],
    says: 'a {kind} that hides any sky from this cell is {} high',
  },
  {
    // One degree.
    key: 'spots.*.obstacles.*.distance_m',
    band: times(0, 57, (beside) => {
      const tops = ['height_m', 'ridge_height_m', 'crown_top_m'].map((key) => given(beside, key));
      return Math.max(...tops.filter((top_m) => !Number.isNaN(top_m)));
    }),
    follows: ['height_m', 'ridge_height_m', 'crown_top_m'].map((key) => `spots.*.obstacles.*.${key}`),
    says: 'to hide more than a degree of sky, a {kind} of that height stands {} away',
  },
  {
    key: 'lamps.*.cell.short_circuit_mA',
    band: [1, 20_000],
    says: 'the cell of a lamp gives {} in full sun',
  },
  { key: 'lamps.*.cell.area_cm2', band: [0.5, 10_000], says: 'the cell of a lamp has {}' },
  {
    key: 'lamps.*.cell.short_circuit_mA',
    band: times(5, 45, (beside) => given(beside, 'area_cm2') / given(beside, 'cells_in_series')),
    follows: ['lamps.*.cell.area_cm2'],
    says: 'silicon of that area, in so many junctions, gives {} in full sun',
  },
  {
    key: 'lamps.*.cell.open_circuit_V',
    band: times(0.4, 1, (beside) => given(beside, 'cells_in_series')),
    says: 'so many junctions of silicon (cells_in_series) give {} in full sun',
  },
  { key: 'lamps.*.cell.shunt_V', band: [2, 100_000], says: 'the shunt of a cell is {}' },
  {
    key: 'lamps.*.cell.voltage_tempco_mV_K',
    band: [-3.5, -1],
    says: 'each junction of silicon changes by {}',
  },
  {
    key: 'lamps.*.cell.current_tempco_percent_K',
    band: [-0.1, 0.2],
    says: 'the current of silicon changes by {}',
  },
  { key: 'lamps.*.diode.forward_drop.*.drop_V', band: [0.03, 1.2], says: 'a blocking diode drops {}' },
  { key: 'lamps.*.diode.reverse_leakage_uA', band: [0, 5000], says: 'a blocking diode lets back {}' },
  {
    key: 'lamps.*.capacitor.capacitance_F',
    band: [0.5, MOST_F],
    says: 'a supercapacitor of a lamp has {}',
  },
  {
    key: 'lamps.*.capacitor.rated_V',
    band: ({ beside: { kind, lowest_V } }) =>
      kind === 'lithium-hybrid' ? [3.5, 4.3] : [0.8, kind === undefined && lowest_V === undefined ? 3.2 : 6],
    says: `one double-layer capacitor is rated {}; a lithium hybrid has 3.8 V, and is spoilt below ${HYBRID_LOWEST_V} V or so`,
    asks: 'Which is it (kind, lowest_V)?',
  },
  {
    key: 'lamps.*.driver.cutoff_V',
    band: ({ lamp }) => {
      const { lowest_V = UNKNOWN, rated_V = UNKNOWN } = lamp?.params.capacitor ?? {};
      return [lowest_V, rated_V];
    },
    follows: ['lamps.*.capacitor.rated_V'],
    says: 'a driver that spares this capacitor stops at {}',
  },
  { key: 'lamps.*.capacitor.delayed_share', band: [0, 0.5], says: 'of the charge {} creeps in' },
  { key: 'lamps.*.capacitor.delayed_hours', band: [0.02, 72], says: 'charge creeps in over {}' },
  { key: 'lamps.*.driver.power_mW', band: [0.2, 10_000], says: 'the driver of a lamp draws {}' },
  { key: 'lamps.*.driver.current_mA', band: [0.1, 5000], says: 'the driver of a lamp draws {}' },
  { key: 'lamps.*.driver.conductance_mS', band: [0.05, 5000], says: 'the driver of a lamp draws like {}' },
  { key: 'lamps.*.driver.frequency_kHz', band: [0.5, 5000], says: 'boost drivers switch at {}' },
  { key: 'lamps.*.driver.current_limit_mA', band: [1, 5000], says: 'the driver of a lamp limits to {}' },
  { key: 'lamps.*.driver.efficiency', band: [0.3, 0.99], says: 'drivers pass on {}' },
  { key: 'lamps.*.driver.efficiency.*.efficiency', band: [0.3, 0.99], says: 'drivers pass on {}' },
  { key: 'lamps.*.driver.standby_uA', band: [0.01, 3000], says: 'a driver at rest draws {}' },
  { key: 'lamps.*.driver.below_cutoff_uA', band: [0.01, 3000], says: 'a stopped driver draws {}' },
  { key: 'lamps.*.driver.duty', band: [0.02, 0.95], says: 'the switch of a boost is on for {}' },
  { key: 'lamps.*.led.table.*.current_mA', band: [0.01, 5000], says: 'the LED of a lamp takes {}' },
  { key: 'lamps.*.led.table.*.forward_V', band: [1.5, 4.2], says: 'an LED has {}' },
  { key: 'lamps.*.led.table.*.efficacy_lm_W', band: [5, 250], says: 'LEDs give {}' },
  { key: 'lamps.*.jar.rise_K_full_sun', band: [0, 60], says: 'a jar in full sun is warmer by {}' },
  { key: 'lamps.*.jar.time_constant_min', band: [1, 600], says: 'the air of a jar follows within {}' },
  { key: 'spots.*.cover.dirt_percent_year', band: [0, 20], says: 'dirt of a year takes {} of the light' },
  { key: 'spots.*.cover.yellowing_percent_year', band: [0, 5], says: 'a cover yellows by {} in a year' },
  { key: 'lamps.*.cell.decline_percent_year', band: [0, 5], says: 'a cell loses {} in a year' },
  { key: 'lamps.*.capacitor.life.hours', band: [300, 20_000], says: 'capacitors are rated for {}' },
  { key: 'lamps.*.capacitor.life.at_degC', band: [40, 105], says: 'lives of capacitors are rated at {}' },
  {
    key: 'lamps.*.capacitor.life.at_V',
    band: ({ lamp }) => {
      const rated_V = lamp?.section.capacitor.rated_V ?? UNKNOWN;
      return [0.7 * rated_V, rated_V];
    },
    follows: ['lamps.*.capacitor.rated_V'],
    says: 'the life of a capacitor of that voltage is rated at {}',
  },
  {
    key: 'lamps.*.capacitor.life.capacitance_left',
    band: [0.6, 0.9],
    says: 'at the end of a rated life {} of the capacitance is left',
  },
  {
    key: 'lamps.*.capacitor.life.esr_times',
    band: [1.2, 4],
    says: 'at the end of a rated life the resistance is {} times as large',
  },
  {
    key: 'lamps.*.led.life.hours',
    band: [2000, 100_000],
    says: 'an LED keeps most of its light for {}',
  },
  { key: 'lamps.*.jar.seal_fails_percent_year', band: [0, 30], says: 'of seals {} fail in a year' },
  { key: 'lamps.*.schedule.hours', band: [0.25, 24], says: 'a lamp shines {}' },
  {
    // What is drawn on the mean, V D^2 / (2 L f) at about 2 V, from 50 uA to 2 A.
    key: 'lamps.*.driver.inductance_uH',
    band: times(
      1e6 / 2,
      1e6 / 50e-6,
      (beside) => square(given(beside, 'duty')) / (1e3 * given(beside, 'frequency_kHz')),
    ),
    follows: ['lamps.*.driver'],
    says: 'at that frequency and duty the inductor of a lamp has {}',
  },
  {
    key: 'lamps.*.capacitor.capacitance_F',
    band: tenthOfNight,
    follows: ['promise', 'lamps.*.driver', 'lamps.*.led', 'lamps.*.capacitor.rated_V'],
    says: 'a tenth of a promised night takes {} with this driver and LED',
  },
  {
    key: 'lamps.*.capacitor.leakage_uA',
    band: times(0.01, 60, (beside) => given(beside, 'capacitance_F')),
    follows: ['lamps.*.capacitor.capacitance_F'],
    says: 'a capacitor of that size leaks {} after days at its rated voltage',
  },
  {
    key: 'lamps.*.capacitor.esr_mohm',
    // A resistance times a capacitance in seconds.
    band: times(1000 * 0.05, 1000 * 60, (beside) => 1 / given(beside, 'capacitance_F')),
    follows: ['lamps.*.capacitor.capacitance_F'],
    says: 'a capacitor of that size has {}',
  },
];

/** Capacitance of one part that holds a tenth of what driver and LED take in a promised night. */
function tenthOfNight({ beside, lamp, night_h }: Near): Band {
  if (lamp === undefined) return NOT_KNOWN;
  const { capacitor, driver, load } = lamp.params;
  const holds_J =
    capacitorEnergy_J(capacitor, capacitor.rated_V) - capacitorEnergy_J(capacitor, driver.cutoff_V);
  const lit = new LitLoad(load);
  const middle_V = (capacitor.rated_V + driver.cutoff_V) / 2;
  lit.terminal_V = middle_V;
  lit.read();
  const takes_J = middle_V * lit.current_A * usualShare(lamp.section.schedule) * night_h * 3600;
  const least_F = (0.1 * takes_J * given(beside, 'capacitance_F')) / holds_J;
  return [least_F, Math.max(MOST_F, 10 * least_F)];
}
