import { type LampParams, lampParams } from '../lamp/params.ts';
import type { SettledSection } from '../lamp/schema.ts';
import { keyGuide } from '../scenario/keyGuide.ts';
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
  if (at < 0) return wayInWords(key);
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

/** What tells a value that the bench sheet does not read; how, where its key's own guide does not say it. */
const WAYS: Readonly<Record<string, { what: string; how?: string }>> = {
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
  cell_front: { what: 'how the front of the cell looks and feels' },
  'cover.dirt_loss': { what: 'what dirt takes' },
  'cover.absorption_per_m': { what: 'what the lid takes' },
  'obstacles.transmittance': { what: 'the share of the light that passes it in leaf' },
  'obstacles.bare_transmittance': { what: 'the share of the light that passes it without leaves' },
  'site.albedo': { what: 'what the ground reflects' },
  'cell.voltage_tempco_mV_K': { what: 'what voltage the cell loses as it warms' },
  'diode.barrier_eV': { what: 'forward drop in the refrigerator' },
  'diode.reverse_leakage_uA': { what: 'current it lets back' },
  'capacitor.esr_mohm': { what: 'the step of the voltage as a load is put on' },
  'capacitor.esr_factor_minus20': {
    what: 'the step of the voltage as a load is put on, in the freezer',
  },
  'capacitor.capacitance_rise': {
    what: 'capacitance at a high and at a low voltage',
  },
  'capacitor.delayed_share': { what: 'what the voltage sags in the first hours at rest' },
  'capacitor.delayed_hours': { what: 'how the voltage sags in the first hours at rest' },
  'capacitor.leakage_doubling_K': { what: 'what it leaks in the cold' },
  'driver.below_cutoff_uA': { what: 'current drawn just below the cut-off' },
  'led.table': { what: 'the light of the LED beside one that is known' },
  'jar.rise_K_full_sun': { what: 'inside and outside temperature in full sun' },
  'jar.time_constant_min': { what: 'how fast the jar warms in the sun' },
};

function wayInWords(key: string): WayToKnow | undefined {
  const own = key === 'albedo' ? 'site.albedo' : key;
  const { what, how = keyGuide(own.split('.'))?.read } = WAYS[own] ?? {};
  return what === undefined || how === undefined ? undefined : { what, how };
}
