import { FULL_SUN_W_M2 } from '../common/constants.ts';
import { log } from '../common/elementary/log.ts';
import type { LampParams } from '../lamp/params.ts';
import {
  BENCH_DEG_C,
  bareCell,
  dischargeMinutes,
  drawnAt,
  dropBehind,
  restingVoltage_V,
  steadyReachable_V,
} from './benchMeters.ts';
import { type LoadResistor, loadResistor, ohmWords } from './loadResistor.ts';
import { type BenchLamp, toleranceBand } from './toleranceBand.ts';

/** Something to measure before the lid is closed, and what good parts show. */
export interface BenchCheck {
  part: 'cell' | 'diode' | 'capacitor' | 'driver' | 'whole lamp';
  what: string;
  /** With which load, meter or light. */
  how: string;
  unit: string;
  expected: number;
  /** What it may be within the stated tolerances. */
  low: number;
  high: number;
}

/** A check of a part before its bounds: what a meter shows of a lamp. */
export interface BenchReading extends Pick<BenchCheck, 'part' | 'what' | 'how' | 'unit'> {
  /** What it is never driven above. */
  most?: number;
  read: (of: BenchLamp) => number;
  /** Keys of the scenario that it tells, by part. */
  tells?: readonly string[];
}

type Reading = Omit<BenchReading, 'part'>;

/** A bright window without sun on it: common practice, no source. */
const WINDOW_W_M2 = 60;
/** The same on a dull day, or some steps back into the room. */
const DULL_W_M2 = 10;
const SUPPLY_V = 5;
/** A day of sun before the rest, so that the delayed charge is most of the way in. */
const HELD_H = 8;
const NIGHT_H = 14;
const DISCHARGE_S = 1800;
/**
 * What to measure at a lamp before its lid is closed, with which load, and what good parts show.
 *
 * in: lamp, as the scenario states or its readings settle it; series, capacitors in series
 * out: checks in the order of the bench: cell, diode, capacitor, driver, the whole lamp; no voltage of the whole lamp
 *   above the rated voltage of its capacitor, and none that needs it below its lowest
 * valid: bare cell and everything at 20 degC; bands by the tolerances of `toleranceBand`
 * source: IEC62391 (discharge from 0.8 to 0.4 of the rated voltage)
 */
export function benchChecks(lamp: LampParams, series: number): BenchCheck[] {
  const { lowest_V } = lamp.capacitor;
  const checks = benchReadings(lamp, series).map(
    ({ read, tells: _, most = Number.POSITIVE_INFINITY, ...check }) => {
      const { expected, low, high } = toleranceBand(lamp, read);
      return {
        ...check,
        expected: Math.min(expected, most),
        low: Math.min(low, most),
        high: Math.min(high, most),
      };
    },
  );
  return checks.filter(({ part, expected }) => part !== 'whole lamp' || expected >= lowest_V);
}

/** The same before its bounds: what a meter shows of a lamp that is wired and loaded as for this one. */
export function benchReadings(lamp: LampParams, series: number): BenchReading[] {
  const full_V = Math.min(steadyReachable_V(lamp, FULL_SUN_W_M2), lamp.capacitor.rated_V);
  const readings: Record<BenchCheck['part'], Reading[]> = {
    cell: cellReadings(lamp),
    diode: diodeReadings(lamp),
    capacitor: capacitorReadings(lamp, series),
    driver: [...drawReadings(lamp, full_V), ...thresholdReadings(lamp, full_V)],
    'whole lamp': wholeReadings(lamp, full_V),
  };
  return Object.entries(readings).flatMap(([part, ofPart]) =>
    ofPart.map((reading) => ({ part: part as BenchCheck['part'], ...reading })),
  );
}

/** Added to what reads a current: a meter left so is a short. */
const LEADS_BACK = '; leads back to the volt sockets';

function cellReadings(lamp: LampParams): Reading[] {
  const warmer = Math.abs(lamp.cell.voltageTempco_V_per_K * 10 * 1000).toFixed(0);
  const short = (light_W_m2: number) => (of: BenchLamp) =>
    bareCell(of.lamp, light_W_m2 * of.light).solve(0) * 1000;
  const open = (light_W_m2: number) => (of: BenchLamp) =>
    bareCell(of.lamp, light_W_m2 * of.light).openCircuit_V;
  return [
    {
      what: 'short circuit in full sun',
      how: `bare cell square to a clear sun (${FULL_SUN_W_M2} W/m2), ammeter alone across it (10 A range)${LEADS_BACK}`,
      unit: 'mA',
      read: short(FULL_SUN_W_M2),
      tells: ['cell.short_circuit_mA'],
    },
    {
      what: 'open circuit in full sun',
      how: `the same light, voltmeter alone, cell still cool; ${warmer} mV less for each 10 K warmer than ${BENCH_DEG_C} degC`,
      unit: 'V',
      read: open(FULL_SUN_W_M2),
      tells: ['cell.open_circuit_V'],
    },
    {
      what: 'short circuit by window light',
      how: `bright window, no sun on the cell; turn the cell until the ammeter shows ${Number((WINDOW_W_M2 / FULL_SUN_W_M2).toPrecision(1))} of what it showed in full sun: ${WINDOW_W_M2} W/m2${LEADS_BACK}`,
      unit: 'mA',
      read: short(WINDOW_W_M2),
    },
    {
      what: 'open circuit by window light',
      how: 'the same light and place, voltmeter alone; much less is a cell with a poor shunt',
      unit: 'V',
      read: open(WINDOW_W_M2),
    },
    {
      what: 'open circuit in dull light',
      how: `back into the room until the ammeter shows ${DULL_W_M2 / FULL_SUN_W_M2} of what it showed in full sun: ${DULL_W_M2} W/m2; there the voltmeter alone: here a poor shunt shows most`,
      unit: 'V',
      read: open(DULL_W_M2),
      tells: ['cell.shunt_V'],
    },
  ];
}

function diodeReadings(lamp: LampParams): Reading[] {
  const window_A = bareCell(lamp, WINDOW_W_M2).solve(0);
  return [window_A, window_A / 10].map((current_A) => {
    const load = loadResistor(SUPPLY_V / current_A, SUPPLY_V);
    const mA = ((SUPPLY_V - dropBehind(lamp, SUPPLY_V, load.ohm)) / load.ohm) * 1000;
    return {
      what: `forward drop at ${Number(mA.toPrecision(2))} mA`,
      how: `diode alone; ${SUPPLY_V} V through ${loadWords(load)} into it, voltmeter across the diode`,
      unit: 'V',
      read: (of) => dropBehind(of.lamp, SUPPLY_V, load.ohm * of.resistor),
      tells: ['diode.forward_drop', 'diode.ideality'],
    };
  });
}

function capacitorReadings({ capacitor }: LampParams, series: number): Reading[] {
  const { rated_V, limiter_V, lowest_V } = capacitor;
  // What must not be emptied is read over what it may be used for.
  const from_V = Math.min((lowest_V > 0 ? 0.9 : 0.8) * rated_V, limiter_V);
  const to_V = Math.max(0.5 * from_V, 1.05 * lowest_V);
  const held = `whole bank alone, held half an hour at ${from_V.toFixed(2)} V by a supply`;
  const parts = Array.from({ length: series > 1 ? series : 0 }, (_, k) => ({
    what: `part ${k + 1} of ${series} in series, of ${from_V.toFixed(2)} V`,
    how: `${held}, voltmeter across each part, of every string; more than ${(rated_V / series).toFixed(2)} V on any: supply off`,
    unit: 'V',
    most: rated_V / series,
    read: (of: BenchLamp) => (from_V * of.partOfSeries) / (series - 1 + of.partOfSeries),
  }));
  if (to_V > 0.9 * from_V) return parts;
  const whole_F = capacitor.capacitance_F + 0.6 * capacitor.rise_F_V * rated_V;
  const load = loadResistor(DISCHARGE_S / (whole_F * log(from_V / to_V)), from_V);
  const discharge: Reading = {
    what: `discharge from ${from_V.toFixed(2)} V to ${to_V.toFixed(2)} V`,
    how: `${held}; supply off, then ${loadWords(load)} across it${load.begins_W > 0.1 ? ', which gets hot' : ''}; stopwatch${lowest_V > 0 ? `; off at ${to_V.toFixed(2)} V` : ''}`,
    unit: 'min',
    read: (of) =>
      dischargeMinutes(of.lamp.capacitor, { from_V, to_V, held_h: 0.5, load_ohm: load.ohm * of.resistor }),
    tells: ['capacitor.capacitance_F'],
  };
  return [...parts, discharge];
}

function loadWords({ ohm, begins_W, rated_W }: LoadResistor): string {
  return `${ohmWords(ohm)} (${Number(begins_W.toPrecision(2))} W: take ${rated_W} W)`;
}

function testVoltages_V({ driver }: LampParams, full_V: number): number[] {
  const least_V = driver.cutoff_V + 0.05 + 0.1 * (full_V - driver.cutoff_V);
  return [full_V, (full_V + least_V) / 2, least_V].map((v) => Math.floor(v * 20) / 20);
}

function drawReadings(lamp: LampParams, full_V: number): Reading[] {
  const voltages_V = testVoltages_V(lamp, full_V);
  const limit_mA = 2 * Math.max(...voltages_V.map((capacitor_V) => drawnAt(lamp, capacitor_V).supply_mA));
  return voltages_V.flatMap((capacitor_V): Reading[] => [
    {
      what: `current drawn at ${capacitor_V.toFixed(2)} V`,
      how: `capacitor out (step 0); LED on; bench supply in its place, limited to ${Number(limit_mA.toPrecision(1))} mA, 1000 uF across it, ammeter in its lead; voltage read at the driver${LEADS_BACK}`,
      unit: 'mA',
      read: (of) => drawnAt(of.lamp, capacitor_V).supply_mA * of.driverCurrent,
    },
    {
      what: `LED current at ${capacitor_V.toFixed(2)} V`,
      how: '1 ohm in the lead of the LED, millivolts across it are milliamperes, the mean of them',
      unit: 'mA',
      read: (of) => drawnAt(of.lamp, capacitor_V).led_mA * of.driverCurrent,
      tells: ['driver.efficiency', 'driver.rectifier_drop_V'],
    },
  ]);
}

function thresholdReadings(lamp: LampParams, full_V: number): Reading[] {
  const { cutoff_V } = lamp.driver;
  const stops: Reading = {
    what: 'LED goes out at',
    how: 'turn the supply down slowly, LED on',
    unit: 'V',
    read: (of) => of.lamp.driver.cutoff_V * of.driverVoltage,
    tells: ['driver.cutoff_V'],
  };
  return [
    ...(cutoff_V > 0 ? [stops] : []),
    {
      what: 'LED comes back at',
      how: 'turn the supply up again slowly',
      unit: 'V',
      read: (of) => of.lamp.driver.restart_V * of.driverVoltage,
    },
    {
      what: `standby at ${testVoltages_V(lamp, full_V)[1]!.toFixed(2)} V`,
      how: 'LED off (cell in light, or switch off); 1 kohm in the supply lead, millivolts across it are microamperes',
      unit: 'uA',
      read: (of) => of.lamp.driver.standby_A * 1e6,
      tells: ['driver.standby_uA'],
    },
  ];
}

function wholeReadings(lamp: LampParams, full_V: number): Reading[] {
  const { rated_V, lowest_V } = lamp.capacitor;
  const shown = { unit: 'V', most: rated_V };
  const reachable = (light_W_m2: number) => (of: BenchLamp) =>
    steadyReachable_V(of.lamp, light_W_m2 * of.light);
  const near = (expected_V: number) =>
    `filled to ${(Math.floor(20 * Math.min(expected_V, rated_V)) / 20).toFixed(2)} V with a supply, that taken off; wait until the voltage stands still`;
  const again = lowest_V > 0 ? `; fill it again at ${lowest_V.toFixed(2)} V` : '';
  const rest = (hours: number) => (of: BenchLamp) => restingVoltage_V(of.lamp, full_V, HELD_H, hours);
  return [
    {
      what: 'highest voltage it charges to by window light',
      how: `LED off, light as for the cell (${WINDOW_W_M2} W/m2); ${near(steadyReachable_V(lamp, WINDOW_W_M2))}`,
      ...shown,
      read: reachable(WINDOW_W_M2),
    },
    {
      what: 'highest voltage it charges to in full sun',
      how: `LED off, in the sun, everything at ${BENCH_DEG_C} degC; ${near(full_V)}; take it out of the sun at ${rated_V.toFixed(2)} V, its rated voltage, whatever comes`,
      ...shown,
      read: reachable(FULL_SUN_W_M2),
    },
    {
      what: `after one night (${NIGHT_H} h) at rest`,
      how: `held ${HELD_H} h at ${full_V.toFixed(2)} V by a supply, somebody near; then supply off, cell covered, LED off, nothing connected${again}`,
      ...shown,
      read: rest(NIGHT_H),
    },
    {
      what: 'after three days at rest',
      how: 'the same, left alone; a capacitor that falls further leaks',
      ...shown,
      read: rest(72),
      tells: ['capacitor.leakage_uA', 'capacitor.leakage_law', 'capacitor.leakage_e_fold_V'],
    },
  ];
}
