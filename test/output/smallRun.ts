import { randomStream } from '../../sim/common/random.ts';
import { lampSchema } from '../../sim/lamp/schema.ts';
import type { NightRow } from '../../sim/night/nightLedger.ts';
import { LIBRARY } from '../../sim/scenario/PartShelf.ts';
import type { Scenario } from '../../sim/scenario/Scenario.ts';
import { spotSchema } from '../../sim/spot/schema.ts';
import type { SpotLight } from '../../sim/spot/spotLight.ts';
import { spotParams } from '../../sim/spot/spotParams.ts';
import type { MonthStatistics, TrialStatistics } from '../../sim/statistics/TrialStatistics.ts';
import type { HourlyTrial, RunResult } from '../../sim/trial/Trial.ts';
import { emptyNightTotals } from '../../sim/year/NightTotals.ts';
import { emptyYearColumns, YEAR_COLUMNS, type YearColumns } from '../../sim/year/YearColumns.ts';
import { idealCapacitor, makeSettled, RAW_CELL, RAW_DIODE, RAW_LED } from '../lamp/makeLamp.ts';
import { BALANCE } from '../year/balance.ts';

const DAY_MS = 86_400_000;

/** Invented hours with any numbers, but a balance that closes. */
export function smallColumns(count: number, seed = 1): YearColumns {
  const columns = emptyYearColumns(count);
  const draw = randomStream(seed, 'small columns');
  for (const name of YEAR_COLUMNS)
    columns[name].set(Array.from({ length: count }, () => 10 * draw.uniform()));
  for (let i = 0; i < count; i++) {
    columns.residual_J[i] = 1e-5 * (draw.uniform() - 0.5);
    columns.storedChange_J[i] = 40 * (draw.uniform() - 0.5);
    columns.cell_J[i] = BALANCE.reduce((sum, name) => sum + columns[name][i]!, 0);
    columns.shining_s[i] = i % 2 === 0 ? 1800 : 0;
    columns.ledOn_s[i] = i % 2 === 0 ? 1800 : 0;
    columns.led_C[i] = i % 2 === 0 ? 9 : 0;
  }
  return columns;
}

/** Invented light on a cell, constant; GHI does not apply where it was logged on the cell. */
export function smallLight(count: number, start_ms: number, logged = false): SpotLight {
  const filled = (value: number) => new Float64Array(count).fill(value);
  const sky = (value: number) => filled(logged ? Number.NaN : value);
  const dusk_ms = filled(start_ms);
  return {
    start_ms,
    count,
    planeOfArray_W_m2: filled(60),
    beam_W_m2: filled(20),
    sky_W_m2: filled(35),
    reflected_W_m2: filled(5),
    ghi_W_m2: sky(80),
    dni_W_m2: sky(100),
    dhi_W_m2: sky(50),
    air_degC: filled(-1.25),
    mark: new Uint8Array(count).fill(2),
    sunAltitude_deg: filled(8.5),
    dusk_ms,
    dawn_ms: dusk_ms,
    nights: {
      count: 0,
      noon_ms: filled(start_ms),
      dusk_ms,
      dawn_ms: dusk_ms,
      hasNight: new Uint8Array(0),
      eveningDate: [],
      complete: new Uint8Array(0),
    },
    cappedHours: 3,
    nightLight_lux: 0,
  };
}

/** A night of 6 promised hours, all of them lit; `changes` say what is different. */
export function smallNight(night: string, changes: Partial<NightRow> = {}): NightRow {
  const dusk_ms = Date.parse(`${night}T15:40:12Z`);
  return {
    winter: '2025/26',
    night,
    complete: true,
    dusk_ms,
    dawn_ms: dusk_ms + 0.66 * DAY_MS,
    promised_h: 6,
    lit_h: 6,
    short_h: 0,
    dim_h: 0,
    out_h: 0,
    wentOut: false,
    litBeyondPromise_h: 1.5,
    outcome: 'kept',
    cause: 'none',
    firstShort_ms: Number.NaN,
    lightOnCell_Wh_m2: 210.5,
    ghi_Wh_m2: 350,
    highestReachable_V: 2.2,
    capacitorDusk_V: 2.1,
    capacitorLowest_V: 1.4,
    capacitorDawn_V: 1.4,
    reserveDawn_J: 250,
    lightGiven_lm_h: 12,
    aboveRated_h: 0,
    snowOnLid_h: 0,
    filledWeather_h: 0,
    aboveHalf_h: 4,
    aboveFifth_h: 6,
    ...changes,
  };
}

/** A night short from 20:10 in Berlin for so many of 6 promised hours: dim for some of them, then out. */
export function darkNight(night: string, short_h: number, dim_h = 0): NightRow {
  const out_h = short_h - dim_h;
  return smallNight(night, {
    lit_h: 6 - short_h,
    short_h,
    dim_h,
    out_h,
    wentOut: out_h > 0.25,
    outcome: 'failed',
    cause: out_h > 0.25 ? 'ran-empty' : 'too-dim',
    firstShort_ms: Date.parse(`${night}T19:10:00Z`),
  });
}

/** Nights running, from a civil date. */
export function nightsFrom(first: string, count: number, row: (night: string) => NightRow): NightRow[] {
  return Array.from({ length: count }, (_, k) =>
    row(new Date(Date.parse(first) + k * DAY_MS).toISOString().slice(0, 10)),
  );
}

export function smallMonth(month: string, changes: Partial<MonthStatistics> = {}): MonthStatistics {
  return {
    month,
    nights: 31,
    failedNights: 0,
    promised_h: 186,
    lit_h: 186,
    short_h: 0,
    dim_h: 0,
    out_h: 0,
    lightOnCell_Wh_m2_day: 210,
    ghi_Wh_m2_day: 350,
    capacitorDusk_V: 2.05,
    capacitorDawn_V: 1.4,
    capacitorLowest_V: 1.2,
    lightGiven_lm_h: 372,
    aboveHalf_h: 124,
    aboveFifth_h: 180,
    ...changes,
  };
}

/** Statistics of one winter that was kept; `changes` say what is different about the winter. */
export function smallStatistics(
  changes: Partial<TrialStatistics['winters'][number]> = {},
  months: MonthStatistics[] = [smallMonth('2025-12')],
): TrialStatistics {
  return {
    verdict: (changes.failedNights ?? 0) > 0 ? 'broken' : 'kept',
    winters: [
      {
        winter: '2025/26',
        extent: 'whole',
        complete: true,
        nights: 365,
        failedNights: 0,
        failedOut: 0,
        promised_h: 2190,
        short_h: 0,
        dim_h: 0,
        out_h: 0,
        causes: {},
        lightGiven_lm_h: 4380,
        smallestReserve_J: 45.4,
        smallestReserveNight: '2025-12-21',
        shortMedian_h: Number.NaN,
        short_90_percent_h: Number.NaN,
        worstNight: undefined,
        longestSpell: undefined,
        darkestFortnight: undefined,
        recoveryNights: undefined,
        filledWeather_h: 0,
        ...changes,
      },
    ],
    months,
    energy: {
      light_J: 1e6 / 3,
      conversionLoss_J: 2.5e5,
      cellBest_J: 8e4,
      unharvestedCapacitorLow_J: 1e4,
      unharvestedCapacitorHigh_J: 5e3,
      cell_J: 6.5e4,
      diodeLoss_J: 9e3,
      resistanceLoss_J: 100,
      delayedBranchLoss_J: 200,
      leakage_J: 300,
      limiter_J: 0,
      standby_J: 50,
      driverLoss_J: 1e4,
      led_J: 4.5e4,
      storedChange_J: 350,
      residual_J: -0,
    },
  };
}

/** Statistics of a winter with 23 failed nights, 20 of them out. */
export function brokenStatistics(): TrialStatistics {
  return smallStatistics(
    {
      failedNights: 23,
      failedOut: 20,
      short_h: 61.2,
      dim_h: 10.5,
      out_h: 50.7,
      causes: { 'ran-empty': 18, 'still-empty': 2, 'too-dim': 3 },
      worstNight: { night: '2025-12-21', short_h: 5.25, dim_h: 1, out_h: 4.25, cause: 'ran-empty' },
      longestSpell: { from: '2025-12-18', to: '2025-12-22', nights: 5 },
      darkestFortnight: {
        from: '2025-12-12',
        to: '2025-12-25',
        short_h: 40.1,
        failedNights: 11,
        lightOnCell_Wh_m2: 850,
        lowestCapacitor_V: 0.9,
      },
      recoveryNights: 3,
    },
    [
      smallMonth('2025-11', { lightOnCell_Wh_m2_day: 90, failedNights: 4 }),
      smallMonth('2025-12', {
        lightOnCell_Wh_m2_day: 61,
        failedNights: 19,
        short_h: 50.2,
        dim_h: 8.2,
        out_h: 42,
        lit_h: 135.8,
        capacitorDusk_V: 1.31,
      }),
    ],
  );
}

export function smallTrial(changes: Partial<HourlyTrial> = {}, count = 48): HourlyTrial {
  const start_ms = Date.parse('2025-12-20T00:00:00Z');
  return {
    spot: 'lawn',
    lamp: 'single',
    light: smallLight(count, start_ms),
    year: {
      columns: smallColumns(count),
      nights: emptyNightTotals(2),
      firstNight: 0,
      joined: false,
      start: 'cyclic',
      passes: 2,
      periodicityError_V: 1e-6,
      steps: 100,
      coarseHours: 0,
      chargeResidual: 1e-15,
      energyResidual: 1e-6,
      worstHour: 0,
      beyondFormula_s: 7200,
      conductsThrough_s: Number.NaN,
      startCapacitor_V: 1.5,
      endCapacitor_V: 1.6,
    },
    nights: [smallNight('2025-12-20'), smallNight('2025-12-21')],
    statistics: smallStatistics(),
    changes: [],
    flags: [],
    ...changes,
  };
}

const SECTION = lampSchema.parse({
  cell: RAW_CELL,
  diode: RAW_DIODE,
  capacitor: idealCapacitor(500),
  driver: { kind: 'power', power_mW: 20, cutoff_V: 0.9, restart_V: 1 },
  led: RAW_LED,
  schedule: { on: 'dusk', until: 'dawn' },
});
const SPOT = {
  section: spotSchema.parse({}),
  params: spotParams(spotSchema.parse({}), ({ got }) => {
    throw new Error(got);
  })!,
};
const LAMP = { section: SECTION, ...makeSettled(SECTION), flags: [] };

/** A run of invented trials. Its spots are flat ones under a lid, with nothing around them. */
export function smallRun(trials = [smallTrial()], latitude_deg = 54): RunResult<HourlyTrial> {
  const names = (key: 'spot' | 'lamp') => [...new Set(trials.map((trial) => trial[key]))];
  const scenario: Scenario = {
    file: 'scenarios/invented.yaml',
    written: new Uint8Array(),
    called: 'small',
    folder: '/home/someone/scenarios',
    name: 'invented',
    sha256: 'ab'.repeat(32),
    seed: 7,
    site: { latitude_deg, longitude_deg: 10, elevation_m: 20, timeZone: 'Europe/Berlin', albedo: 0.2 },
    start: 'cyclic',
    promise: { from: 'dusk', hours: 6, least_lumen: 0.5, tolerance_h: 0.25 },
    spots: names('spot').map((name) => ({ name, ...SPOT })),
    lamps: names('lamp').map((name) => ({ name, ...LAMP })),
    shelf: LIBRARY,
    resolved: { format: 1, name: 'invented', seed: 7 },
    origins: [],
    assumptions: [],
    questions: [],
  };
  return {
    scenario,
    weather: {
      sha256: 'cd'.repeat(32),
      first_utc: '2025-12-20T00:00:00Z',
      hours: trials[0]?.light.count ?? 0,
      filled_hours: 0,
      options: { stamp: 'start_utc, start of the hour, UTC' },
    },
    trials,
    assumptions: ['albedo 0.2: grass and soil'],
    cautions: ['A charged supercapacitor gives hundreds of amperes when shorted.'],
  };
}

/** Rows of a CSV text as records by heading; no cell of these files is quoted. */
export function csvRecords(text: string): Record<string, string>[] {
  const [heading = '', ...rows] = text.trimEnd().split('\n');
  const names = heading.split(',');
  return rows.map((row) => Object.fromEntries(row.split(',').map((cell, k) => [names[k]!, cell])));
}
