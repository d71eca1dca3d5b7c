import { describe, expect, it } from 'vitest';
import { InputProblem } from '../../../sim/common/InputProblem.ts';
import type { ClockReading } from '../../../sim/weather/clock/estimateClockOffset.ts';
import { type ClockTrust, resolveClock } from '../../../sim/weather/clock/resolveClock.ts';
import { type SunClockCheck, sunClockCheck } from '../../../sim/weather/clock/sunClockCheck.ts';
import type { StampLabel, StampReading, ZoneClaim } from '../../../sim/weather/recognise/DetectedFormat.ts';
import { inventedSky } from './inventedSky.ts';

const YEAR = inventedSky({
  seed: 12,
  climate: 'mixed',
  latitude_deg: 51,
  longitude_deg: 13.3,
  start_ms: Date.UTC(2022, 2, 1),
  days: 120,
  step_s: 3600,
  offset_min: 30,
});
const seen = sunClockCheck(YEAR);
const UTC: ZoneClaim = { kind: 'fixed', offset_min: 0, words: '' };
const SILENT: ZoneClaim = { kind: 'unstated', words: '' };

function stampOf(zone: ZoneClaim, label: StampLabel | undefined): StampReading {
  const shape = {
    parts: [],
    step_s: 3600,
    irregular: false,
    descending: false,
    typicalYear: false,
    style: '',
  };
  return { ...shape, zone, label: label === undefined ? { words: '' } : { label, words: '' } };
}

function withReading(reading: Partial<ClockReading>): SunClockCheck {
  const sharp = {
    ...seen.reading,
    verdict: 'decided' as const,
    offset_min: 30,
    uncertainty_min: 2,
    secondModeWorseBy: 30,
  };
  return { ...seen, pattern: 'one clock', reading: { ...sharp, ...reading } };
}

function resolve(
  check: SunClockCheck,
  zone: ZoneClaim,
  label: StampLabel | undefined,
  { trust = 'neither' as ClockTrust, longitude_deg = 13.3, step_s = 3600 } = {},
) {
  const series = { step_s, fileStep_s: step_s };
  return resolveClock('made-up.csv', series, stampOf(zone, label), check, { trust, longitude_deg });
}

function problemOf(act: () => unknown) {
  try {
    act();
  } catch (error) {
    if (error instanceof InputProblem) return error.problems[0]!;
    throw error;
  }
  throw new Error('nothing was refused');
}

describe('a whole claim', () => {
  it('stands within ten minutes and not beyond, of a sharp reading', () => {
    expect(resolve(withReading({ offset_min: 40 }), UTC, 'end').offset_min).toBe(30);
    expect(problemOf(() => resolve(withReading({ offset_min: 40.5 }), UTC, 'end')).code).toBe(
      'WEATHER_CLOCK',
    );
  });

  it('stands within two standard uncertainties of a loose one, and not beyond', () => {
    expect(resolve(withReading({ offset_min: 47.9, uncertainty_min: 9 }), UTC, 'end').offset_min).toBe(30);
    const problem = problemOf(() =>
      resolve(withReading({ offset_min: 48.1, uncertainty_min: 9 }), UTC, 'end'),
    );
    expect(problem.code).toBe('WEATHER_CLOCK');
  });

  it('stands where another time of day fits nearly as well', () => {
    const blind = withReading({
      offset_min: 200,
      secondModeWorseBy: 2.9,
      reason: 'an offset fits nearly as well',
    });
    expect(resolve(blind, UTC, 'end').offset_min).toBe(30);
    expect(
      problemOf(() => resolve(withReading({ offset_min: 200, secondModeWorseBy: 3 }), UTC, 'end')).code,
    ).toBe('WEATHER_CLOCK');
  });

  it('that is refused can be typed right, or insisted on', () => {
    const check = withReading({ offset_min: -30 });
    const { typed } = problemOf(() => resolve(check, UTC, 'end'));
    expect(typed).toEqual(['--believe sun', '--marks start', '--zone -01:00', '--believe file']);
    expect(resolve(check, UTC, 'end', { trust: 'sun' }).offset_min).toBe(-30);
    expect(resolve(check, UTC, 'start').offset_min).toBe(-30);
    expect(resolve(check, UTC, 'end', { trust: 'file' }).offset_min).toBe(30);
  });

  it('is offered no number for a zone that keeps summer time, or for offsets that the stamps state', () => {
    for (const zone of [
      { kind: 'civil', zone: 'Europe/Berlin', words: '' },
      { kind: 'each', words: '' },
    ] as const) {
      const { typed } = problemOf(() => resolve(withReading({ offset_min: -30 }), zone, 'end'));
      expect(typed).toEqual(['--believe sun', '--marks start', '--believe file']);
    }
  });

  it('that a wrong sign of the longitude alone gainsays names the place to type', () => {
    const check = sunClockCheck({ ...YEAR, longitude_deg: -13.3 });
    const problem = problemOf(() => resolve(check, UTC, 'end', { longitude_deg: -13.3 }));
    expect(problem.typed![0]).toBe('--place 51,13.3');
    expect(problem.fix).toContain('sign of longitude');
  });
});

describe('what is not said', () => {
  it('is taken from the sun where all that fits gives the same hours, and said in one sentence', () => {
    const resolved = resolve(withReading({}), SILENT, undefined);
    expect(resolved.offset_min).toBe(30);
    expect(resolved.words).toContain(
      'at the end of the interval and a right clock, or at the start and a clock 60 minutes fast, which give the same hours',
    );
  });

  it('is asked for where marks half an hour apart both fit', () => {
    expect(resolve(withReading({ offset_min: 44, uncertainty_min: 7.9 }), SILENT, undefined).offset_min).toBe(
      30,
    );
    const problem = problemOf(() =>
      resolve(withReading({ offset_min: 44, uncertainty_min: 8.1 }), SILENT, undefined),
    );
    expect(problem.code).toBe('WEATHER_AMBIGUOUS');
    expect(problem.typed).toHaveLength(2);
  });

  it('may be a zone of half hours, if the mark is said', () => {
    expect(resolve(withReading({ offset_min: 0 }), SILENT, 'start').offset_min).toBe(0);
  });

  it('is laid on the day that a clock of the site would have', () => {
    expect(
      resolve(withReading({ offset_min: -690 }), SILENT, undefined, { longitude_deg: 178 }).offset_min,
    ).toBe(750);
    expect(
      resolve(withReading({ offset_min: -690 }), SILENT, undefined, { longitude_deg: -170 }).offset_min,
    ).toBe(-690);
  });

  it('is the nearest mark of fine steps, which lie nearer to each other than the promise', () => {
    expect(resolve(withReading({ offset_min: 3 }), UTC, undefined, { step_s: 600 }).offset_min).toBe(5);
  });

  it('is refused where no mark explains a zone that is said, with what to type', () => {
    const problem = problemOf(() => resolve(withReading({ offset_min: 90 }), UTC, undefined));
    expect(problem).toMatchObject({ code: 'WEATHER_CLOCK' });
    expect(problem.typed).toEqual([
      '--zone +01:00 --marks end',
      '--zone +02:00 --marks start',
      '--believe sun',
    ]);
  });
});
