import { RADIANS } from '../common/constants.ts';
import { cos, sin } from '../common/elementary/sin.ts';
import { beamOnPlane, type Plane } from './shade/beamOnPlane.ts';
import type { BeamSight } from './shade/beamSight.ts';
import { domeShares, type ScreenShare } from './shade/domeShares.ts';
import type { LitFace } from './shade/litFaces.ts';
import { passThrough } from './shade/SkyDome.ts';
import type { SeasonDomes } from './shade/seasonDomes.ts';
import type { SkyCalendar } from './sky/SkyCalendar.ts';
import type { SkyModel } from './sky/skyModels.ts';

/** How the sky over a plane is taken. */
export interface SkyTerms {
  /** Divides the diffuse light of each hour. */
  skyModel: SkyModel;
  /** Of the ground under snow. */
  whiteAlbedo: number;
}

/** A plane, and all that stands around it. */
export interface PlaneScene extends SkyTerms {
  calendar: SkyCalendar;
  domes: SeasonDomes;
  sight: BeamSight;
  plane: Plane;
  /** How many bearings the dome is cut into. */
  bearings?: number;
}

/** What a plane and the flat ground before it take of one kind of light, for each W/m2 of it. */
export interface TakenLight<T> {
  plane: T;
  ground: T;
}

/** What a plane and the ground take of diffuse light under one state of the leaves. */
export interface DiffuseFactors {
  /** Straight from the isotropic sky. */
  sky: TakenLight<number>;
  /** Of the band at the horizon on an upright plane. */
  band: number;
  /** From the screens, lit by the isotropic sky. */
  screensBySky: TakenLight<number>;
  /** From the screens, lit by what the ground reflects. */
  screensByGround: TakenLight<number>;
}

/**
 * What place, obstacles, cover and hours alone say of the light on a plane. Whatever the weather, its light is linear in
 * the parts of the sky with these factors; what the plane takes is behind its cover and front.
 */
export interface PlaneFactors extends SkyTerms {
  seasons: readonly DiffuseFactors[];
  /** Season of each hour. */
  ofHour: Uint8Array;
  /** By hour, of what comes straight from the sun, on a plane facing it while it is up; means over the hour. */
  sun: TakenLight<Float64Array>;
  /** The same by way of the screens that the sun lights. */
  screensBySun: TakenLight<Float64Array>;
  /** Of what the ground reflects. */
  fromGround: number;
}

/**
 * The factors of a plane among its surroundings, without unit.
 *
 * in: scene
 * out: factors, by hour and by season
 * valid: see `beamSight`, `domeShares`, `litFaces`; light is reflected once by obstacles, then once by the ground; the
 *   ground at the spot takes what a flat plane there takes
 * source: LiuJordan1963, DuffieBeckman2020
 */
export function planeFactors(scene: PlaneScene): PlaneFactors {
  const { calendar, domes, sight, plane } = scene;
  const { count } = calendar.sun;
  const views = domes.seasons.map((season) => viewOf(season, scene));
  const screensBySun = { plane: new Float64Array(count), ground: new Float64Array(count) };
  for (const hour of sight.track.hours) {
    sunOnScreensInto(screensBySun, hour, views[domes.ofHour[hour]!]!.screens, scene);
  }
  return {
    skyModel: scene.skyModel,
    whiteAlbedo: scene.whiteAlbedo,
    seasons: views.map(({ diffuse }) => diffuse),
    ofHour: domes.ofHour,
    sun: { plane: beamOnPlane(sight, plane, count), ground: sight.onGround },
    screensBySun,
    fromGround: groundShare(plane),
  };
}

/** One state of the leaves, as the plane and the flat ground at the spot see it. */
interface View {
  diffuse: DiffuseFactors;
  screens: ViewedScreen[];
}

/** A screen that returns light to the plane or to the ground. */
interface ViewedScreen {
  reflectance: number;
  face: LitFace | undefined;
  plane: ScreenShare;
  ground: ScreenShare;
}

function viewOf({ dome, faces }: SeasonDomes['seasons'][number], scene: PlaneScene): View {
  const { bearings, calendar } = scene;
  const { tilt_deg, bearing_deg, passage } = scene.plane;
  const plane = domeShares(dome, tilt_deg, bearing_deg, passage, bearings);
  const ground = domeShares(dome, 0, 0, undefined, bearings);
  const diffuse: DiffuseFactors = {
    sky: { plane: plane.sky, ground: ground.sky },
    band: sin(tilt_deg * RADIANS) * plane.band,
    screensBySky: { plane: 0, ground: 0 },
    screensByGround: { plane: 0, ground: 0 },
  };
  const screens: ViewedScreen[] = [];
  dome.screens.forEach((screen, s) => {
    const reflectance = screen.reflectance ?? calendar.site.albedo;
    const face = faces.get(screen.name);
    const viewed = { reflectance, face, plane: plane.screens[s]!, ground: ground.screens[s]! };
    if (reflectance === 0 || (viewed.plane.view === 0 && viewed.ground.view === 0)) return;
    screens.push(viewed);
    for (const on of ['plane', 'ground'] as const) {
      const returned = reflectance * viewed[on].view;
      diffuse.screensBySky[on] += returned * (face?.sky ?? 0.5);
      diffuse.screensByGround[on] += returned / 2;
    }
  });
  return { diffuse, screens };
}

/** What the screens return of the sun that stands on them, upright as they are, in one hour. */
function sunOnScreensInto(
  target: TakenLight<Float64Array>,
  hour: number,
  screens: readonly ViewedScreen[],
  { calendar: { sun }, sight }: PlaneScene,
): void {
  const azimuth_deg = sun.upAzimuth_deg[hour]!;
  const altitude_deg = sun.upAltitude_deg[hour]!;
  const upright = sun.upShare[hour]! * cos(altitude_deg * RADIANS);
  const towards = Math.round(azimuth_deg);
  for (const { reflectance, face, plane, ground } of screens) {
    if (!(plane.sun[towards]! > 0 || ground.sun[towards]! > 0)) continue;
    const lit = face === undefined ? sight.seen[hour]! : passThrough(face.screens, azimuth_deg, altitude_deg);
    target.plane[hour]! += reflectance * upright * lit * plane.sun[towards]!;
    target.ground[hour]! += reflectance * upright * lit * ground.sun[towards]!;
  }
}

/**
 * What a plane takes of the light that flat, even ground reflects, without unit: of that on a plane facing the ground.
 *
 * in: plane
 * out: (1 - cos tilt) / 2 where all light passes
 * source: LiuJordan1963
 */
export function groundShare({ tilt_deg, bearing_deg, passage }: Plane): number {
  if (tilt_deg === 0) return 0;
  // The ground is a sky upside down.
  const below = passage && {
    share: (cosIncidence: number, elevation_deg: number) => passage.share(cosIncidence, -elevation_deg),
  };
  return domeShares({ screens: [] }, 180 - tilt_deg, bearing_deg, below).sky;
}
