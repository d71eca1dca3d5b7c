import { describe, expect, it } from 'vitest';
import type { ClockReading } from '../../../sim/weather/clock/ClockReading.ts';
import { judgeClock } from '../../../sim/weather/clock/judgeClock.ts';
import { sunClockCheck } from '../../../sim/weather/clock/sunClockCheck.ts';
import { inventedSky } from './inventedSky.ts';

const sure: ClockReading = {
  verdict: 'decided',
  reason: '',
  offset_min: 31,
  uncertainty_min: 2,
  asymmetry: 0,
  days: 300,
  secondMode_min: 200,
  secondModeWorseBy: 30,
  cost: 1,
};

describe('judgeClock', () => {
  it('agrees with a claim within ten minutes', () => {
    expect(judgeClock(sure, 3600, { marks: 'end' }).verdict).toBe('agrees');
  });

  it('disagrees with a start mark that should be an end mark, and proposes that', () => {
    const judgement = judgeClock(sure, 3600, { marks: 'start' });
    expect(judgement.verdict).toBe('disagrees');
    expect(judgement.offBy_min).toBe(61);
    expect(judgement.proposed).toMatchObject({ marks: 'end', clockAhead_min: 0 });
  });

  it('is undecided, with the choices, where nobody says what the stamps mark', () => {
    const judgement = judgeClock(sure, 3600);
    expect(judgement.verdict).toBe('undecided');
    expect(judgement.choices.length).toBeGreaterThanOrEqual(3);
  });

  it('is undecided between ten minutes and ten minutes and the uncertainty', () => {
    expect(judgeClock({ ...sure, offset_min: 41.5 }, 3600, { marks: 'end' }).verdict).toBe('undecided');
    expect(judgeClock({ ...sure, offset_min: 42.5 }, 3600, { marks: 'end' }).verdict).toBe('disagrees');
  });

  it('lets a loose reading refute a gross claim and bear a right one, and nothing in between', () => {
    const loose: ClockReading = {
      ...sure,
      verdict: 'undecided',
      reason: 'uncertain by 9 minutes',
      uncertainty_min: 9,
    };
    expect(judgeClock({ ...loose, offset_min: 90 }, 3600, { marks: 'end' }).verdict).toBe('disagrees');
    expect(judgeClock({ ...loose, offset_min: 36 }, 3600, { marks: 'end' }).verdict).toBe('agrees');
    expect(judgeClock({ ...loose, offset_min: 60 }, 3600, { marks: 'end' }).verdict).toBe('undecided');
    expect(
      judgeClock({ ...loose, offset_min: 30, secondModeWorseBy: 1 }, 3600, { marks: 'end' }).verdict,
    ).toBe('undecided');
  });

  it('names the sign of the longitude where that alone mends the claim', () => {
    const series = inventedSky({
      seed: 12,
      climate: 'mixed',
      latitude_deg: 51,
      longitude_deg: 13.3,
      start_ms: Date.UTC(2022, 2, 1),
      days: 120,
      step_s: 3600,
      offset_min: 30,
    });
    const clockCheck = sunClockCheck({ ...series, longitude_deg: -13.3 });
    const judgement = judgeClock(clockCheck.reading, 3600, { marks: 'end', slips: clockCheck.site.slips });
    expect(judgement.verdict).toBe('disagrees');
    expect(judgement.slips.map(({ slip }) => slip)).toEqual(['sign of longitude']);
  });
});
