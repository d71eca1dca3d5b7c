import { HOUR_MS } from '../common/time.ts';
import type { LampParams } from '../lamp/params.ts';
import { lightOfHours } from '../spot/lightOfHours.ts';
import type { SpotLight } from '../spot/spotLight.ts';
import type { Site } from '../sun/Site.ts';
import { runTrial, type TrialTerms } from '../trial/runTrial.ts';

/** The months before the dark weeks and one before them, where a record holds them in one piece: the rest of the year says nothing. */
export function autumnOf(light: SpotLight, site: Site, month: number): SpotLight {
  const first = new Date(light.start_ms).getUTCFullYear();
  for (const year of [first, first + 1]) {
    const [from, to] = [month, month + 4].map(
      (each) => (Date.UTC(year, each - 1, 1) - light.start_ms) / HOUR_MS,
    );
    if (from! >= 0 && to! <= light.count) return lightOfHours(light, Math.ceil(from!), Math.floor(to!), site);
  }
  return light;
}

/** One evening of a run. */
export interface Evening {
  month: number;
  dusk_ms: number;
  dawn_ms: number;
  light_Wh_m2: number;
  snowy: boolean;
  /** The capacitor's voltage so many hours after dusk, or at dawn; NaN where the record does not hold it. */
  volts: (at: number | 'dawn', late_h?: number) => number;
}

/** Every evening of a run, in the order of its nights. */
export function evenings(lamp: LampParams, light: SpotLight, terms: TrialTerms): Evening[] {
  const { nights, year } = runTrial(lamp, light, terms);
  const { capacitorEnd_V } = year.columns;
  const atEnd = (hour: number) =>
    capacitorEnd_V[year.joined ? (hour + light.count) % light.count : hour] ?? Number.NaN;
  const at_V = (ms: number) => {
    const hours = (ms - light.start_ms) / HOUR_MS - 1;
    const whole = Math.floor(hours);
    return atEnd(whole) + (hours - whole) * (atEnd(whole + 1) - atEnd(whole));
  };
  return nights.map(({ night, dusk_ms, dawn_ms, ...row }) => ({
    month: Number(night.slice(5, 7)),
    dusk_ms,
    dawn_ms,
    light_Wh_m2: row.lightOnCell_Wh_m2,
    snowy: row.snowOnLid_h > 0,
    volts: (at, late_h = 0) => {
      if (late_h === 0 && at === 0) return row.capacitorDusk_V;
      if (late_h === 0 && at === 'dawn') return row.capacitorDawn_V;
      // Towards dawn nobody comes late: the light would charge it again.
      return at === 'dawn' ? at_V(dawn_ms - late_h * HOUR_MS) : at_V(dusk_ms + (at + late_h) * HOUR_MS);
    },
  }));
}

/** Places of evenings by the day before: the brightest third, the middle one, the rest. */
export type Days = Record<'clear' | 'mixed' | 'dull', number[]>;

/** The evenings of a month without snow on the lid. */
export function daysOf(all: readonly Evening[], month: number): Days {
  const places = all
    .map((_, i) => i)
    .filter((i) => all[i]!.month === month && !all[i]!.snowy && !Number.isNaN(all[i]!.dusk_ms))
    .sort((one, other) => all[other]!.light_Wh_m2 - all[one]!.light_Wh_m2);
  const third = Math.floor(places.length / 3);
  return {
    clear: places.slice(0, third),
    mixed: places.slice(third, 2 * third),
    dull: places.slice(2 * third),
  };
}
