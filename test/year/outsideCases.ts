import type { LampParams } from '../../sim/lamp/params.ts';
import { PARTS } from '../../sim/scenario/parts.ts';
import { type LampInput, makeLamp } from '../lamp/makeLamp.ts';
import type { Trip } from './besideOutside.ts';
import { libraryLamp } from './days.ts';
import { DEMO, demoStretch } from './demoStretch.ts';

/** The demo's lamp of one cell with something changed. */
interface Change {
  name: string;
  lamp: Partial<LampInput>;
  /** Of the promise; the demo's unless stated. */
  least_lumen?: number;
  floor_V?: number;
  /** Share of the energy that may be missing; 1e-4 unless stated. */
  energyGap?: number;
}

const capacitor = (capacitance_F: number, ohm: number, more: object = {}) => ({
  capacitance_F,
  rated_V: 2.7,
  esr_mohm: 1000 * ohm,
  leakage_uA: 2 * capacitance_F,
  leakage_rest_h: 72,
  ...more,
});
const BOOST = {
  kind: 'boost',
  frequency_kHz: 9,
  current_limit_mA: 30,
  efficiency: 0.9,
} as const;
const CELL = PARTS.cell['small-cell']!.values;
const cutoff = { cutoff_V: 0.9, restart_V: 1.1 };
const THIRSTY = {
  kind: 'power',
  power_mW: 25,
  cutoff_V: 1.2,
  restart_V: 1.5,
  standby_uA: 12_000,
  below_cutoff_uA: 500,
} as const;

const CHANGES: readonly Change[] = [
  { name: '5 F and 0.1 ohm', lamp: { capacitor: capacitor(5, 0.1) }, floor_V: 6e-6 },
  { name: '5 F and 1 ohm', lamp: { capacitor: capacitor(5, 1) }, floor_V: 6e-6 },
  { name: '20 F and 0.1 ohm', lamp: { capacitor: capacitor(20, 0.1) } },
  { name: '20 F and 1 ohm', lamp: { capacitor: capacitor(20, 1) } },
  { name: '360 F and 1 ohm', lamp: { capacitor: capacitor(360, 1) } },
  {
    name: 'a soft limiter',
    lamp: { capacitor: capacitor(360, 0.007, { limiter: { at_V: 1.9, slope_ohm: 5 } }) },
  },
  {
    name: 'a stiff limiter',
    lamp: { capacitor: capacitor(360, 0.007, { limiter: { at_V: 1.9, slope_ohm: 0.1 } }) },
  },
  {
    name: 'a stiff limiter on 20 F',
    lamp: { capacitor: capacitor(20, 0.1, { limiter: { at_V: 1.9, slope_ohm: 0.1 } }) },
  },
  { name: 'an ideal-diode switch', lamp: { diode: { switch_on_ohm: 0.1 } } },
  {
    name: 'an ideal-diode switch on 20 F and 1 ohm',
    lamp: { diode: { switch_on_ohm: 0.1 }, capacitor: capacitor(20, 1) },
  },
  { name: 'constant power', lamp: { driver: { kind: 'power', power_mW: 25, ...cutoff } } },
  { name: 'constant current', lamp: { driver: { kind: 'current', current_mA: 15, ...cutoff } } },
  {
    name: 'a conductance that fades',
    lamp: { driver: { kind: 'conductance', conductance_mS: 8, ...cutoff } },
    least_lumen: 2.5,
  },
  {
    name: 'a boost that never meets its limit',
    lamp: { driver: { ...BOOST, ...cutoff, duty: 0.1, inductance_uH: 170 } },
  },
  {
    name: 'a boost whose limit lies far below its formula',
    lamp: { driver: { ...BOOST, ...cutoff, duty: 0.4, inductance_uH: 2700, current_limit_mA: 12 } },
  },
  {
    // Where the terminals would sink below the boundary under the limit and rise above it under the formula, the outside
    // holds them at it; the loop goes on with the formula for the 1 mV of capacitor that this lasts.
    name: 'a boost whose limit lies above its formula, 0.1 ohm',
    floor_V: 2e-4,
    lamp: {
      driver: { ...BOOST, ...cutoff, duty: 0.4, inductance_uH: 2700, current_limit_mA: 25 },
      capacitor: capacitor(360, 0.1),
    },
  },
  {
    name: 'a driver by a coarse table',
    lamp: {
      driver: {
        kind: 'table',
        table: [
          { capacitor_V: 0.9, current_mA: 8 },
          { capacitor_V: 1.3, current_mA: 12 },
          { capacitor_V: 1.8, current_mA: 20 },
          { capacitor_V: 2.4, current_mA: 26 },
        ],
        ...cutoff,
      },
    },
  },
  { name: 'a lamp lit by day', lamp: { schedule: { on: '09:00', hours: 12 } } },
  {
    name: 'a lamp lit by day, 20 F and 1 ohm',
    lamp: { schedule: { on: '09:00', hours: 12 }, capacitor: capacitor(20, 1) },
  },
  // Sinks below its cut-off at rest, by night and by day, and comes back above its restart by day.
  { name: 'a thirsty standby', lamp: { driver: THIRSTY } },
  {
    name: 'a thirsty standby, by a cut-off that watches while lit',
    lamp: { driver: { ...THIRSTY, cutoff_watches: 'while-lit' } },
  },
  {
    name: 'a thirsty standby on 180 F and 0.5 ohm, that starts again with the dusk',
    lamp: {
      driver: { ...THIRSTY, restart_needs: 'dusk' },
      capacitor: capacitor(180, 0.5),
      schedule: { on: '19:00', hours: 6 },
    },
  },
  {
    name: 'a lamp that flashes',
    lamp: { schedule: { on: 'dusk', until: 'dawn', on_share: 0.7 } },
    least_lumen: 2.5,
  },
  {
    name: 'a lamp that waits for motion, dimmed late',
    lamp: {
      driver: { kind: 'conductance', conductance_mS: 12, ...cutoff },
      schedule: {
        on: 'dusk',
        until: 'dawn',
        motion: { triggers_per_h: 3, shines_s: 600 },
        dim: [{ after_h: 7.3, light_share: 0.5 }],
      },
    },
    least_lumen: 4,
  },
  { name: 'four cells in parallel', lamp: { cell: { ...CELL, parallel: 4 } } },
  // Its lit hours of 0.25 V are taken in one step: the delayed branches of all other lamps shorten those.
  {
    name: 'no delayed branches',
    lamp: { capacitor: capacitor(360, 0.007, { delayed_share: 0 }) },
    energyGap: 2e-4,
  },
  {
    name: 'large delayed branches',
    lamp: { capacitor: capacitor(360, 0.007, { delayed_share: 0.25, delayed_hours: 1, leakage_uA: 2000 }) },
  },
];

/** Days of the demo's year, in December, at the end of February and in June, and what the capacitor begins them with. */
const STRETCHES = [
  { firstDay: 344, start_V: 1.2 },
  { firstDay: 55, start_V: 1.5 },
  { firstDay: 165, start_V: 2.2 },
] as const;

/** A lamp in the demo's garden, through some days of each season. */
export interface OutsideCase {
  name: string;
  /** What no tolerance takes away, volts rms, where the law itself is read otherwise; only tables' digits unless stated. */
  floor_V?: number;
  energyGap?: number;
  trips: (days: number) => Trip[];
}

function trips(spot: string, lamp: () => LampParams, least_lumen = DEMO.promise.least_lumen) {
  return (days: number): Trip[] => {
    const params = lamp();
    return STRETCHES.map(({ firstDay, start_V }) => ({
      lamp: params,
      light: demoStretch(spot, firstDay, days),
      options: {
        timeZone: DEMO.site.timeZone,
        promise: { ...DEMO.promise, least_lumen },
        start: { capacitor_V: start_V },
      },
    }));
  };
}

const demoTrials = DEMO.spots.flatMap(({ name: spot }) =>
  DEMO.lamps.map(({ name, params }) => ({ name: `${name} on ${spot}`, trips: trips(spot, () => params) })),
);

const common = { jar: PARTS.jar['small-jar']!.values, schedule: { on: 'dusk', hours: 6 } };

/** The demo's trials, and its lamp of one cell with other parts, each kind of them. */
export const OUTSIDE_CASES: readonly OutsideCase[] = [
  ...demoTrials,
  ...CHANGES.map(({ name, lamp, least_lumen, floor_V, energyGap }) => ({
    name,
    ...(floor_V === undefined ? {} : { floor_V }),
    ...(energyGap === undefined ? {} : { energyGap }),
    trips: trips('lawn', () => makeLamp(libraryLamp({ ...common, ...lamp })), least_lumen),
  })),
];
