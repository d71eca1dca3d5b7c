import { piecewiseLinear, square } from '../../common/numeric.ts';
import type { DriverSection } from './schema.ts';

/** The one value of the scenario that sets how much a driver draws. */
export interface DriverSetting {
  /** Key of the scenario. */
  key: string;
  what: string;
  unit: string;
  value: number;
  /** Digits after the point to which a maker sets it. */
  decimals: number;
}

/** A boost's inductor, and how it is switched. */
export interface Inductor {
  inductance_uH: number;
  frequency_kHz: number;
  duty: number;
}

export type Rounding = (value: number) => number;

/**
 * What a lit driver draws from the capacitor, amperes at volts, and all else that depends on its kind. Made by
 * `driverLaw`, the only place that asks which kind it is; what a kind has nothing to say about stays as it is here.
 */
export abstract class DriverLaw {
  /** What it is, in the words of a parts list. */
  abstract readonly words: string;
  /** undefined for a measured table. */
  readonly setting: DriverSetting | undefined = undefined;
  /** The current goes with the voltage to this power; NaN where with none. */
  readonly exponent: number = Number.NaN;
  readonly inductor: Inductor | undefined = undefined;
  /** From the output down to the LED. */
  readonly rectifier_V: number = 0;
  /** The law above the boundary of discontinuous conduction; undefined where there is no such boundary. */
  readonly limited: DriverLaw | undefined = undefined;

  /**
   * Current drawn, amperes.
   * in: capacitor_V at the driver's terminals, above 0; output_V, LED forward voltage plus rectifier drop (a boost's only)
   */
  abstract current_A(capacitor_V: number, output_V: number): number;

  /** The same driver drawing so many times as much. */
  abstract times(factor: number): DriverLaw;

  /** The keys of the scenario that say how much it draws. */
  abstract keys(rounded: Rounding): Record<string, unknown>;

  /** Capacitor voltage above which its inductor no longer runs empty each cycle (discontinuous conduction ends). */
  dcmBoundary_V(_output_V: number): number {
    return Number.POSITIVE_INFINITY;
  }

  /** Capacitor voltage from which on it conducts straight through into an LED of a forward voltage. */
  conductsFrom_V(_forward_V: number): number {
    return Number.POSITIVE_INFINITY;
  }
}

/**
 * The law of a driver.
 * in: section, as the schema gives it; readings are settled before, a table is there
 */
export function driverLaw(section: DriverSection): DriverLaw {
  switch (section.kind) {
    case 'power':
      return new SteadyLaw('power', section.power_mW);
    case 'current':
      return new SteadyLaw('current', section.current_mA);
    case 'conductance':
      return new SteadyLaw('conductance', section.conductance_mS);
    case 'boost':
      return new BoostLaw(section);
    case 'table':
      return new TableLaw(section.table ?? []);
  }
}

const STEADY = {
  power: { exponent: -1, key: 'power_mW', what: 'power drawn', unit: 'mW', decimals: 1 },
  current: { exponent: 0, key: 'current_mA', what: 'current drawn', unit: 'mA', decimals: 1 },
  conductance: { exponent: 1, key: 'conductance_mS', what: 'current over voltage', unit: 'mS', decimals: 2 },
} as const;

/** Power, current or current over voltage stay the same at every voltage. */
class SteadyLaw extends DriverLaw {
  override readonly words: string;
  override readonly setting: DriverSetting;
  override readonly exponent: number;
  private readonly kind: keyof typeof STEADY;
  /** Watts, amperes or siemens. */
  private readonly size: number;

  constructor(kind: keyof typeof STEADY, value: number) {
    super();
    const { exponent, ...setting } = STEADY[kind];
    this.kind = kind;
    this.words = `constant ${kind}`;
    this.exponent = exponent;
    this.setting = { ...setting, value };
    this.size = value / 1000;
  }

  override current_A(capacitor_V: number): number {
    if (this.exponent === 0) return this.size;
    return this.exponent < 0 ? this.size / capacitor_V : this.size * capacitor_V;
  }

  override times(factor: number): DriverLaw {
    return new SteadyLaw(this.kind, this.setting.value * factor);
  }

  override keys(rounded: Rounding): Record<string, unknown> {
    return { [this.setting.key]: rounded(this.setting.value) };
  }
}

type BoostSection = Pick<
  Extract<DriverSection, { kind: 'boost' }>,
  keyof Inductor | 'rectifier_drop_V' | 'current_limit_mA'
>;

/**
 * An inductor boost in discontinuous conduction: V^2 D^2 / (2 L f) * Vout / (Vout - V) in, exact for an inductor without
 * losses that runs empty each cycle, while V < (1 - D) Vout; above that the stated limit, NaN where none is stated.
 *
 * source: EricksonMaksimovic2001, chapter 5, for the currents of a cycle; with the output held by the LED derived here
 */
class BoostLaw extends DriverLaw {
  override readonly words = 'boost';
  override readonly setting: DriverSetting;
  override readonly inductor: Inductor;
  override readonly rectifier_V: number;
  override readonly limited: DriverLaw;
  private readonly section: BoostSection;
  /** Input power over V^2, before the factor Vout / (Vout - V). */
  private readonly inductor_S: number;

  constructor(section: BoostSection) {
    super();
    const { inductance_uH, frequency_kHz, duty, rectifier_drop_V, current_limit_mA } = section;
    this.section = section;
    this.inductor = { inductance_uH, frequency_kHz, duty };
    this.rectifier_V = rectifier_drop_V;
    this.limited = new SteadyLaw('current', current_limit_mA ?? Number.NaN);
    this.inductor_S = square(duty) / (2 * inductance_uH * 1e-6 * frequency_kHz * 1e3);
    this.setting = {
      key: 'inductance_uH',
      what: 'inductance that draws as much',
      unit: 'uH',
      value: inductance_uH,
      decimals: 0,
    };
  }

  override current_A(capacitor_V: number, output_V: number): number {
    return (this.inductor_S * capacitor_V * output_V) / (output_V - capacitor_V);
  }

  override times(factor: number): DriverLaw {
    const { inductance_uH, current_limit_mA: limit_mA } = this.section;
    const more = { ...this.section, inductance_uH: inductance_uH / factor };
    return new BoostLaw(limit_mA === undefined ? more : { ...more, current_limit_mA: limit_mA * factor });
  }

  override keys(rounded: Rounding): Record<string, unknown> {
    const { inductance_uH, current_limit_mA: limit_mA } = this.section;
    const keys = { inductance_uH: rounded(inductance_uH) };
    return limit_mA === undefined ? keys : { ...keys, current_limit_mA: rounded(limit_mA) };
  }

  override dcmBoundary_V(output_V: number): number {
    return (1 - this.inductor.duty) * output_V;
  }

  override conductsFrom_V(forward_V: number): number {
    return forward_V + this.rectifier_V;
  }
}

type Rows = NonNullable<Extract<DriverSection, { kind: 'table' }>['table']>;

/** Straight lines between measured rows, end values beyond. */
class TableLaw extends DriverLaw {
  override readonly words = 'as measured';
  private readonly rows: Rows;
  private readonly rows_V: readonly number[];
  private readonly rows_A: readonly number[];

  constructor(rows: Rows) {
    super();
    this.rows = rows;
    this.rows_V = rows.map(({ capacitor_V }) => capacitor_V);
    this.rows_A = rows.map(({ current_mA }) => current_mA / 1000);
  }

  override current_A(capacitor_V: number): number {
    return piecewiseLinear(this.rows_V, this.rows_A, capacitor_V);
  }

  override times(factor: number): DriverLaw {
    return new TableLaw(this.rows.map((row) => ({ ...row, current_mA: row.current_mA * factor })));
  }

  override keys(rounded: Rounding): Record<string, unknown> {
    return { table: this.rows.map((row) => ({ ...row, current_mA: rounded(row.current_mA) })) };
  }
}
