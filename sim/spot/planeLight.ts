import type { PlaneFactors } from './planeFactors.ts';
import type { OpenSky } from './sky/skyColumns.ts';

/** Light on a plane in its parts, a column each. */
export interface PlaneLight {
  beam_W_m2: Float64Array;
  sky_W_m2: Float64Array;
  reflected_W_m2: Float64Array;
}

/**
 * Light on a plane behind its cover and front and among its surroundings, W/m2, hour by hour: the parts of the sky, each times
 * its factor.
 *
 * in: target, columns to fill; factors of the plane; open, the sky over the same hours; from and to, hours from <= i < to
 * out: fills beam, sky and reflected of hours with light; others are left as they are
 * valid: see `planeFactors`
 * source: HayDavies1980, Perez1990, LiuJordan1963, DuffieBeckman2020
 */
export function planeLightInto(
  target: PlaneLight,
  factors: PlaneFactors,
  { sky, snow, calendar }: OpenSky,
  from: number,
  to: number,
): void {
  const { sun, site } = calendar;
  const { skyModel, whiteAlbedo, seasons, ofHour, screensBySun, fromGround } = factors;
  for (let i = from; i < to; i++) {
    const diffuse_W_m2 = sky.dhi_W_m2[i]!;
    const direct_W_m2 = sky.dni_W_m2[i]!;
    if (!(diffuse_W_m2 > 0 || direct_W_m2 > 0)) continue;
    const taken = seasons[ofHour[i]!]!;
    const albedo = snow?.ground[i] === 1 ? whiteAlbedo : site.albedo;
    const up = sun.upShare[i]!;
    const { circumsolar_W_m2, isotropic_W_m2, band_W_m2 } = skyModel(
      i,
      diffuse_W_m2,
      up > 0 ? direct_W_m2 / up : 0,
    );
    // straight: what comes from the sun's direction, on a plane facing it, over the sun-up part of the hour
    const straight_W_m2 = up > 0 ? (direct_W_m2 + circumsolar_W_m2) / up : 0;
    target.beam_W_m2[i] = straight_W_m2 * factors.sun.plane[i]!;
    target.sky_W_m2[i] = Math.max(isotropic_W_m2 * taken.sky.plane + band_W_m2 * taken.band, 0);
    const ground_W_m2 = isotropic_W_m2 * taken.sky.ground + straight_W_m2 * factors.sun.ground[i]!;
    const returned_W_m2 = ground_W_m2 * albedo;
    const screens_W_m2 =
      isotropic_W_m2 * taken.screensBySky.plane +
      returned_W_m2 * taken.screensByGround.plane +
      straight_W_m2 * screensBySun.plane[i]!;
    const screensOnGround_W_m2 =
      isotropic_W_m2 * taken.screensBySky.ground +
      returned_W_m2 * taken.screensByGround.ground +
      straight_W_m2 * screensBySun.ground[i]!;
    target.reflected_W_m2[i] = (ground_W_m2 + screensOnGround_W_m2) * albedo * fromGround + screens_W_m2;
  }
}
