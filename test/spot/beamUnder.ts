import { beamOnPlane, type Plane } from '../../sim/spot/shade/beamOnPlane.ts';
import { beamSight } from '../../sim/spot/shade/beamSight.ts';
import type { SkyDome } from '../../sim/spot/shade/SkyDome.ts';
import { sunTrack } from '../../sim/sun/SunTrack.ts';
import type { SunColumns } from '../../sim/sun/sunColumns.ts';

/** What a plane and the ground get of each hour's sun under one dome, and the share of the hour's sun that is seen. */
export function beamUnder(sun: SunColumns, dome: SkyDome, plane: Plane) {
  const domes = { seasons: [{ dome, faces: new Map() }], ofHour: new Uint8Array(sun.count) };
  const sight = beamSight(sun, sunTrack(sun), domes);
  return { onPlane: beamOnPlane(sight, plane, sun.count), onGround: sight.onGround, seen: sight.seen };
}
