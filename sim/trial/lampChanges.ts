import { USUAL_LIMITER } from '../lamp/capacitor/usualLimiter.ts';
import { driverLaw } from '../lamp/driver/step.ts';
import { partsList } from '../lamp/partsList.ts';
import type { SettledSection } from '../lamp/schema.ts';
import type { SingleChange, Stated } from './singleChanges.ts';

const LESS = 2 / 3;
const GOOD_SHUNT_V = 1000;

/**
 * The single changes to a lamp's parts, in the order of their effort.
 *
 * in: stated, the trial as the scenario states it
 */
export function lampChanges(stated: Stated): SingleChange[] {
  const { lamp } = stated;
  return [
    ...drawChanges(lamp),
    ...rewiredCells(lamp),
    another(lamp, 'capacitor', 'capacitor'),
    another(lamp, 'cell', 'solar cell'),
    ...betterCell(lamp),
    ...higherVoltage(lamp),
  ].map(({ part, ...change }) => ({ ...change, stated: { ...stated, lamp: { ...lamp, ...part } } }));
}

interface LampChange extends Omit<SingleChange, 'stated'> {
  /** The part as it then is. */
  part: Partial<SettledSection>;
}

/** A third less for the LED, and half as much again: by the inductor, the limit, or the driver's setting. */
function drawChanges(lamp: SettledSection): LampChange[] {
  const changed = (keys: Record<string, unknown>) => ({
    driver: { ...lamp.driver, ...keys } as SettledSection['driver'],
  });
  return [LESS, 1 / LESS].flatMap((factor): LampChange[] => {
    const law = driverLaw(lamp.driver);
    const other = law.times(factor);
    const tentative = factor > 1;
    const change = `${factor < 1 ? 'less' : 'more'} current for the LED`;
    if (law.setting === undefined || other.setting === undefined) {
      const detail = `${factor < 1 ? 'two thirds' : 'one and a half times'} of the current at every capacitor voltage`;
      return [{ change, detail, cost: 0, tentative, part: changed(other.keys((value) => value)) }];
    }
    const { key, unit, value, decimals } = law.setting;
    const shown = other.setting.value.toFixed(decimals);
    const detail = `${shown} ${unit} instead of ${value} ${unit}`;
    if (!law.inductor)
      return [{ change, detail, cost: 0, tentative, part: changed({ [key]: other.setting.value }) }];
    // An inductor is bought in whole microhenries, and the limit of the driver stays: above the boundary it decides.
    const size = factor < 1 ? 'larger' : 'smaller';
    const inductor = {
      change: `a ${size} inductor`,
      detail,
      tentative,
      part: changed({ [key]: Number(shown) }),
    };
    const limit_mA = 'current_limit_mA' in lamp.driver ? lamp.driver.current_limit_mA : undefined;
    if (limit_mA === undefined) return [inductor];
    const limited_mA = Number((limit_mA * factor).toPrecision(3));
    return [
      inductor,
      {
        change: `a ${factor < 1 ? 'lower' : 'higher'} current limit`,
        detail: `${limited_mA} mA instead of ${limit_mA} mA`,
        cost: 0,
        tentative,
        part: changed({ current_limit_mA: limited_mA }),
      },
    ];
  });
}

/** The same cells soldered otherwise: half of them in series, or half of them beside. */
function rewiredCells({ cell }: SettledSection): LampChange[] {
  const { parallel, series } = cell;
  const words = (side: number, row: number) => `${row} in series, ${side} such side by side`;
  const rewired = (change: string, side: number, row: number) => ({
    change,
    detail: `${words(side, row)}, instead of ${words(parallel, series)}`,
    cost: 0,
    part: { cell: { ...cell, parallel: side, series: row } },
  });
  return [
    ...(parallel % 2 === 0 ? [rewired('cells in pairs in series', parallel / 2, series * 2)] : []),
    ...(series % 2 === 0 ? [rewired('cells in pairs side by side', parallel * 2, series / 2)] : []),
  ];
}

/** One more of a part in parallel. */
function another(lamp: SettledSection, part: 'capacitor' | 'cell', name: string): LampChange {
  const bank = lamp[part];
  const parallel = bank.parallel + 1;
  const costOf = (changed: SettledSection) => partsList(changed).find((line) => line.part === part)?.cost;
  const [before, after] = [costOf(lamp), costOf({ ...lamp, [part]: { ...bank, parallel } })];
  return {
    change: `${nth(parallel)} ${name} in parallel`,
    detail: `${parallel} instead of ${bank.parallel}`,
    cost: before === undefined || after === undefined ? undefined : after - before,
    part: { [part]: { ...bank, parallel } },
  };
}

function nth(count: number): string {
  return count === 2 ? 'a second' : count === 3 ? 'a third' : 'one more';
}

function times(price: number | undefined, count: number): number | undefined {
  return price === undefined ? undefined : price * count;
}

function betterCell({ cell }: SettledSection): LampChange[] {
  if (cell.raw !== undefined || cell.low_light_point !== undefined || cell.shunt_V >= GOOD_SHUNT_V) return [];
  return [
    {
      change: 'a solar cell that is good in dim light',
      detail: `shunt ${GOOD_SHUNT_V} V instead of ${cell.shunt_V} V`,
      cost: times(cell.price, cell.series * cell.parallel),
      part: { cell: { ...cell, shunt_V: GOOD_SHUNT_V } },
    },
  ];
}

/** How far below the LED's first glow a limiter holds a capacitor behind a boost. */
const BELOW_LED_V = 0.1;

/**
 * A cell of the same area cut into one junction more: more volts, fewer milliamperes. A capacitor that had no limiter
 * gets one, or most would stand above their rating.
 */
function higherVoltage({ cell, capacitor, driver, led }: SettledSection): LampChange[] {
  const { raw, open_circuit_V, short_circuit_mA, cells_in_series: junctions } = cell;
  if (raw !== undefined || open_circuit_V === undefined || short_circuit_mA === undefined) return [];
  const up = (junctions + 1) / junctions;
  const scaled = (value: number | undefined, factor: number) =>
    value === undefined ? undefined : Number((value * factor).toPrecision(4));
  const { low_light_point: dim } = cell;
  const higher = {
    ...cell,
    cells_in_series: junctions + 1,
    open_circuit_V: scaled(open_circuit_V, up),
    best_voltage_V: scaled(cell.best_voltage_V, up),
    short_circuit_mA: scaled(short_circuit_mA, 1 / up),
    best_current_mA: scaled(cell.best_current_mA, 1 / up),
    shunt_V: cell.shunt_V * up,
    ...(dim && { low_light_point: { ...dim, open_circuit_V: scaled(dim.open_circuit_V, up)! } }),
  };
  const rated_V = capacitor.rated_V * capacitor.series;
  const forward_V =
    (led.raw?.forward_V ?? led.table?.[0]?.forward_V ?? Number.POSITIVE_INFINITY) * led.in_series;
  const held_V = Math.min(rated_V, driverLaw(driver).conductsFrom_V(forward_V) - BELOW_LED_V);
  const at_V = Math.floor(held_V * 100) / 100;
  const limited = capacitor.limiter === undefined;
  const limiter = { at_V, ...USUAL_LIMITER };
  const cells = times(cell.price, cell.series * cell.parallel);
  const values = `${higher.open_circuit_V} V and ${higher.short_circuit_mA} mA instead of ${open_circuit_V} V and ${short_circuit_mA} mA`;
  return [
    {
      change: 'a solar cell of higher voltage',
      detail: `${values}, the same area${limited ? `, with a limiter at ${at_V} V` : ''}`,
      cost: cells === undefined ? undefined : cells + (limited ? limiter.price : 0),
      part: {
        cell: higher,
        ...(limited && { capacitor: { ...capacitor, limiter } }),
      },
    },
  ];
}
