import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import type { Scenario } from '../../sim/scenario/Scenario.ts';
import type { SpotLimits } from '../../sim/spot/spotLimits.ts';
import type { ComparedMonth, LampInSpot } from '../../sim/trial/Comparison.ts';
import { dullDayShare, limitedBy } from '../../sim/trial/compareSpots.ts';
import { compareTrial } from '../../sim/trial/compareTrial.ts';
import { coarserSky } from '../../sim/trial/spotSkies.ts';
import { emptyYearColumns } from '../../sim/year/YearColumns.ts';
import {
  darkNight,
  nightsFrom,
  smallLight,
  smallRun,
  smallStatistics,
  smallTrial,
} from '../output/smallRun.ts';

const file = fileURLToPath(new URL('../../scenarios/raw-parameters.yaml', import.meta.url));
const { params } = loadScenario(file, 'raw-parameters.yaml').lamps[0]!;

const limits: SpotLimits = {
  months: [12, 1],
  coverShare: 0.95,
  lightShare: 1,
  skyShare: 1,
  beamShare: 1,
  sunshine_h: 100,
  beam_h: 100,
  snowShare: 0,
  reflectedShare: 0,
  mostLost: 'neither',
};
const lamp: LampInSpot = {
  daylight_h: 400,
  reachableBelowCutoff_h: 0,
  reachableBelowCapacitor_h: 0,
  unharvestedShare: 0.02,
  leakageShare: 0.01,
};

describe('limitedBy', () => {
  it('names the greatest loss, of the surroundings or of any lamp', () => {
    const shut: SpotLimits = { ...limits, lightShare: 0.6, mostLost: 'beam' };
    expect(limitedBy(shut, 0.8, [lamp])).toBe('beam');
    expect(limitedBy({ ...shut, mostLost: 'sky' }, 0.8, [lamp])).toBe('sky');
    expect(limitedBy(shut, 0.8, [lamp, { ...lamp, unharvestedShare: 0.5 }])).toBe('dim-light');
    expect(limitedBy(limits, 1, [{ ...lamp, leakageShare: 0.3 }])).toBe('leakage');
    expect(limitedBy({ ...limits, coverShare: 0.7 }, 0.9, [lamp])).toBe('cover');
    expect(limitedBy({ ...shut, coverShare: 0.7 }, 0.9, [lamp])).toBe('beam');
    expect(limitedBy({ ...limits, snowShare: 0.2 }, 1, [lamp])).toBe('snow');
    expect(limitedBy({ ...limits, snowShare: 0.09 }, 1, [lamp])).toBe('season');
  });

  it('names the season where nothing takes a tenth, and the sky where dull days lose it though all days do not', () => {
    expect(limitedBy(limits, 0.95, [lamp])).toBe('season');
    expect(limitedBy({ ...limits, lightShare: 1.2 }, 0.85, [lamp])).toBe('sky');
  });

  it('goes by the lamps alone where light was logged, and knows nothing without dark months', () => {
    expect(limitedBy(undefined, Number.NaN, [{ ...lamp, unharvestedShare: 0.2 }])).toBe('dim-light');
    expect(limitedBy(undefined, Number.NaN, [lamp])).toBe('unknown');
    const nothing = { ...lamp, unharvestedShare: Number.NaN, leakageShare: Number.NaN };
    expect(limitedBy(undefined, Number.NaN, [nothing])).toBe('unknown');
  });
});

describe('dullDayShare', () => {
  it('takes the share over the duller half of the days of the dark months', () => {
    const start_ms = Date.parse('2025-12-01T00:00:00Z');
    const [light, open] = [smallLight(96, start_ms), smallLight(96, start_ms)];
    // Days of 10, 400, 20 and 300 W/m2 in the open; the spot keeps half of the dull and a tenth of the bright ones.
    const days = [10, 400, 20, 300];
    open.planeOfArray_W_m2.set(Array.from({ length: 96 }, (_, i) => days[Math.floor(i / 24)]!));
    light.planeOfArray_W_m2.set(open.planeOfArray_W_m2.map((value) => value * (value < 100 ? 0.5 : 0.1)));
    expect(dullDayShare(light, open, false)).toBeCloseTo(0.5, 12);
    expect(dullDayShare(light, open, true)).toBeNaN();
  });
});

/** A scenario whose lamp is the one above. */
function scenarioAt(latitude_deg: number): Scenario {
  const { scenario } = smallRun([smallTrial()], latitude_deg);
  return { ...scenario, lamps: scenario.lamps.map((lamp) => ({ ...lamp, params })) };
}

describe('what a lamp makes of its spot', () => {
  it('counts hours and shares of energy from the columns of December and January', () => {
    const trial = smallTrial({}, 6);
    const columns = emptyYearColumns(6);
    const set = (column: Float64Array, values: number[]) => column.set(values);
    // By hour: dark; reachable voltage below the cut-off of 0.9 V; below the capacitor; above it but dim; bright; capacitor full.
    set(trial.light.planeOfArray_W_m2, [0, 5, 30, 40, 500, 50]);
    set(columns.reachable_V, [0, 0.7, 1.2, 1.8, 2.25, 1.9]);
    set(columns.capacitorLowest_V, [1.5, 1.5, 1.5, 1.5, 1.6, 2.25]);
    set(columns.capacitorEnd_V, [1.5, 1.5, 1.5, 1.6, 1.9, 2.26]);
    set(columns.unharvestedHigh_J, [0, 1, 2, 4, 100, 50]);
    set(columns.cellBest_J, [0, 5, 10, 25, 100, 60]);
    set(columns.leakage_J, [1, 1, 1, 1, 1, 1]);
    set(columns.cell_J, [0, 0, 0, 20, 30, 10]);
    const year = { ...trial.year, columns };
    const inSpot = (southern: boolean) =>
      compareTrial({ ...trial, year }, scenarioAt(southern ? -54 : 54), []).inSpot;
    const found = inSpot(false);
    expect(found).toMatchObject({ daylight_h: 5, reachableBelowCutoff_h: 1, reachableBelowCapacitor_h: 2 });
    expect(found.unharvestedShare).toBeCloseTo(7 / 200, 12);
    expect(found.leakageShare).toBeCloseTo(6 / 60, 12);
    expect(Object.values(inSpot(true)).every(Number.isNaN)).toBe(true);
  });
});

describe('compareTrial', () => {
  it('counts whole winters only, nights and months alike, and part winters where there is no other', () => {
    const nights = [
      ...nightsFrom('2024-12-30', 4, (night) => ({ ...darkNight(night, 2), winter: '2024/25' })),
      ...nightsFrom('2025-12-01', 5, (night) => ({ ...darkNight(night, 1), winter: '2025/26' })),
    ];
    const winter = (name: string, complete: boolean, failedNights: number, reserve_J: number) => ({
      ...smallStatistics({ winter: name, complete, failedNights, nights: failedNights }).winters[0]!,
      smallestReserve_J: reserve_J,
      smallestReserveNight: name,
    });
    const statistics = (complete: boolean) => ({
      ...smallStatistics(),
      winters: [winter('2024/25', complete, 4, 50), winter('2025/26', false, 5, 20)],
    });
    const compared = (complete: boolean) =>
      compareTrial(smallTrial({ nights, statistics: statistics(complete) }), scenarioAt(54), [12, 1, 2]);
    const failed = (months: ComparedMonth[]) => months.map((month) => month.failedNights);
    expect(compared(true)).toMatchObject({ winters: 1, failedNights: 4, smallestReserve_J: 50 });
    expect(failed(compared(true).months)).toEqual([2, 2, 0]);
    expect(compared(true).months[0]!.short_h).toBeCloseTo(4, 12);
    expect(compared(false)).toMatchObject({ winters: 0, failedNights: 9, smallestReserve_J: 20 });
    expect(failed(compared(false).months)).toEqual([7, 2, 0]);
  });
});

describe('coarserSky', () => {
  it('takes means of four cells and leaves the rest as it is', () => {
    const picture = {
      grid: {
        bearing_deg: [45, 135, 225, 315],
        elevation_deg: [22.5, 67.5],
        inLeaf: [
          [0, 1, 1, 1],
          [0, 1, 0.5, 0.5],
        ],
        bare: undefined,
      },
      outlines: [],
      sunPaths: [],
      months: [{ month: 1, sun_h: 8, beam_h: 2 }],
    };
    expect(coarserSky(picture)).toEqual({
      ...picture,
      grid: { bearing_deg: [90, 270], elevation_deg: [45], inLeaf: [[0.5, 0.75]], bare: undefined },
    });
  });
});
