import { describe, expect, it } from 'vitest';
import { wholeYearsIn } from '../../../sim/common/time.ts';
import { fillGaps } from '../../../sim/weather/gaps/fillGaps.ts';
import { calendarNotes, withLostEnd } from '../../../sim/weather/gaps/lostEnd.ts';
import { usableStretch } from '../../../sim/weather/gaps/usableStretch.ts';
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
  const found = usableStretch(made.filled, { acceptFilled, latitude_deg });
  if ('problem' in found) return found.problem;
  const day = (i: number) => new Date(made.start_ms + i * HOUR_MS).toISOString().slice(0, 13);
  expect(wholeYearsIn(made.start_ms + found.from * HOUR_MS, found.to - found.from)).toBe(found.years);
  return { ...found, span: `${day(found.from)} ${day(found.to)}` };
}

describe('usableStretch', () => {
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

  it('asks before it leaves out months of which much is filled, where only they would give a winter', () => {
    const made = filledOf('2021-01-01T00:00Z', '2022-01-01T00:00Z', [
      ['2021-12-03T00:00Z', '2021-12-08T00:00Z'],
    ]);
    expect(spanOf(made)).toMatchObject({
      code: 'WEATHER_GAP',
      got: expect.stringContaining('more than 10 percent of the daylight filled: 2021-12'),
      fix: expect.stringContaining('--accept-filled'),
    });
    expect(spanOf(made, true)).toMatchObject({ years: 1, filled_h: 120 });
    // With a winter beside it there is one to run, and what acceptance would add is said.
    const longer = filledOf('2021-01-01T00:00Z', '2023-07-01T00:00Z', [
      ['2021-12-03T00:00Z', '2021-12-08T00:00Z'],
    ]);
    expect(spanOf(longer)).toMatchObject({
      years: 1,
      reason: expect.stringContaining('2 whole years with --accept-filled'),
    });
  });

  it('refuses a record all of whose months are filled, until they are accepted', () => {
    const made = filledOf('2021-12-01T00:00Z', '2022-01-01T00:00Z', [
      ['2021-12-03T00:00Z', '2021-12-08T00:00Z'],
    ]);
    expect(spanOf(made)).toEqual({
      code: 'WEATHER_GAP',
      got: '744 hours from 2021-12-01 00:00 UTC to 2022-01-01 00:00 UTC, more than 10 percent of the daylight filled: 2021-12',
      expected: 'months with their light measured',
      fix: '--accept-filled takes them (in a scenario, weather.accept_filled: true), or take other months: --from and --to.',
    });
    expect(spanOf(made, true)).toMatchObject({ years: 0, span: '2021-12-01T00 2022-01-01T00' });
  });

  it.each([
    [54, '2021-10-01T00:00Z', '2022-04-01T00:00Z', ['2021/22']],
    // Three days may lack at either end, no hour more.
    [54, '2021-10-04T00:00Z', '2022-04-01T00:00Z', ['2021/22']],
    [54, '2021-10-04T01:00Z', '2022-04-01T00:00Z', []],
    [54, '2021-10-01T00:00Z', '2022-03-29T00:00Z', ['2021/22']],
    [54, '2021-10-01T00:00Z', '2022-03-28T23:00Z', []],
    [-40, '2021-04-01T00:00Z', '2021-10-01T00:00Z', ['2021']],
    [-40, '2021-10-01T00:00Z', '2022-04-01T00:00Z', []],
  ])(
    'names the winters at %d degrees whose dark months lie in %s to %s',
    (latitude_deg, from, to, winters) => {
      expect(spanOf(filledOf(from, to), false, latitude_deg)).toMatchObject({
        years: 0,
        winters,
        leading_h: 0,
      });
    },
  );

  it('takes the stretch with a winter before a longer one without, and goes up to the hour of a gap', () => {
    const made = filledOf('2020-10-01T00:00Z', '2021-09-20T00:00Z', [
      ['2021-04-02T05:00Z', '2021-04-25T05:00Z'],
    ]);
    expect(spanOf(made)).toMatchObject({ winters: ['2020/21'], span: '2020-10-01T00 2021-04-02T05' });
  });

  it('says what three days are good for, and what four weeks are', () => {
    expect(spanOf(filledOf('2021-12-01T00:00Z', '2021-12-04T00:00Z'))).toMatchObject({
      reason: expect.stringMatching(
        /^3 days, no whole winter, .*too short for a season: good for holding a log/,
      ),
    });
    expect(spanOf(filledOf('2021-12-01T00:00Z', '2021-12-28T23:00Z'))).toMatchObject({
      reason: expect.stringContaining('too short for a season'),
    });
    expect(spanOf(filledOf('2021-12-01T00:00Z', '2021-12-29T00:00Z'))).toMatchObject({
      reason: expect.stringContaining('good for a look at its nights'),
    });
  });

  it('says what acceptance would bring', () => {
    const made = filledOf('2019-01-01T00:00Z', '2022-01-01T00:00Z', [
      ['2021-08-03T00:00Z', '2021-08-08T00:00Z'],
    ]);
    const found = spanOf(made);
    expect(found).toMatchObject({ years: 2 });
    expect('reason' in found && found.reason).toMatch(
      /; not usable: 2021-08; 3 whole years with --accept-filled$/,
    );
  });

  it('does not make a missing winter up', () => {
    const made = filledOf('2021-01-01T00:00Z', '2022-01-01T00:00Z', [
      ['2021-11-20T00:00Z', '2021-12-30T00:00Z'],
    ]);
    expect(spanOf(made, true)).toMatchObject({ years: 0, span: '2021-01-01T00 2021-11-20T00' });
  });

  it('finds nothing in less than a day', () => {
    expect(spanOf(filledOf('2021-01-01T00:00Z', '2021-01-01T23:00Z'))).toMatchObject({
      code: 'WEATHER_PARTIAL_YEAR',
      got: '23 hours from 2021-01-01 00:00 UTC to 2021-01-01 23:00 UTC',
    });
    expect(spanOf(filledOf('2021-01-01T00:00Z', '2021-01-02T00:00Z'))).toMatchObject({ to: 24, years: 0 });
  });
});

describe('withLostEnd', () => {
  const columns = (from: string, to: string) => filledOf(from, to).record;

  it.each([
    ['2021-01-01T00:00Z', '2021-12-31T23:00Z', 1, '2021-01-01T00'],
    ['2021-01-01T01:00Z', '2022-01-01T00:00Z', 1, '2021-01-01T00'],
    ['2021-01-01T00:00Z', '2021-12-31T18:00Z', 6, '2021-01-01T00'],
    ['2021-07-01T00:00Z', '2022-06-30T18:00Z', 6, '2021-07-01T00'],
    ['2021-07-01T00:00Z', '2022-06-30T17:00Z', 0, '2021-07-01T00'],
    // What lacks is dark: the sun rises after half past seven.
    ['2021-01-01T08:00Z', '2021-12-31T16:00Z', 16, '2021-01-01T08'],
    ['2021-01-01T09:00Z', '2021-12-31T16:00Z', 0, '2021-01-01T09'],
    ['2020-12-31T23:00Z', '2021-12-31T22:00Z', 1, '2020-12-31T23'],
    ['2021-01-01T00:00Z', '2022-01-01T00:00Z', 0, '2021-01-01T00'],
    ['2021-10-01T00:00Z', '2022-04-01T00:00Z', 0, '2021-10-01T00'],
  ])('of %s to %s puts %d hours to it', (from, to, lost_h, starts) => {
    const given = columns(from, to);
    const made = withLostEnd(given, GARDEN);
    expect(made.lost_h).toBe(lost_h);
    expect(made.columns.count).toBe(given.count + lost_h);
    expect(new Date(made.columns.start_ms).toISOString()).toContain(starts);
    expect(made.columns.ghi_W_m2.filter(Number.isNaN)).toHaveLength(lost_h);
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

  it('tell of leap seconds in years that have them, and of hours lost at an end', () => {
    const notes = calendarNotes({ ...filledOf('2015-06-30T00:00Z', '2015-07-02T00:00Z').record }, 0, 2);
    expect(notes[0]).toContain('Leap seconds are not counted');
    expect(notes[1]).toBe(
      '2 hours are lost at an end of the year; filled as any gap, so that the year is whole.',
    );
  });
});
