import { describe, expect, it } from 'vitest';
import { PASS_ROWS_PER_UNIT, type PassTable, passTable } from '../../sim/year/passTable.ts';

/** Share by its cubic, and by that of its logarithm. */
function read({ rows, low, last }: PassTable, voltage: number): { share: number; log: number } {
  const place = (voltage - low) * PASS_ROWS_PER_UNIT;
  if (place >= last) return { share: Math.exp(-voltage), log: -voltage };
  const i = 8 * Math.max(0, Math.floor(place));
  const t = Math.max(0, place - Math.floor(place));
  const cubic = (at: number) => rows[at]! + t * (rows[at + 1]! + t * (rows[at + 2]! + t * rows[at + 3]!));
  return { share: cubic(i), log: cubic(i + 4) };
}

/** Where k ln(1 - share) - ln share is a voltage, in closed form; e is its exponential. */
const CLOSED: readonly (readonly [number, (e: number) => number])[] = [
  [1, (e) => 1 / (1 + e)],
  // (1 - s)^2 = e s, and sqrt(1 - s) = e s.
  [2, (e) => 2 / (2 + e + Math.sqrt(e * (4 + e)))],
  [0.5, (e) => 2 / (1 + Math.sqrt(1 + 4 * e * e))],
];

describe.each(CLOSED)('the share that passes at a ratio of %f', (k, closed) => {
  it('is the closed solution to 1e-6, its logarithm to 2e-6, on and between the rows', () => {
    const table = passTable(k);
    for (let voltage = -8; voltage < 25; voltage += 0.017) {
      const share = closed(Math.exp(voltage));
      const got = read(table, voltage);
      expect(Math.abs(got.share - share)).toBeLessThan(1e-6);
      expect(Math.abs(got.log - Math.log(share))).toBeLessThan(2e-6);
    }
  });
});

describe('at any ratio', () => {
  it.each([0.3, 3, 4.7, 8, 15])('%f, share and logarithm satisfy the equation to 3e-6', (k) => {
    const table = passTable(k);
    for (let voltage = -3 * k; voltage < 25; voltage += 0.031) {
      const { share, log } = read(table, voltage);
      expect(Math.abs(Math.log(share) - log)).toBeLessThan(3e-6);
      // Where nearly all passes the rest is known to the share's own digits only.
      if (share < 0.999)
        expect(Math.abs(k * Math.log1p(-share) - log - voltage)).toBeLessThan(3e-6 * (1 + k / (1 - share)));
    }
  });

  it('below the first row everything passes', () => {
    for (const [k, closed] of CLOSED) expect(1 - closed(Math.exp(passTable(k).low))).toBeLessThan(1e-7);
  });

  it('one ratio has one table', () => {
    expect(passTable(4)).toBe(passTable(4));
    expect(passTable(4)).not.toBe(passTable(4.1));
  });
});
