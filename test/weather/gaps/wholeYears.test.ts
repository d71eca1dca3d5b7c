import { describe, expect, it } from 'vitest';
import { checkWholeYears } from '../../../sim/weather/checkWholeYears.ts';
import { calendarNotes } from '../../../sim/weather/gaps/calendarNotes.ts';
import { fillGaps } from '../../../sim/weather/gaps/fillGaps.ts';
import { wholeYears } from '../../../sim/weather/gaps/wholeYears.ts';
import { sunLight } from '../../../sim/weather/quality/SunLight.ts';
import { GARDEN, madeRecord } from '../quality/madeRecord.ts';

const HOUR_MS = 3_600_000;

/** Hours of the garden from one instant to another, with stretches missing. */
function filledOf(from: string, to: string, missing: readonly (readonly [string, string])[] = []) {
  const start_ms = Date.parse(from);
  const hours = (Date.parse(to) - start_ms) / HOUR_MS;
  const record = madeRecord({ ...GARDEN, seed: 1, start_ms, hours, step_W_m2: 0.1, mean: 0.45 });
  for (const [first, end] of missing) {
    record.ghi_W_m2.fill(
      Number.NaN,
      (Date.parse(first) - start_ms) / HOUR_MS,
      (Date.parse(end) - start_ms) / HOUR_MS,
    );
  }
  return { filled: fillGaps(record, sunLight(start_ms, hours, GARDEN)), start_ms, record };
}

function spanOf(made: ReturnType<typeof filledOf>, acceptFilled = false, latitude_deg = 54) {
  const found = wholeYears(made.filled, { acceptFilled, latitude_deg });
  if ('problem' in found) return found.problem;
  const day = (i: number) => new Date(made.start_ms + i * HOUR_MS).toISOString().slice(0, 13);
  checkWholeYears({
    start_ms: made.start_ms + found.from * HOUR_MS,
    count: found.to - found.from,
    origin: { file: 'made-up.csv', sha256: '', options: {}, filledHours: 0 },
  });
  return { ...found, span: `${day(found.from)} ${day(found.to)}` };
}

describe('wholeYears', () => {
  it('takes a record of whole years as it is, whatever its first hour', () => {
    expect(spanOf(filledOf('2020-12-31T23:00Z', '2021-12-31T23:00Z'))).toMatchObject({
      from: 0,
      to: 8760,
      years: 1,
      leading_h: 0,
      trailing_h: 0,
      reason:
        'one whole year, 2020-12-31 23:00 UTC to 2021-12-31 23:00 UTC, nothing of it filled; that is the whole record',
    });
  });

  it('counts 8784 hours where a 29 February lies in the year', () => {
    expect(spanOf(filledOf('2019-07-01T00:00Z', '2020-07-01T00:00Z'))).toMatchObject({ years: 1, to: 8784 });
  });

  it('begins with July in the north and January in the south where it can choose', () => {
    const made = filledOf('2020-10-12T00:00Z', '2022-09-20T00:00Z');
    expect(spanOf(made)).toMatchObject({ span: '2021-07-01T00 2022-07-01T00', years: 1 });
    expect(spanOf(made, false, -40)).toMatchObject({ span: '2021-01-01T00 2022-01-01T00' });
  });

  it('goes round absent months and says which hours are left out', () => {
    const made = filledOf('2018-01-01T00:00Z', '2021-01-01T00:00Z', [
      ['2018-01-01T00:00Z', '2018-05-17T08:00Z'],
    ]);
    expect(spanOf(made)).toMatchObject({
      years: 2,
      span: '2018-07-01T00 2020-07-01T00',
      reason:
        '2 whole years, 2018-07-01 00:00 UTC to 2020-07-01 00:00 UTC, nothing of it filled; 4344 hours before and 4416 hours after are left out; not usable: 2018-01 to 2018-05',
    });
  });

  it('refuses months of which much is filled until they are accepted', () => {
    const made = filledOf('2021-01-01T00:00Z', '2022-01-01T00:00Z', [
      ['2021-12-03T00:00Z', '2021-12-08T00:00Z'],
    ]);
    expect(spanOf(made)).toEqual({
      code: 'WEATHER_GAP',
      got: '8760 hours from 2021-01-01 00:00 UTC to 2022-01-01 00:00 UTC, more than 10 percent of the daylight filled: 2021-12',
      expected: 'twelve months running with their light measured',
      fix: '--accept-filled takes them (in a scenario, weather.accept_filled: true), or take other years.',
    });
    expect(spanOf(made, true)).toMatchObject({ years: 1, filled_h: 120 });
  });

  it('says what acceptance would bring', () => {
    const made = filledOf('2019-01-01T00:00Z', '2022-01-01T00:00Z', [
      ['2021-08-03T00:00Z', '2021-08-08T00:00Z'],
    ]);
    const found = spanOf(made);
    expect(found).toMatchObject({ years: 2 });
    expect('reason' in found && found.reason).toMatch(/; not usable: 2021-08; 3 years with --accept-filled$/);
  });

  it('does not accept a missing winter at all', () => {
    const made = filledOf('2021-01-01T00:00Z', '2022-01-01T00:00Z', [
      ['2021-11-20T00:00Z', '2021-12-30T00:00Z'],
    ]);
    expect(spanOf(made, true)).toMatchObject({
      code: 'WEATHER_PARTIAL_YEAR',
      got: expect.stringContaining('absent: 2021-11 to 2021-12'),
    });
  });

  it('finds none in a record shorter than a year', () => {
    expect(spanOf(filledOf('2021-01-01T00:00Z', '2021-12-31T23:00Z'))).toMatchObject({
      code: 'WEATHER_PARTIAL_YEAR',
      got: '8759 hours from 2021-01-01 00:00 UTC to 2021-12-31 23:00 UTC',
    });
  });
});

describe('calendarNotes', () => {
  it('tell of a 29 February that is there and of one that is left out and filled', () => {
    const there = filledOf('2024-01-01T00:00Z', '2025-01-01T00:00Z');
    expect(calendarNotes(there.record, 0)).toEqual(['2024 has a 29 February: its year counts 8784 hours.']);
    const out = filledOf('2024-01-01T00:00Z', '2025-01-01T00:00Z', [
      ['2024-02-29T00:00Z', '2024-03-01T00:00Z'],
    ]);
    expect(calendarNotes(out.record, 0)[0]).toContain(
      '29 February 2024 is left out of the file; the day is filled',
    );
    expect(spanOf(out)).toMatchObject({ years: 1, filled_h: 24, to: 8784 });
  });

  it('tell of leap seconds in years that have them, and of a record shorter than a year', () => {
    const notes = calendarNotes({ ...filledOf('2015-06-30T00:00Z', '2015-07-02T00:00Z').record }, 0);
    expect(notes[0]).toContain('Leap seconds are not counted');
    expect(notes[1]).toContain('holds no whole year');
  });
});
