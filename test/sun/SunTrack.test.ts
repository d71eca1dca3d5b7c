import { expect, it } from 'vitest';
import { directionTo, sunTrack, TRACK_PARTS } from '../../sim/sun/SunTrack.ts';
import { solarPosition } from '../../sim/sun/solarPosition.ts';
import { sunColumns } from '../../sim/sun/sunColumns.ts';

it('sunTrack follows the sun every 3 minutes of the hours in which it is up', () => {
  const start_ms = Date.UTC(2023, 9, 3);
  const sun = sunColumns(start_ms, 48, { latitude_deg: 54, longitude_deg: 10 });
  const track = sunTrack(sun);
  expect([...track.hours]).toEqual([...sun.upShare.keys()].filter((i) => sun.upShare[i]! > 0));
  expect(track.hours.length).toBeGreaterThan(20);
  track.hours.forEach((hour, row) => {
    for (let k = 0; k <= TRACK_PARTS; k += 5) {
      const at = solarPosition(start_ms + (hour + k / TRACK_PARTS) * 3_600_000, 54, 10);
      const j = row * (TRACK_PARTS + 1) + k;
      expect(Math.abs(track.altitude_deg[j]! - at.altitude_deg)).toBeLessThan(0.001);
      expect(Math.abs(track.azimuth_deg[j]! - at.azimuth_deg)).toBeLessThan(0.001);
      const to = directionTo(track.altitude_deg[j]!, track.azimuth_deg[j]!);
      expect(track.up[j]).toBeCloseTo(to.up, 14);
      expect(track.north[j]).toBeCloseTo(to.north, 14);
      expect(track.east[j]).toBeCloseTo(to.east, 14);
    }
  });
});
