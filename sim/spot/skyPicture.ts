import { square } from '../common/numeric.ts';
import { HOUR_MS } from '../common/time.ts';
import type { Site } from '../sun/Site.ts';
import { type SunColumns, sunWithinHour } from '../sun/sunColumns.ts';
import type { SpotPlace } from './SpotPlace.ts';
import { passThrough, type Screen } from './shade/SkyDome.ts';
import { screensAround } from './shade/seasonDomes.ts';

/** The sky as seen from a spot, as data for a picture: bearing against elevation, both in degrees. */
export interface SkyPicture {
  /** Share of light that passes each cell of the sky, means over the cell; a row for each elevation, lowest first. */
  grid: {
    /** Middles of the cells. */
    bearing_deg: number[];
    elevation_deg: number[];
    inLeaf: number[][];
    /** Without leaves; undefined where leaves make no difference. */
    bare: number[][] | undefined;
  };
  /** What each obstacle hides, bearing by bearing, where it is seen; in leaf. */
  outlines: { name: string; kind: string; points: OutlinePoint[] }[];
  /** The sun on the 21st of each month of the record, every ten minutes while it is up. */
  sunPaths: { month: number; points: SunPoint[] }[];
  /** Means over the days of each month of the year: hours the sun is up, and hours of these in which the spot sees it. */
  months: { month: number; sun_h: number; beam_h: number }[];
}

export interface OutlinePoint {
  bearing_deg: number;
  from_deg: number;
  to_deg: number;
}

export interface SunPoint {
  bearing_deg: number;
  elevation_deg: number;
  /** Share of the beam that passes, with the leaves of that day. */
  passes: number;
}

/**
 * The sky as seen from a spot: what passes, what stands in the way, where the sun goes, and how many hours of it are
 * left by month.
 *
 * in: place, over a year or more; step_deg, size of the grid's cells
 * out: the picture; undefined where a log of light stands in the place of the surroundings
 * valid: through a crown of half transmittance the sun counts half an hour an hour
 */
export function skyPicture(place: SpotPlace, step_deg = 5): SkyPicture | undefined {
  const { spot, calendar, around, domes, seen } = place;
  if (spot.measured?.replaces === 'geometry') return undefined;
  const green = screensAround(around, () => true);
  const changes = around.obstacles.some(({ leaves }) => leaves.transmittance !== leaves.bareTransmittance);
  const middles = (upTo: number) =>
    Array.from({ length: Math.round(upTo / step_deg) }, (_, k) => (k + 0.5) * step_deg);
  const bearing_deg = middles(360);
  const elevation_deg = middles(90);
  const shares = (screens: readonly Screen[]) =>
    elevation_deg.map((elevation) =>
      bearing_deg.map((bearing) => cellMean(screens, bearing, elevation, step_deg)),
    );
  const dome = (hour: number) => domes.seasons[domes.ofHour[hour]!]!.dome;
  return {
    grid: {
      bearing_deg,
      elevation_deg,
      inLeaf: shares(green),
      bare: changes ? shares(screensAround(around, () => false)) : undefined,
    },
    outlines: green.map(outlineOf),
    sunPaths: sunPaths(calendar.sun, calendar.site, (hour, bearing, elevation) =>
      dome(hour).transmittance(bearing, elevation),
    ),
    months: beamMonths(calendar.sun, seen),
  };
}

/** Samples along each side of a cell. */
const SAMPLES = 4;

function cellMean(
  screens: readonly Screen[],
  bearing_deg: number,
  elevation_deg: number,
  step_deg: number,
): number {
  let sum = 0;
  for (let b = 0; b < SAMPLES; b++) {
    for (let e = 0; e < SAMPLES; e++) {
      const aside = (k: number) => ((k + 0.5) / SAMPLES - 0.5) * step_deg;
      sum += passThrough(screens, bearing_deg + aside(b), elevation_deg + aside(e));
    }
  }
  return sum / square(SAMPLES);
}

function outlineOf(screen: Screen): SkyPicture['outlines'][number] {
  const points: OutlinePoint[] = [];
  for (let bearing_deg = 0; bearing_deg < 360; bearing_deg++) {
    const span = screen.span(bearing_deg);
    if (span !== undefined) points.push({ bearing_deg, from_deg: span.from_deg, to_deg: span.to_deg });
  }
  return { name: screen.name, kind: screen.kind, points };
}

const PATH_DAY = 21;

function sunPaths(
  sun: SunColumns,
  site: Pick<Site, 'longitude_deg'>,
  passes: (hour: number, bearing_deg: number, elevation_deg: number) => number,
): SkyPicture['sunPaths'] {
  const paths = new Map<number, { year: number; points: SunPoint[] }>();
  for (let i = 0; i < sun.count; i++) {
    if (!(sun.upShare[i]! > 0)) continue;
    const local = new Date(sun.start_ms + (i + site.longitude_deg / 15) * HOUR_MS);
    if (local.getUTCDate() !== PATH_DAY) continue;
    const [month, year] = [local.getUTCMonth() + 1, local.getUTCFullYear()];
    const path = paths.get(month) ?? { year, points: [] };
    paths.set(month, path);
    // Of several years the first.
    if (path.year !== year) continue;
    for (let sixth = 0; sixth < 6; sixth++) {
      const { azimuth_deg: bearing_deg, altitude_deg: elevation_deg } = sunWithinHour(sun, i, sixth / 6);
      if (elevation_deg <= 0) continue;
      path.points.push({ bearing_deg, elevation_deg, passes: passes(i, bearing_deg, elevation_deg) });
    }
  }
  return [...paths].sort(([a], [b]) => a - b).map(([month, { points }]) => ({ month, points }));
}

function beamMonths(sun: SunColumns, seen: Float64Array): SkyPicture['months'] {
  const months = Array.from({ length: 12 }, (_, m) => ({ month: m + 1, hours: 0, sun_h: 0, beam_h: 0 }));
  for (let i = 0; i < sun.count; i++) {
    const at = months[new Date(sun.start_ms + (i + 0.5) * HOUR_MS).getUTCMonth()]!;
    at.hours++;
    const up = sun.upShare[i]!;
    if (!(up > 0)) continue;
    at.sun_h += up;
    at.beam_h += up * seen[i]!;
  }
  return months
    .filter(({ hours }) => hours > 0)
    .map(({ month, hours, sun_h, beam_h }) => ({
      month,
      sun_h: (24 * sun_h) / hours,
      beam_h: (24 * beam_h) / hours,
    }));
}
