import { describe, expect, it } from 'vitest';
import { randomStream } from '../../../sim/common/random.ts';
import type { SingleDiode } from '../../../sim/lamp/cell/SingleDiode.ts';
import {
  bestShare,
  cellOfSheet,
  curveOf,
  dimCell,
  dimRange_V,
  mostShunt_S,
  type Sheet,
  sheetIdeality,
} from '../../../sim/lamp/cell/sheetCell.ts';
import { leastShunt_V } from '../../../sim/lamp/cell/sheetFlags.ts';

const SMALL: Sheet = { shortCircuit_A: 0.5, openCircuit_V: 2.45, best_A: 0.46, best_V: 1.95, junctions: 4 };
const POOR: Sheet = { shortCircuit_A: 0.42, openCircuit_V: 2.35, best_A: 0.36, best_V: 1.75, junctions: 4 };
/** So square a curve that its ideality must lie below the usual. */
const SQUARE: Sheet = { shortCircuit_A: 0.5, openCircuit_V: 2.6, best_A: 0.475, best_V: 2.2, junctions: 4 };

const SHUNT_V = [25, 30, 40, 50, 70, 100, 200, 500, 1000, 2000];
const LIGHT_W_m2 = [5, 10, 20, 50, 100, 200, 300];

/** Currents, as shares of the light's, at the voltages and in the light of a dull December day. */
function dimCurrents(cell: SingleDiode, sheet: Sheet): number[] {
  return [10, 30, 60].flatMap((light) =>
    [1.5, 1.8, 2, 2.2].map((voltage_V) => {
      const curve = curveOf(cell, sheet.junctions, light);
      return curve.intoLoad(cell.series_ohm, { voltage_V, ohm: 0 }).current_A / curve.photocurrent_A;
    }),
  );
}

const ofShunt = (sheet: Sheet, shunt_V: number) =>
  cellOfSheet(sheet, sheetIdeality(sheet), sheet.shortCircuit_A / shunt_V);

const openIn = (cell: SingleDiode, sheet: Sheet, light: number) =>
  curveOf(cell, sheet.junctions, light).junctionAtCurrent_V(0);

describe('a point in dim light', () => {
  it.each([
    ['small', SMALL],
    ['poor', POOR],
    ['square', SQUARE],
  ])("that is the cell's own gives the cell back, shunts 25 to 2000 V, 5 to 300 W/m2: %s", (_, sheet) => {
    const shunts = SHUNT_V.filter((shunt_V) => sheet.shortCircuit_A / shunt_V < mostShunt_S(sheet));
    expect(shunts.length).toBeGreaterThan(6);
    for (const shunt_V of shunts) {
      const cell = ofShunt(sheet, shunt_V);
      const currents = dimCurrents(cell, sheet);
      for (const irradiance_W_m2 of LIGHT_W_m2) {
        const open_V = openIn(cell, sheet, irradiance_W_m2);
        const [low, high] = dimRange_V(sheet, irradiance_W_m2);
        expect(open_V).toBeGreaterThanOrEqual(low);
        expect(open_V).toBeLessThanOrEqual(high);
        const again = dimCell(sheet, { irradiance_W_m2, open_V }).cell;
        dimCurrents(again, sheet).forEach((current, i) => {
          // What the search leaves, in shares of the light's current.
          expect(Math.abs(current - currents[i]!), `${shunt_V} V, ${irradiance_W_m2} W/m2`).toBeLessThan(
            1e-4,
          );
        });
      }
    }
  });

  it('holds, and never gives less current for more voltage, on sheets drawn at random', () => {
    const random = randomStream(1, 'datasheets of cells');
    const between = (low: number, high: number) => low + (high - low) * random.uniform();
    let drawn = 0;
    while (drawn < 60) {
      const junctions = Math.round(between(1, 8));
      const open_V = junctions * between(0.5, 0.65);
      const short_A = between(0.02, 1.5);
      const share = between(0.86, 0.96);
      const best_V = (between(0.55, 0.8) / share) * open_V;
      const sheet: Sheet = {
        shortCircuit_A: short_A,
        openCircuit_V: open_V,
        best_A: share * short_A,
        best_V,
        junctions,
      };
      if (best_V > 0.97 * open_V || mostShunt_S(sheet) < short_A / 2000) continue;
      drawn++;
      const light = LIGHT_W_m2[drawn % LIGHT_W_m2.length]!;
      const [low, high] = dimRange_V(sheet, light);
      let before: number[] | undefined;
      for (let i = 0; i <= 20; i++) {
        const point_V = low + ((high - low) * i) / 20;
        const { cell } = dimCell(sheet, { irradiance_W_m2: light, open_V: point_V });
        expect(cell.ideality).toBeGreaterThanOrEqual(1);
        // A quarter millivolt a junction: what the ideality is held against.
        const off_V = Math.abs(openIn(cell, sheet, light) - point_V);
        expect(off_V, JSON.stringify(sheet)).toBeLessThan(2.5e-4 * junctions);
        const currents = [10, 30, 60].flatMap((dim) =>
          [0.6, 0.8, 0.9].map((part) => {
            const curve = curveOf(cell, junctions, dim);
            return (
              curve.intoLoad(cell.series_ohm, { voltage_V: part * open_V, ohm: 0 }).current_A /
              curve.photocurrent_A
            );
          }),
        );
        currents.forEach((current, k) => {
          expect(current, JSON.stringify({ sheet, light, point_V })).toBeGreaterThan(
            (before?.[k] ?? Number.NEGATIVE_INFINITY) - 1e-5,
          );
        });
        before = currents;
      }
    }
  });

  it('leaves the shunt open where the ideality says as much of it, and settles it where it does not', () => {
    const cell = ofShunt(SMALL, 200);
    const at = (irradiance_W_m2: number) =>
      leastShunt_V(SMALL, dimCell(SMALL, { irradiance_W_m2, open_V: openIn(cell, SMALL, irradiance_W_m2) }));
    expect(at(10)).toBeUndefined();
    expect(at(100)).toBeGreaterThan(30);
    expect(at(100)).toBeLessThan(100);
  });
});

describe('a shunt', () => {
  it('moves no ideality, and a poorer one never shines better in any light', () => {
    for (const sheet of [SMALL, POOR, SQUARE]) {
      let before: number[] | undefined;
      for (const shunt_V of SHUNT_V) {
        const cell = ofShunt(sheet, shunt_V);
        expect(cell.ideality).toBe(sheetIdeality(sheet));
        const found = [...dimCurrents(cell, sheet), ...LIGHT_W_m2.map((light) => openIn(cell, sheet, light))];
        found.forEach((value, i) => {
          if (before !== undefined) expect(value).toBeGreaterThan(before[i]!);
        });
        before = found;
      }
    }
  });

  it('that takes too much leaves the curve below the best point, and else on it', () => {
    expect(bestShare(SMALL, ofShunt(SMALL, 25))).toBeCloseTo(0.975, 3);
    for (const shunt_V of [50, 200, 2000])
      expect(bestShare(SMALL, ofShunt(SMALL, shunt_V))).toBeCloseTo(1, 9);
  });
});

describe('the ideality of a sheet', () => {
  it('is what silicon usually has, or less where the best point asks for it, and never below 1', () => {
    expect(sheetIdeality(SMALL)).toBe(1.35);
    expect(sheetIdeality(SQUARE)).toBeCloseTo(1.205, 3);
    expect(sheetIdeality({ ...SQUARE, best_A: 0.49 })).toBe(1);
    // With that ideality and a fair shunt nothing is left for a series resistance.
    const square = ofShunt(SQUARE, 200);
    expect(square.series_ohm).toBeLessThan(1e-3);
    expect(bestShare(SQUARE, square)).toBeCloseTo(1, 5);
  });
});
