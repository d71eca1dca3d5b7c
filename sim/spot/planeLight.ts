import { RADIANS } from '../common/constants.ts';
import type { Site } from '../sun/Site.ts';
import type { SunColumns } from '../sun/sunColumns.ts';
import { type BeamOverHour, beamOverHour, type Plane } from './shade/beamOverHour.ts';
import { type DomeShares, domeShares, type ScreenShare } from './shade/domeShares.ts';
import type { LitFace } from './shade/litFaces.ts';
import { passThrough, type SkyDome } from './shade/SkyDome.ts';
import type { SeasonDomes } from './shade/seasonDomes.ts';
import type { SkyColumns } from './sky/skyColumns.ts';
import { SKY_MODELS } from './sky/skyModels.ts';
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
  albedo?: Float64Array | undefined;
  /** How many bearings the dome is cut into. */
  bearings?: number;
}

/** One state of the dome, as the plane and the flat ground at the spot see it. */
interface View {
  dome: SkyDome;
  plane: DomeShares;
  horizontal: DomeShares;
  /** In the order of the dome's screens. */
  screens: { reflectance: number; face: LitFace | undefined; plane: ScreenShare; horizontal: ScreenShare }[];
}

const NO_BEAM: BeamOverHour = { planeOfArray: 0, horizontal: 0, seen: 0 };

/**
 * Light on a tilted plane behind its cover and among its surroundings, W/m2, hour by hour.
 *
 * in: scene; target, columns to fill; from and to, hours from <= i < to
 * out: fills beam, sky and reflected of hours with light; others are left as they are
 * valid: see `beamOverHour`, `domeShares`, `litFaces`; light is reflected once by obstacles, then once by the ground;
 *   the ground at the spot takes what a flat plane there takes
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
    const view = views[domes.ofHour[i]!]!;
    const albedo = scene.albedo?.[i] ?? site.albedo;
    const up = sun.upShare[i]!;
    const { circumsolar_W_m2, isotropic_W_m2, band_W_m2 } = parts(
      diffuse_W_m2,
      up > 0 ? direct_W_m2 / up : 0,
      sun.extraterrestrial_W_m2[i]!,
      sun.upCosZenith[i]!,
    );
    // straight: what comes from the sun's direction, on a plane facing it, over the sun-up part of the hour
    const straight_W_m2 = up > 0 ? (direct_W_m2 + circumsolar_W_m2) / up : 0;
    const beam = straight_W_m2 > 0 ? beamOverHour(sun, i, view.dome, plane) : NO_BEAM;
    target.beam_W_m2[i] = straight_W_m2 * beam.planeOfArray;
    const band = band_W_m2 * upright * view.plane.band;
    target.sky_W_m2[i] = Math.max(isotropic_W_m2 * view.plane.sky + band, 0) * cover.sky;
    const ground_W_m2 = isotropic_W_m2 * view.horizontal.sky + straight_W_m2 * beam.horizontal;
    const screens = fromScreens(view, {
      isotropic_W_m2,
      ground_W_m2: ground_W_m2 * albedo,
      upright_W_m2: straight_W_m2 * up * Math.cos(sun.upAltitude_deg[i]! * RADIANS),
      azimuth_deg: sun.upAzimuth_deg[i]!,
      altitude_deg: sun.upAltitude_deg[i]!,
      seen: beam.seen,
    });
    target.reflected_W_m2[i] =
      groundReflected(ground_W_m2 + screens.horizontal_W_m2, albedo, plane.tilt_deg) * cover.ground +
      screens.plane_W_m2 * cover.sky;
  }
}

/** What lights the screens in one hour. */
interface ScreenLight {
  isotropic_W_m2: number;
  /** Reflected by the ground. */
  ground_W_m2: number;
  /** Of the sun, on an upright plane that faces it. */
  upright_W_m2: number;
  azimuth_deg: number;
  altitude_deg: number;
  /** Share of the hour's sun that the spot sees. */
  seen: number;
}

/** Light that the screens reflect onto the plane and onto the flat ground. */
function fromScreens(view: View, light: ScreenLight): { plane_W_m2: number; horizontal_W_m2: number } {
  const reflected = { plane_W_m2: 0, horizontal_W_m2: 0 };
  const azimuth = Math.round(light.azimuth_deg);
  for (const { reflectance, face, plane, horizontal } of view.screens) {
    if (reflectance === 0 || (plane.view === 0 && horizontal.view === 0)) continue;
    const diffuse_W_m2 = light.isotropic_W_m2 * (face?.sky ?? 0.5) + light.ground_W_m2 / 2;
    let sunny_W_m2 = 0;
    if (light.upright_W_m2 > 0 && (plane.sun[azimuth]! > 0 || horizontal.sun[azimuth]! > 0)) {
      sunny_W_m2 =
        light.upright_W_m2 *
        (face === undefined ? light.seen : passThrough(face.screens, light.azimuth_deg, light.altitude_deg));
    }
    reflected.plane_W_m2 += reflectance * (diffuse_W_m2 * plane.view + sunny_W_m2 * plane.sun[azimuth]!);
    reflected.horizontal_W_m2 +=
      reflectance * (diffuse_W_m2 * horizontal.view + sunny_W_m2 * horizontal.sun[azimuth]!);
  }
  return reflected;
}

/** What depends on place and surroundings alone. */
function viewOf({ dome, faces }: SeasonDomes['seasons'][number], scene: PlaneScene): View {
  const { site, bearings } = scene;
  const { tilt_deg, bearing_deg, cover } = scene.plane;
  const plane = domeShares(dome, tilt_deg, bearing_deg, cover.light, bearings);
  const horizontal = domeShares(dome, 0, 0, undefined, bearings);
  const screens = dome.screens.map((screen, s) => ({
    reflectance: screen.reflectance ?? site.albedo,
    face: faces.get(screen.name),
    plane: plane.screens[s]!,
    horizontal: horizontal.screens[s]!,
  }));
  return { dome, plane, horizontal, screens };
}

/**
 * Light a tilted plane takes from the ground before it, in W/m2.
 *
 * in: ground_W_m2, irradiance of the flat ground; albedo, 0 to 1; tilt_deg, 0 flat to 90 upright
 * out: W/m2
 * source: LiuJordan1963
 * @example groundReflected(500, 0.2, 90); // => 50
 */
export function groundReflected(ground_W_m2: number, albedo: number, tilt_deg: number): number {
  return (ground_W_m2 * albedo * (1 - Math.cos((tilt_deg * Math.PI) / 180))) / 2;
}
