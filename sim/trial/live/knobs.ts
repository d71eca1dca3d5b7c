import { preferredNumbers } from '../../common/preferredNumbers.ts';
import { driverLaw } from '../../lamp/driver/step.ts';
import type { PromiseSection, ScheduleSection } from '../../lamp/schedule/schema.ts';
import type { SettledSection } from '../../lamp/schema.ts';
import type { Knob, Knobs, LiveSpot } from './LiveRun.ts';

/** A trial whose values may be turned. */
interface KnobSetting {
  lamp: SettledSection;
  spot: Pick<LiveSpot, 'section' | 'snowFalls'>;
  promise: PromiseSection;
}

/** What may be turned, or why not. */
type Offer = Knob | { label: string; why: string };

/**
 * What a maker may turn of a trial, in the order of the scenario: parts that are bought in steps of preferred numbers.
 *
 * in: setting, the trial as the scenario states it
 */
export function knobsOf(setting: KnobSetting): Knobs {
  const offers = [...lampOffers(setting), ...promiseOffers(setting), ...spotOffers(setting)];
  const knobs: Knob[] = [];
  const fixed: { label: string; why: string }[] = [];
  for (const offer of offers) {
    if ('why' in offer) fixed.push(offer);
    else knobs.push(offer);
  }
  return { knobs, fixed };
}

function lampOffers({ lamp, promise }: KnobSetting): Offer[] {
  const { capacitor, cell, schedule } = lamp;
  return [
    capacitanceKnob(capacitor),
    countKnob('capacitor.parallel', 'capacitors in parallel', capacitor.parallel),
    countKnob('cell.parallel', 'cells in parallel', cell.parallel),
    driverKnob(lamp),
    ...(schedule.hours === undefined || isLitAsPromised(schedule, promise)
      ? []
      : [hoursKnob('lamp', 'schedule.hours', 'hours lit', schedule.hours)]),
  ];
}

function capacitanceKnob({ raw, capacitance_F }: SettledSection['capacitor']): Knob {
  const known = { of: 'lamp', label: 'capacitance of one part', unit: 'F' } as const;
  return raw === undefined
    ? { ...known, key: 'capacitor.capacitance_F', ...bought('E12', capacitance_F!) }
    : { ...known, key: 'capacitor.raw.capacitance_F', ...bought('E12', raw.capacitance_F) };
}

const MOST_PARTS = 1000;

function countKnob(key: string, label: string, value: number): Knob {
  const most = Math.min(MOST_PARTS, Math.max(8, 2 * value));
  const steps = Array.from({ length: most }, (_, i) => i + 1);
  return { key, of: 'lamp', label, unit: '', value, steps, whole: true };
}

function driverKnob({ driver }: SettledSection): Offer {
  const { setting, inductor } = driverLaw(driver);
  if (setting === undefined)
    return {
      label: 'current for the LED',
      why: 'the driver is a measured table, which no single value moves',
    };
  const { key, what, unit, value } = setting;
  const series = inductor === undefined ? 'E24' : 'E12';
  const label = inductor === undefined ? what : 'inductance';
  return { key: `driver.${key}`, of: 'lamp', label, unit, ...bought(series, value) };
}

function promiseOffers({ lamp, promise }: KnobSetting): Offer[] {
  const note = isLitAsPromised(lamp.schedule, promise) ? 'the lamp is lit as long as promised' : undefined;
  const evening: Knob =
    promise.hours === undefined
      ? {
          key: 'until',
          of: 'promise',
          label: 'promised until',
          unit: '',
          value: promise.until!,
          steps: untilSteps(promise.until!),
          note,
        }
      : { ...hoursKnob('promise', 'hours', 'promised hours', promise.hours), note };
  return [
    evening,
    {
      key: 'least_lumen',
      of: 'promise',
      label: 'least light',
      unit: 'lm',
      ...bought('E24', promise.least_lumen),
    },
  ];
}

/** Whether a lamp is lit for just the time that is promised: then both are turned as one. */
export function isLitAsPromised(schedule: ScheduleSection, promise: PromiseSection): boolean {
  return schedule.on === promise.from && schedule.hours === promise.hours && schedule.until === promise.until;
}

function hoursKnob(of: Knob['of'], key: string, label: string, value: number): Knob {
  return { key, of, label, unit: 'h', value, steps: evenly(0.5, 16, 0.5, value) };
}

/** Every half hour of the evening and the night, and dawn. */
function untilSteps(value: string): string[] {
  const clocks = Array.from({ length: 28 }, (_, i) => {
    const minutes = (17 * 60 + 30 * i) % (24 * 60);
    return `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`;
  });
  const steps = [...clocks, 'dawn'];
  return steps.includes(value) ? steps : [value, ...steps];
}

function spotOffers({ spot: { section, snowFalls } }: KnobSetting): Offer[] {
  if (section.light_on_cell !== undefined) {
    const why = 'the light was logged on the cell itself, and holds only as it lay there';
    return [
      { label: 'tilt of the cell', why },
      { label: 'share of the light', why },
    ];
  }
  const tilt: Knob = {
    key: 'cell_tilt_deg',
    of: 'spot',
    label: 'tilt of the cell',
    unit: 'deg',
    value: section.cell_tilt_deg,
    steps: evenly(0, 90, 5, section.cell_tilt_deg),
  };
  const share: Offer =
    section.shading?.file === undefined
      ? {
          key: 'shading.factor',
          of: 'spot',
          label: 'share of the light',
          unit: '',
          value: section.shading?.factor ?? 1,
          steps: evenly(0, 1, 0.05, section.shading?.factor ?? 1),
        }
      : { label: 'share of the light', why: 'it comes by the hour from a file' };
  const onLid = section.snow?.on_lid ?? true;
  const snow: Offer[] = snowFalls
    ? [
        {
          key: 'snow.on_lid',
          of: 'spot',
          label: 'snow stays on the lid',
          unit: '',
          value: onLid,
          steps: [true, false],
        },
      ]
    : [];
  return [tilt, share, ...snow];
}

/** A value, and preferred numbers from a tenth of it to ten times as much. */
function bought(series: Parameters<typeof preferredNumbers>[0], value: number) {
  const steps = preferredNumbers(series, value / 10, value * 10);
  return { value, steps: withValue(steps, value) };
}

/** Even steps, both ends and a value among them. */
function evenly(from: number, to: number, step: number, value: number): number[] {
  const count = Math.round((to - from) / step);
  const steps = Array.from({ length: count + 1 }, (_, i) => Number((from + i * step).toPrecision(12)));
  return withValue(steps, value);
}

function withValue(steps: readonly number[], value: number): number[] {
  return [...new Set([...steps, value])].sort((a, b) => a - b);
}
