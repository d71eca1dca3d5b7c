import { type SunTrack, TRACK_PARTS } from '../../sun/SunTrack.ts';
import type { SunColumns } from '../../sun/sunColumns.ts';
import type { SkyDome } from './SkyDome.ts';
import type { SeasonDomes } from './seasonDomes.ts';

/** What a spot sees of the sun, hour by hour, however a cell lies there. */
export interface BeamSight {
  track: SunTrack;
  /** Of each part of each row of the track: share of its light that passes, taking its length as 1. */
  passing: Float64Array;
  /** And the moment of that share about the start of the part. */
  moment: Float64Array;
  /** Share of the sun-up time of each hour in which the spot sees the sun, 0 to 1. */
  seen: Float64Array;
  /** Of each hour, on the flat ground at the spot for each W/m2 of beam while the sun is up; means over the hour. */
  onGround: Float64Array;
}

/**
 * What a spot sees of the sun's centre behind its obstacles, without unit. The sun's place is taken every 3 minutes and
 * in straight lines between; sight is looked up four times as often, and where it changes, the moment is found to a few
 * seconds, so that neither sunrise nor the edge of a wall leaks beam.
 *
 * in: sun; its track; domes over the same hours
 * out: shares by part of the track and by hour
 * valid: obstacles wider than the sun's way in 45 seconds (0.2 degrees); the sun as a point
 */
export function beamSight(sun: SunColumns, track: SunTrack, { seasons, ofHour }: SeasonDomes): BeamSight {
  const { hours, altitude_deg, azimuth_deg, up } = track;
  const passing = new Float64Array(hours.length * TRACK_PARTS);
  const moment = new Float64Array(hours.length * TRACK_PARTS);
  const seen = new Float64Array(sun.count);
  const onGround = new Float64Array(sun.count);
  const parts = seasons.map(({ dome }) => new Part(dome));
  // j: place in the track, which holds one value more a row than there are parts
  let j = 0;
  let at = 0;
  for (const hour of hours) {
    const part = parts[ofHour[hour]!]!;
    let time = 0;
    let ground = 0;
    part.begin(altitude_deg[j]!, azimuth_deg[j]!);
    for (let k = 0; k < TRACK_PARTS; k++) {
      part.goTo(altitude_deg[j + 1]!, azimuth_deg[j + 1]!);
      passing[at] = part.passing;
      moment[at] = part.moment;
      time += part.passing;
      ground += part.passing * up[j]! + part.moment * (up[j + 1]! - up[j]!);
      at++;
      j++;
    }
    j++;
    seen[hour] = Math.min(time / TRACK_PARTS / sun.upShare[hour]!, 1);
    onGround[hour] = ground / TRACK_PARTS;
  }
  return { track, passing, moment, seen, onGround };
}

/** How often sight is looked up within a part. */
const LOOKS = 4;
/** Times the span between two looks is halved to find an edge. */
const HALVINGS = 5;

/** Sight over one part of the sun's track after the other, under one dome. */
class Part {
  passing = 0;
  moment = 0;
  private readonly dome: SkyDome;
  private readonly open: boolean;
  private altitude_deg = 0;
  private climb_deg = 0;
  private azimuth_deg = 0;
  private turn_deg = 0;
  private toAltitude_deg = 0;
  private toAzimuth_deg = 0;
  /** Share that passes at the end of the part. */
  private last = 0;

  constructor(dome: SkyDome) {
    this.dome = dome;
    this.open = dome.screens.length === 0;
  }

  /** To where the next part starts. */
  begin(altitude_deg: number, azimuth_deg: number): void {
    this.toAltitude_deg = altitude_deg;
    this.toAzimuth_deg = azimuth_deg;
    this.last = altitude_deg > 0 ? this.dome.transmittance(azimuth_deg, altitude_deg) : 0;
  }

  /** Sight from there, or from the end of the part before, to another place. */
  goTo(altitude_deg: number, azimuth_deg: number): void {
    this.altitude_deg = this.toAltitude_deg;
    this.azimuth_deg = this.toAzimuth_deg;
    this.toAltitude_deg = altitude_deg;
    this.toAzimuth_deg = azimuth_deg;
    this.climb_deg = altitude_deg - this.altitude_deg;
    // Across north if need be.
    const turn_deg = azimuth_deg - this.azimuth_deg;
    this.turn_deg = turn_deg > 180 ? turn_deg - 360 : turn_deg < -180 ? turn_deg + 360 : turn_deg;
    this.passing = 0;
    this.moment = 0;
    const down = this.altitude_deg <= 0 && altitude_deg <= 0;
    const free = this.open && this.altitude_deg > 0 && altitude_deg > 0;
    if (free) this.add(0, 1, 1);
    else if (!down) this.look();
  }

  private look(): void {
    let start = 0;
    let share = this.last;
    for (let look = 1; look <= LOOKS; look++) {
      const then = this.at(look / LOOKS);
      if (then === share) continue;
      const end = this.edge((look - 1) / LOOKS, look / LOOKS);
      this.add(start, end, share);
      start = end;
      share = then;
    }
    this.add(start, 1, share);
    this.last = share;
  }

  /** Share that passes at a moment of the part, 0 to 1. */
  private at(moment: number): number {
    const altitude_deg = this.altitude_deg + moment * this.climb_deg;
    if (altitude_deg <= 0) return 0;
    const azimuth_deg = this.azimuth_deg + moment * this.turn_deg;
    return this.dome.transmittance(azimuth_deg < 0 ? azimuth_deg + 360 : azimuth_deg, altitude_deg);
  }

  private add(start: number, end: number, share: number): void {
    const time = (end - start) * share;
    this.passing += time;
    this.moment += (time * (start + end)) / 2;
  }

  /** Where sight changes between two moments: the step's place, or the half-way value's where it is gradual. */
  private edge(from: number, to: number): number {
    const before = this.at(from);
    const after = this.at(to);
    let low = from;
    let high = to;
    for (let i = 0; i < HALVINGS; i++) {
      const middle = (low + high) / 2;
      const there = this.at(middle);
      if (Math.abs(there - before) < Math.abs(there - after)) low = middle;
      else high = middle;
    }
    return (low + high) / 2;
  }
}
