import { type LampParams, lampParams } from '../lamp/params.ts';
import type { SettledSection } from '../lamp/schema.ts';
import { type BenchReading, benchReadings } from './benchChecks.ts';
import { statedAtBench } from './toleranceBand.ts';
import type { AtEnds } from './trialAssumptions.ts';

/** What to measure so that an assumption becomes a value. */
export interface WayToKnow {
  /** What to read, and with which load, meter or light. */
  what: string;
  how: string;
  /** What it shows at each end, in its unit; only of readings of the bench sheet. */
  shows?: { unit: string } & AtEnds<number>;
}

/** A reading that shows the same at both ends to this share tells nothing. */
const TELLS = 0.005;

/**
 * What to measure, and how, to know a value that was assumed.
 *
 * in: key, of a `TrialAssumption`; lamps, with the value at either end and as assumed
 * out: the reading of the bench sheet that tells it, with what it would show; else a way in words; undefined where there
 *   is none
 */
export function howToKnow(key: string, lamps: AtEnds<SettledSection>): WayToKnow | undefined {
  const worse = lampParams(lamps.worse, () => {});
  const assumed = lampParams(lamps.assumed, () => {});
  const better = lampParams(lamps.better, () => {});
  const readings = assumed === undefined ? [] : benchReadings(assumed, lamps.assumed.capacitor.series);
  const at = readings.findLastIndex(({ tells }) => tells?.includes(key));
  if (at < 0) return WAYS[key];
  const { what, unit, read } = readings[at]!;
  const way = { what, how: howOf(readings, at) };
  if (worse === undefined || assumed === undefined || better === undefined) return way;
  const shown = (lamp: LampParams) => read(statedAtBench(lamp));
  const shows = { unit, worse: shown(worse), assumed: shown(assumed), better: shown(better) };
  const apart = Math.max(shows.worse, shows.better) / Math.min(shows.worse, shows.better) - 1;
  return apart > TELLS ? { ...way, shows } : way;
}

/** How a reading is taken, with the one before it that it goes on from. */
function howOf(readings: readonly BenchReading[], at: number): string {
  const { how } = readings[at]!;
  return at > 0 && how.startsWith('the same') ? `${howOf(readings, at - 1)}; then ${how}` : how;
}

/** Ways to know what the bench sheet does not read. Common practice, no source. */
const WAYS: Readonly<Record<string, WayToKnow>> = {
  skyline_deg: {
    what: 'the height of the skyline, every 15 degrees of bearing',
    how: 'from where the cell will lie, with a protractor and a plumb line; into a file, as horizon: { file: ... }',
  },
  diffuse_share: {
    what: 'direct and diffuse light apart',
    how: 'take weather that has one of them measured, or log the light at the spot for some weeks (measured_light)',
  },
  sky_model: {
    what: 'light at the spot for some weeks, sunny and dull',
    how: 'a logger beside the weather of the same days (measured_light)',
  },
  cell_front: {
    what: 'how the front of the cell looks and feels',
    how: 'smooth glass or resin is flat; a grain that scatters a lamp is textured; a blue or violet sheen at a slant is coated',
  },
  'cover.dirt_loss': {
    what: 'what dirt takes',
    how: 'short circuit of the cell under the lid in steady sun, then at once with the lid wiped: the share that was missing',
  },
  'cover.absorption_per_m': {
    what: 'what the lid takes',
    how: 'short circuit of the cell square to a steady sun, with the lid over it and without',
  },
  'obstacles.transmittance': {
    what: 'the share of the light that passes it in leaf',
    how: 'lux behind or under it over lux in the open, within a minute, on an evenly dull day',
  },
  'obstacles.bare_transmittance': {
    what: 'the share of the light that passes it without leaves',
    how: 'lux behind or under it over lux in the open, within a minute, on an evenly dull day in winter',
  },
  albedo: {
    what: 'what the ground reflects',
    how: 'lux with the meter facing down over lux facing up, at a metre, on an evenly dull day',
  },
  'cell.voltage_tempco_mV_K': {
    what: 'open circuit in full sun, cell cold and cell warm',
    how: 'voltmeter alone, a thermometer on its back: millivolts over kelvins, by the junctions in series',
  },
  'diode.barrier_eV': {
    what: 'forward drop in the refrigerator',
    how: 'a few milliamperes through it, voltmeter across it, in the room and again cold',
  },
  'diode.reverse_leakage_uA': {
    what: 'current it lets back',
    how: '2 V the wrong way through 10 kohm: 10 mV across the resistor are 1 uA',
  },
  'capacitor.esr_mohm': {
    what: 'the step of the voltage as a load is put on',
    how: 'a known resistor of a few ohms across the full capacitor: volts of the step over amperes',
  },
  'capacitor.esr_factor_minus20': {
    what: 'the step of the voltage as a load is put on, in the freezer',
    how: 'a known resistor of a few ohms across the full capacitor, after some hours at -20 degC and again in the room',
  },
  'capacitor.capacitance_rise': {
    what: 'two timed discharges, over the upper and over the lower half of the voltage',
    how: 'the same resistor, stopwatch',
  },
  'capacitor.delayed_share': {
    what: 'what the voltage sags in the first hours at rest',
    how: 'filled within some minutes from empty, then nothing connected: read it after 1 h, 8 h and 72 h',
  },
  'capacitor.delayed_hours': {
    what: 'how the voltage sags in the first hours at rest',
    how: 'filled within some minutes from empty, then nothing connected: read it every hour',
  },
  'capacitor.leakage_doubling_K': {
    what: 'three days at rest in the refrigerator',
    how: 'held 8 h full in the room, then nothing connected: beside the same at room temperature',
  },
  'driver.below_cutoff_uA': {
    what: 'current drawn just below the cut-off',
    how: 'bench supply in place of the capacitor, 1 kohm in its lead: millivolts across it are microamperes',
  },
  'led.table': {
    what: 'lux beside an LED whose lumens are known',
    how: 'each in turn at the same current in a box lined with white paper, the meter shaded from straight light',
  },
  'jar.rise_K_full_sun': {
    what: 'inside and outside temperature in full sun',
    how: 'after an hour of it, both thermometers shaded',
  },
  'jar.time_constant_min': {
    what: 'how fast the jar warms in the sun',
    how: 'inside temperature every ten minutes from when it is carried out: the time to two thirds of the rise',
  },
};
