import { RADIANS } from '../common/constants.ts';
import type { Site } from '../sun/Site.ts';
import type { SunColumns } from '../sun/sunColumns.ts';
import { beamOverHour, type Plane } from './shade/beamOverHour.ts';
import { type DomeShares, domeShares } from './shade/domeShares.ts';
import type { LitFace } from './shade/litFaces.ts';
import { passThrough } from './shade/passThrough.ts';
import type { SkyDome } from './shade/SkyDome.ts';
import type { SeasonDomes } from './shade/seasonDomes.ts';
import { groundReflected } from './sky/groundReflected.ts';
import { hayDaviesSky } from './sky/hayDaviesSky.ts';
import { isotropicSky } from './sky/isotropicSky.ts';
import { perezSky } from './sky/perezSky.ts';
import type { SkyColumns } from './sky/skyColumns.ts';
import type { SpotParams } from './spotParams.ts';

/** Light on a plane in its parts, a column each. */
export interface PlaneLight {
  beam_W_m2: Float64Array;
  sky_W_m2: Float64Array;
  reflected_W_m2: Float64Array;
}

/** What the light of a plane is computed from. */
export interface PlaneScene {
  sun: SunColumns;
  sky: SkyColumns;
  domes: SeasonDomes;
  plane: Plane;
  skyModel: SpotParams['skyModel'];
  site: Pick<Site, 'albedo'>;
  /** Albedo of each hour where snow changes it. */
  albedo?: Float64Array;
  /** How many bearings the dome is cut into. */
  bearings?: number;
}

const SKY_MODELS = { isotropic: isotropicSky, 'hay-davies': hayDaviesSky, perez: perezSky } as const;

/** One state of the dome, as the plane and the flat ground at the spot see it. */
interface View {
  dome: SkyDome;
  cell: DomeShares;
  flat: DomeShares;
  /** In the order of the dome's screens. */
  screens: { reflectance: number; face: LitFace | undefined; cell: number; flat: number }[];
}

/**
 * Light on a tilted plane behind its cover and among its surroundings, W/m2, hour by hour.
 *
 * in: scene; target, columns to fill; from and to, hours from <= i < to
 * out: fills beam, sky and returned of hours with light; others are left as they are
 * valid: see `beamOverHour`, `domeShares`, `litFaces`; light is thrown once by obstacles, then once by the ground; the
 *   ground at the spot takes what a flat plane there takes
 * source: HayDavies1980, Perez1990, LiuJordan1963, DuffieBeckman2020
 */
export function planeLightInto(target: PlaneLight, scene: PlaneScene, from: number, to: number): void {
  const { sun, sky, domes, plane, site } = scene;
  const { cover } = plane;
  const views = domes.seasons.map((season) => viewOf(season, scene));
  const parts = SKY_MODELS[scene.skyModel];
  const upright = Math.sin(plane.tilt_deg * RADIANS);
  for (let i = from; i < to; i++) {
    const diffuse_W_m2 = sky.dhi_W_m2[i]!;
    const direct_W_m2 = sky.dni_W_m2[i]!;
    if (!(diffuse_W_m2 > 0 || direct_W_m2 > 0)) continue;
    const { dome, cell, flat, screens } = views[domes.ofHour[i]!]!;
    const albedo = scene.albedo?.[i] ?? site.albedo;
    const up = sun.upShare[i]!;
    const { circumsolar_W_m2, even_W_m2, band_W_m2 } = parts(
      diffuse_W_m2,
      up > 0 ? direct_W_m2 / up : 0,
      sun.extraterrestrial_W_m2[i]!,
      sun.upCosZenith[i]!,
    );
    // straight: what comes from the sun's direction, on a plane facing it, over the sun-up part of the hour
    const straight_W_m2 = up > 0 ? (direct_W_m2 + circumsolar_W_m2) / up : 0;
    let ground_W_m2 = even_W_m2 * flat.sky;
    let level_W_m2 = 0;
    let seen = 0;
    target.beam_W_m2[i] = 0;
    if (straight_W_m2 > 0) {
      const beam = beamOverHour(sun, i, dome, plane);
      target.beam_W_m2[i] = straight_W_m2 * beam.cell;
      ground_W_m2 += straight_W_m2 * beam.flat;
      seen = beam.seen;
      level_W_m2 = straight_W_m2 * up * Math.cos(sun.upAltitude_deg[i]! * RADIANS);
    }
    const band = band_W_m2 * upright * cell.band;
    target.sky_W_m2[i] = Math.max(even_W_m2 * cell.sky + band, 0) * cover.sky;
    let faces_W_m2 = 0;
    let onGround_W_m2 = 0;
    const azimuth = Math.round(sun.upAzimuth_deg[i]!);
    for (let s = 0; s < screens.length; s++) {
      const { reflectance, face, cell: cellView, flat: flatView } = screens[s]!;
      if (reflectance === 0 || (cellView === 0 && flatView === 0)) continue;
      const even = even_W_m2 * (face?.sky ?? 0.5) + (ground_W_m2 * albedo) / 2;
      let sunny_W_m2 = 0;
      if (level_W_m2 > 0 && (cell.screens[s]!.sun[azimuth]! > 0 || flat.screens[s]!.sun[azimuth]! > 0)) {
        const pass =
          face === undefined
            ? seen
            : passThrough(face.screens, sun.upAzimuth_deg[i]!, sun.upAltitude_deg[i]!);
        sunny_W_m2 = level_W_m2 * pass;
      }
      faces_W_m2 += reflectance * (even * cellView + sunny_W_m2 * cell.screens[s]!.sun[azimuth]!);
      onGround_W_m2 += reflectance * (even * flatView + sunny_W_m2 * flat.screens[s]!.sun[azimuth]!);
    }
    target.reflected_W_m2[i] =
      groundReflected(ground_W_m2 + onGround_W_m2, albedo, plane.tilt_deg) * cover.ground +
      faces_W_m2 * cover.sky;
  }
}

function viewOf({ dome, faces }: SeasonDomes['seasons'][number], scene: PlaneScene): View {
  const { plane, site, bearings } = scene;
  const cell = domeShares(dome, plane.tilt_deg, plane.bearing_deg, plane.cover.light, bearings);
  const flat = domeShares(dome, 0, 0, undefined, bearings);
  return {
    dome,
    cell,
    flat,
    screens: dome.screens.map((screen, s) => ({
      reflectance: screen.reflectance ?? site.albedo,
      face: faces.get(screen.name),
      cell: cell.screens[s]!.view,
      flat: flat.screens[s]!.view,
    })),
  };
}
