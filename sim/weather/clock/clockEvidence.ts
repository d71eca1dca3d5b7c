import { CLEAR_STEP_MIN } from './clearDay.ts';
import type { FoldedDays } from './foldSeries.ts';

/** What can be shown for a reading of the clock. NaN where the days hold nothing to judge by. */
export interface ClockEvidence {
  /** Correlation of each value with the one at the mirrored solar time of its day, -1 to 1. */
  mirror: number;
  /** Correlation of the series with the clear sky at each day's own clearness, -1 to 1. */
  clearSkyFit: number;
  /** Share of all radiation that came while the sun was more than 2 degrees down. */
  lightWithSunDown: number;
  /** Share of the intervals with a clear sky above 100 W/m2 in which no light was measured. */
  darkWithSunUp: number;
  /** First light of the day behind what the sun and the day's clearness let expect, mean over the days, minutes. */
  firstLightLate_min: number;
  /** Last light ahead of what they let expect, mean over the days, minutes. */
  lastLightEarly_min: number;
}

/** Clear-sky light, averaged over the interval, that stands for a sun 2 degrees down. */
const TWILIGHT_W_M2 = 0.8;

/**
 * The evidence for an offset of the stamps: mirror and clear-sky correlation (dimensionless), light in the dark and
 * dark in the light (shares), first and last light (minutes).
 *
 * in: days, as folded; offset_min of each day, stamp minus middle of the interval
 * out: the evidence; both light times are near zero, and alike, at the right offset
 * NaN when: no light, or no pairs to correlate
 */
export function clockEvidence(days: FoldedDays, offset_min: Float64Array): ClockEvidence {
  const mirrored = new Correlation();
  const clearSky = new Correlation();
  let light = 0;
  let lightDown = 0;
  let up = 0;
  let dark = 0;
  let lateSum = 0;
  let earlySum = 0;
  let lightDays = 0;
  const threshold = 2 * days.grain_W_m2;
  for (let d = 0; d < days.day_ms.length; d++) {
    const samples: { solar_min: number; ghi: number; expected: number }[] = [];
    for (let i = days.dayFirst[d]!; i < days.dayFirst[d + 1]!; i++) {
      const turned = (days.phase_min[i]! - offset_min[d]! + 2880) % 1440;
      const position = turned / CLEAR_STEP_MIN;
      const low = Math.floor(position);
      const means = days.clearDays[days.clearIndex[i]!]!;
      const clear = means[low]! + (position - low) * (means[low + 1]! - means[low]!);
      const ghi = days.ghi_W_m2[i]!;
      samples.push({ solar_min: turned, ghi, expected: clear * days.clearness[i]! });
      clearSky.add(ghi, clear * days.clearness[i]!);
      light += ghi;
      if (clear < TWILIGHT_W_M2) lightDown += ghi;
      if (clear > 100) {
        up++;
        if (ghi < days.grain_W_m2) dark++;
      }
    }
    samples.sort((a, b) => a.solar_min - b.solar_min);
    addMirrored(mirrored, samples);
    const first = samples.findIndex((sample) => sample.ghi > threshold);
    const firstExpected = samples.findIndex((sample) => sample.expected > threshold);
    if (first < 0 || firstExpected < 0) continue;
    const last = samples.findLastIndex((sample) => sample.ghi > threshold);
    const lastExpected = samples.findLastIndex((sample) => sample.expected > threshold);
    lateSum += samples[first]!.solar_min - samples[firstExpected]!.solar_min;
    earlySum += samples[lastExpected]!.solar_min - samples[last]!.solar_min;
    lightDays++;
  }
  return {
    mirror: mirrored.value(),
    clearSkyFit: clearSky.value(),
    lightWithSunDown: lightDown / light,
    darkWithSunUp: dark / up,
    firstLightLate_min: lateSum / lightDays,
    lastLightEarly_min: earlySum / lightDays,
  };
}

/** Pairs each value in the light with the value at the mirrored time, drawn straight between its neighbours. */
function addMirrored(sums: Correlation, samples: { solar_min: number; ghi: number }[]): void {
  for (const sample of samples) {
    const wanted = 1440 - sample.solar_min;
    const after = samples.findIndex((other) => other.solar_min >= wanted);
    if (after < 1) continue;
    const low = samples[after - 1]!;
    const high = samples[after]!;
    const part = (wanted - low.solar_min) / (high.solar_min - low.solar_min);
    const mirror = low.ghi + part * (high.ghi - low.ghi);
    if (sample.ghi > 0 || mirror > 0) sums.add(sample.ghi, mirror);
  }
}

/** Running sums of a correlation. */
class Correlation {
  private count = 0;
  private x = 0;
  private y = 0;
  private xx = 0;
  private yy = 0;
  private xy = 0;

  add(x: number, y: number): void {
    this.count++;
    this.x += x;
    this.y += y;
    this.xx += x * x;
    this.yy += y * y;
    this.xy += x * y;
  }

  value(): number {
    const both = this.count * this.xy - this.x * this.y;
    return (
      both / Math.sqrt((this.count * this.xx - this.x * this.x) * (this.count * this.yy - this.y * this.y))
    );
  }
}
