import { driverLaw } from '../lamp/driver/step.ts';
import type { PromiseSection } from '../lamp/schedule/schema.ts';
import type { SettledSection } from '../lamp/schema.ts';
import type { SpotSection } from '../spot/schema.ts';
import type { Site } from '../sun/Site.ts';

/** A trial as the scenario states it: what a single change alters one part of. */
export interface Stated {
  lamp: SettledSection;
  spot: SpotSection;
  promise: PromiseSection;
}

/** A change and what is stated with it. */
export interface SingleChange {
  change: string;
  detail: string;
  /** 0 where nothing is bought; undefined where a price is not given. */
  cost?: number | undefined;
  stated: Stated;
}

/**
 * The single changes that a maker would try on a lamp that fails, those that apply to it, in the order of their effort.
 *
 * in: stated, the trial as the scenario states it; site
 * out: at most 12
 */
export function singleChanges(stated: Stated, site: Site): SingleChange[] {
  const changes = [
    cleanerLid(stated),
    shorterPromise(stated),
    smallerDraw(stated),
    tiltedCell(stated, site),
    ...trimmedObstacles(stated),
    another(stated, 'capacitor', 'capacitor'),
    another(stated, 'cell', 'solar cell'),
    betterCell(stated),
  ];
  return changes.filter((change) => change !== undefined).slice(0, 12);
}

function withLamp(stated: Stated, lamp: Partial<SettledSection>): Stated {
  return { ...stated, lamp: { ...stated.lamp, ...lamp } };
}

function cleanerLid(stated: Stated): SingleChange | undefined {
  const cover = stated.spot.cover;
  if (!('dirt_loss' in cover) || cover.dirt_loss === 0) return undefined;
  return {
    change: 'a clean lid',
    detail: `dirt takes 0 instead of ${Math.round(cover.dirt_loss * 100)} percent of the light`,
    cost: 0,
    stated: { ...stated, spot: { ...stated.spot, cover: { ...cover, dirt_loss: 0 } } },
  };
}

/** A third less promised and scheduled time; six hours where it was until dawn. */
function shorterPromise(stated: Stated): SingleChange | undefined {
  const { promise, lamp } = stated;
  const { until: _promisedUntil, ...promised } = promise;
  const { until: _litUntil, before_dawn_h: _morning, ...schedule } = lamp.schedule;
  if (promise.hours === undefined && promise.until !== 'dawn' && promise.until !== undefined)
    return undefined;
  const hours = promise.hours === undefined ? 6 : Math.round(promise.hours * (2 / 3) * 2) / 2;
  if (hours < 1) return undefined;
  const before = promise.hours === undefined ? 'until dawn' : `${promise.hours} h`;
  return {
    change: 'a shorter evening',
    detail: `promise and schedule of ${hours} h instead of ${before}`,
    cost: 0,
    stated: {
      ...stated,
      promise: { ...promised, hours },
      lamp: { ...lamp, schedule: { ...schedule, hours } },
    },
  };
}

const SMALLER_DRAW = 2 / 3;

/** A third less drawn: a larger inductor, or a smaller setting of the driver. */
function smallerDraw(stated: Stated): SingleChange {
  const { driver } = stated.lamp;
  const law = driverLaw(driver);
  const less = law.times(SMALLER_DRAW);
  const changed = (keys: Record<string, unknown>) =>
    withLamp(stated, { driver: { ...driver, ...keys } as SettledSection['driver'] });
  if (law.setting === undefined || less.setting === undefined) {
    return {
      change: 'a smaller setting',
      detail: 'two thirds of the current at every capacitor voltage',
      cost: 0,
      stated: changed(less.keys((value) => value)),
    };
  }
  const { key, unit, decimals } = law.setting;
  const shown = less.setting.value.toFixed(decimals);
  const detail = `${shown} ${unit} instead of ${law.setting.value} ${unit}`;
  // An inductor is bought in whole microhenries, and the limit of the driver stays.
  if (law.inductor) return { change: 'a larger inductor', detail, stated: changed({ [key]: Number(shown) }) };
  return { change: 'a smaller setting', detail, cost: 0, stated: changed({ [key]: less.setting.value }) };
}

const STEEP_deg = 60;

/** The cell tilted towards the low winter sun. */
function tiltedCell({ spot, ...stated }: Stated, site: Site): SingleChange | undefined {
  if (spot.light_on_cell !== undefined || spot.cell_tilt_deg >= STEEP_deg - 15) return undefined;
  const [side, cell_bearing_deg] =
    site.latitude_deg < 0 ? (['north', 0] as const) : (['south', 180] as const);
  return {
    change: `tilt the cell ${STEEP_deg} degrees to the ${side}`,
    detail: `${STEEP_deg} instead of ${spot.cell_tilt_deg} degrees from flat`,
    cost: 0,
    stated: { ...stated, spot: { ...spot, cell_tilt_deg: STEEP_deg, cell_bearing_deg } },
  };
}

/** Every hedge and tree cut back by a third, one after the other. */
function trimmedObstacles(stated: Stated): SingleChange[] {
  const { spot } = stated;
  return Object.entries(spot.obstacles ?? {}).flatMap(([name, obstacle]) => {
    if (obstacle.kind !== 'hedge') return [];
    const height_m = Math.round(obstacle.height_m * (2 / 3) * 10) / 10;
    return [
      {
        change: `${name} trimmed`,
        detail: `${height_m} m high instead of ${obstacle.height_m} m`,
        cost: 0,
        stated: {
          ...stated,
          spot: { ...spot, obstacles: { ...spot.obstacles, [name]: { ...obstacle, height_m } } },
        },
      },
    ];
  });
}

function nth(count: number): string {
  return count === 2 ? 'a second' : count === 3 ? 'a third' : 'one more';
}

function times(price: number | undefined, count: number): number | undefined {
  return price === undefined ? undefined : price * count;
}

/** One more of a part in parallel. */
function another(stated: Stated, part: 'capacitor' | 'cell', name: string): SingleChange {
  const bank = stated.lamp[part];
  const parallel = bank.parallel + 1;
  return {
    change: `${nth(parallel)} ${name} in parallel`,
    detail: `${parallel} instead of ${bank.parallel}`,
    cost: times(bank.price, bank.series),
    stated: withLamp(stated, { [part]: { ...bank, parallel } }),
  };
}

const GOOD_SHUNT_V = 1000;

function betterCell(stated: Stated): SingleChange | undefined {
  const { cell } = stated.lamp;
  if (cell.raw !== undefined || cell.low_light_point !== undefined || cell.shunt_V >= GOOD_SHUNT_V)
    return undefined;
  return {
    change: 'a solar cell that is good in dim light',
    detail: `shunt ${GOOD_SHUNT_V} V instead of ${cell.shunt_V} V, all else equal`,
    cost: times(cell.price, cell.series * cell.parallel),
    stated: withLamp(stated, { cell: { ...cell, shunt_V: GOOD_SHUNT_V } }),
  };
}
