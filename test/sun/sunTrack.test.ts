import { describe, expect, it } from 'vitest';
import { solarPosition } from '../../sim/sun/solarPosition.ts';
import { sunColumns } from '../../sim/sun/sunColumns.ts';
import { sunTrack, TRACK_PARTS } from '../../sim/sun/sunTrack.ts';

describe('sunTrack', () => {
  const start_ms = Date.UTC(2023, 9, 3);
  const sun = sunColumns(start_ms, 48, { latitude_deg: 54, longitude_deg: 10 });
  const track = sunTrack(sun);

  it('follows the sun every 3 minutes of the hours in which it is up', () => {
    let up = 0;
    for (let i = 0; i < sun.count; i++) {
      if (sun.upShare[i] === 0) continue;
      up++;
      for (let k = 0; k <= TRACK_PARTS; k += 5) {
        const at = solarPosition(start_ms + (i + k / TRACK_PARTS) * 3_600_000, 54, 10);
        const place = i * (TRACK_PARTS + 1) + k;
        expect(Math.abs(track.altitude_deg[place]! - at.altitude_deg)).toBeLessThan(0.001);
        expect(Math.abs(track.azimuth_deg[place]! - at.azimuth_deg)).toBeLessThan(0.001);
      }
    }
    expect(up).toBeGreaterThan(20);
  });

  it('is made once for the same columns', () => {
    expect(sunTrack(sun)).toBe(track);
    expect(sunTrack({ ...sun })).not.toBe(track);
  });
});
