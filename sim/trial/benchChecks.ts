import { FULL_SUN_W_M2 } from '../common/constants.ts';
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
/** The series of preferred values with 12 steps a decade. */
const E12 = [1, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2] as const;

/**
 * What to measure at a lamp before its lid is closed, with which load, and what good parts show.
 *
 * in: lamp, as the scenario states or its readings settle it
 * out: checks in the order of the bench: cell, diode, capacitor, driver, the whole lamp
 * valid: bare cell and everything at 20 degC; bands by the tolerances of `toleranceBand`
 * source: IEC62391 (discharge from 0.8 to 0.4 of the rated voltage)
 */
export function benchChecks(lamp: LampParams): BenchCheck[] {
  return benchReadings(lamp).map(({ read, tells: _, ...check }) => ({
    ...check,
    ...toleranceBand(lamp, read),
  }));
}

/** The same before its bounds: what a meter shows of a lamp that is wired and loaded as for this one. */
export function benchReadings(lamp: LampParams): BenchReading[] {
  const full_V = Math.min(steadyReachable_V(lamp, FULL_SUN_W_M2), lamp.capacitor.rated_V);
  const readings: Record<BenchCheck['part'], Reading[]> = {
    cell: cellReadings(lamp),
    diode: diodeReadings(lamp),
    capacitor: [dischargeReading(lamp)],
    driver: [...drawReadings(lamp, full_V), ...thresholdReadings(lamp, full_V)],
    'whole lamp': wholeReadings(lamp, full_V),
  };
  return Object.entries(readings).flatMap(([part, ofPart]) =>
    ofPart.map((reading) => ({ part: part as BenchCheck['part'], ...reading })),
  );
}

function cellReadings(lamp: LampParams): Reading[] {
  const warmer = Math.abs(lamp.cell.voltageTempco_V_per_K * 10 * 1000).toFixed(0);
  const short = (light_W_m2: number) => (of: BenchLamp) =>
    bareCell(of.lamp, light_W_m2 * of.light).solve(0) * 1000;
  const open = (light_W_m2: number) => (of: BenchLamp) =>
    bareCell(of.lamp, light_W_m2 * of.light).openCircuit_V;
  return [
    {
      what: 'short circuit in full sun',
      how: `bare cell square to a clear sun (${FULL_SUN_W_M2} W/m2), ammeter alone across it (10 A range)`,
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
      how: `bright window, no sun on the cell; turn the cell until the ammeter shows ${Number((WINDOW_W_M2 / FULL_SUN_W_M2).toPrecision(1))} of what it showed in full sun: ${WINDOW_W_M2} W/m2`,
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
    const load_ohm = preferred(SUPPLY_V / current_A);
    const mA = ((SUPPLY_V - dropBehind(lamp, SUPPLY_V, load_ohm)) / load_ohm) * 1000;
    return {
      what: `forward drop at ${Number(mA.toPrecision(2))} mA`,
      how: `${SUPPLY_V} V through ${ohms(load_ohm)} into the diode, voltmeter across the diode`,
      unit: 'V',
      read: (of) => dropBehind(of.lamp, SUPPLY_V, load_ohm * of.resistor),
      tells: ['diode.forward_drop', 'diode.ideality'],
    };
  });
}

function dischargeReading({ capacitor }: LampParams): Reading {
  const from_V = Math.min(0.8 * capacitor.rated_V, capacitor.limiter_V);
  const to_V = 0.5 * from_V;
  const whole_F = capacitor.capacitance_F + 0.6 * capacitor.rise_F_V * capacitor.rated_V;
  const load_ohm = preferred(DISCHARGE_S / (whole_F * Math.LN2));
  const load_W = from_V ** 2 / load_ohm;
  return {
    what: `discharge from ${from_V.toFixed(2)} V to ${to_V.toFixed(2)} V`,
    how: `whole bank alone, held half an hour at ${from_V.toFixed(2)} V by a supply with a current limit, then ${ohms(load_ohm)} across it (at least ${Number((2 * load_W).toPrecision(2))} W), stopwatch`,
    unit: 'min',
    read: (of) => dischargeMinutes(of.lamp.capacitor, from_V, to_V, load_ohm * of.resistor),
    tells: ['capacitor.capacitance_F'],
  };
}

function testVoltages_V({ driver }: LampParams, full_V: number): number[] {
  const least_V = driver.cutoff_V + 0.05 + 0.1 * (full_V - driver.cutoff_V);
  return [full_V, (full_V + least_V) / 2, least_V].map((v) => Math.floor(v * 20) / 20);
}

function drawReadings(lamp: LampParams, full_V: number): Reading[] {
  return testVoltages_V(lamp, full_V).flatMap((capacitor_V): Reading[] => [
    {
      what: `current drawn at ${capacitor_V.toFixed(2)} V`,
      how: 'LED on; bench supply in place of the capacitor, 1000 uF across it, ammeter in its lead; voltage read at the driver',
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
  const unit = 'V';
  const reachable = (light_W_m2: number) => (of: BenchLamp) =>
    steadyReachable_V(of.lamp, light_W_m2 * of.light);
  const rest = (hours: number) => (of: BenchLamp) => restingVoltage_V(of.lamp, full_V, HELD_H, hours);
  return [
    {
      what: 'highest voltage it charges to by window light',
      how: `LED off, light as for the cell (${WINDOW_W_M2} W/m2); bring the capacitor near it with a supply, take that off and wait until the voltage stands still`,
      unit,
      read: reachable(WINDOW_W_M2),
    },
    {
      what: 'highest voltage it charges to in full sun',
      how: `the same in the sun, everything at ${BENCH_DEG_C} degC; stop at ${lamp.capacitor.rated_V.toFixed(2)} V, the rated voltage, whatever comes`,
      unit,
      read: reachable(FULL_SUN_W_M2),
    },
    {
      what: `after one night (${NIGHT_H} h) at rest`,
      how: `capacitor held ${HELD_H} h at ${full_V.toFixed(2)} V; then cell covered, LED off, nothing else connected`,
      unit,
      read: rest(NIGHT_H),
    },
    {
      what: 'after three days at rest',
      how: 'the same, left alone; a capacitor that falls further leaks',
      unit,
      read: rest(72),
      tells: ['capacitor.leakage_uA', 'capacitor.leakage_law', 'capacitor.leakage_e_fold_V'],
    },
  ];
}

function preferred(ohm: number): number {
  const decade = 10 ** Math.floor(Math.log10(ohm));
  const near = [...E12, 10].reduce((best, step) =>
    Math.abs(Math.log(ohm / (step * decade))) < Math.abs(Math.log(ohm / (best * decade))) ? step : best,
  );
  return Number((near * decade).toPrecision(2));
}

function ohms(ohm: number): string {
  return ohm >= 1000 ? `${ohm / 1000} kohm` : `${ohm} ohm`;
}
