import { describe, expect, test } from 'vitest';
import { nightSpans } from '../../sim/night/nightSpans.ts';

const HOUR_MS = 3_600_000;
const START_MS = Date.UTC(2025, 11, 20, 12);

/** A night's hours by what happened in each, seconds: [promised, lit, short, shining, of the short time dim]. */
type Row = readonly [number, number, number, number, number?];

function hours(rows: Record<number, Row>, count = 24) {
  const column = (which: 0 | 1 | 2 | 3 | 4) =>
    Float64Array.from({ length: count }, (_, i) => rows[i]?.[which] ?? 0);
  const [promised_s, lit_s, short_s] = [column(0), column(1), column(2)];
  return { count, promised_s, lit_s, short_s, shining_s: column(3), dim_s: column(4) };
}

/** The spans in minutes after the start, in short. */
function spansOf(rows: Parameters<typeof hours>[0], firstShort_min = Number.NaN, joined = false, from_h = 0) {
  const night = {
    from_ms: START_MS + from_h * HOUR_MS,
    to_ms: START_MS + (from_h + 24) * HOUR_MS,
    firstShort_ms: START_MS + firstShort_min * 60_000,
  };
  return nightSpans(night, hours(rows), START_MS, joined).map(
    ({ from_ms, to_ms, kind }) =>
      `${kind} ${(from_ms - START_MS) / 60_000}-${Math.round((to_ms - START_MS) / 60_000)}`,
  );
}

const FULL = [3600, 3600, 0, 3600] as const;
const DARK = [3600, 0, 3600, 0] as const;

describe('spans of a night', () => {
  test('promised time that begins within an hour lies at its end, that ends within one at its beginning', () => {
    expect(spansOf({ 4: [1800, 1800, 0, 1800], 5: FULL, 6: [1800, 1800, 0, 1800] })).toEqual(['lit 270-390']);
  });

  test('short time begins at the first short instant and goes on into the next hour', () => {
    expect(
      spansOf({ 4: FULL, 5: [3600, 1200, 2400, 1200], 6: DARK, 7: [600, 0, 600, 0] }, 5 * 60 + 20),
    ).toEqual(['lit 240-320', 'out 320-430']);
  });

  test('a lamp that comes on late is short first, then lit', () => {
    expect(spansOf({ 4: [3600, 2700, 900, 2700], 5: FULL }, 240)).toEqual(['out 240-255', 'lit 255-360']);
  });

  test('short time that began in the hour before ends with the light of this hour', () => {
    expect(spansOf({ 4: [3600, 1800, 1800, 1800], 5: [3600, 3000, 600, 3000] }, 270)).toEqual([
      'lit 240-270',
      'out 270-310',
      'lit 310-360',
    ]);
  });

  test('a lamp that fades is dim first, then out', () => {
    expect(
      spansOf({ 4: [3600, 2400, 1200, 3600, 1200], 5: [3600, 0, 3600, 900, 900], 6: DARK }, 280),
    ).toEqual(['lit 240-280', 'dim 280-315', 'out 315-420']);
  });

  test('a lamp that was out and comes back is dim after it', () => {
    expect(spansOf({ 4: DARK, 5: [3600, 0, 3600, 1800, 1800] }, 240)).toEqual(['out 240-330', 'dim 330-360']);
  });

  test('the LED on after the promise is told apart from it', () => {
    expect(spansOf({ 4: FULL, 5: [1800, 1800, 0, 3600], 6: [0, 0, 0, 1200] })).toEqual([
      'lit 240-330',
      'beyond 330-380',
    ]);
  });

  test('the LED on before the promise begins', () => {
    expect(spansOf({ 4: [0, 0, 0, 600], 5: [1800, 1800, 0, 3600], 6: FULL })).toEqual([
      'beyond 290-330',
      'lit 330-420',
    ]);
  });

  test('of a joined year the last night runs on into its first hours', () => {
    expect(spansOf({ 23: FULL, 0: FULL, 1: DARK }, 25 * 60, true, 12)).toEqual([
      'lit 1380-1500',
      'out 1500-1560',
    ]);
  });

  test('each kind lasts as long as the hours say', () => {
    const rows = { 4: [1234, 1000, 234, 1000], 5: [3600, 3600, 0, 3600], 6: [2000, 500, 1500, 500] } as const;
    const night = { from_ms: START_MS, to_ms: START_MS + 24 * HOUR_MS, firstShort_ms: START_MS + 16_766_000 };
    const spans = nightSpans(night, hours(rows), START_MS, false);
    const total_s = (kind: string) =>
      spans
        .filter((span) => span.kind === kind)
        .reduce((sum, { from_ms, to_ms }) => sum + (to_ms - from_ms) / 1000, 0);
    expect(total_s('lit')).toBeCloseTo(5100, 6);
    expect(total_s('out')).toBeCloseTo(1734, 6);
  });
});
