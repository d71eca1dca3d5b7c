import { PARTS } from '../../sim/scenario/parts.ts';
import type { LampInput } from '../lamp/makeLamp.ts';

/** A day of light by the hour from midnight: a half sine between two hours. */
export function sineDay(from_h: number, to_h: number, peak_W_m2: number, hours = 24): number[] {
  return Array.from({ length: hours }, (_, i) => {
    const middle = (i % 24) + 0.5;
    if (middle <= from_h || middle >= to_h) return 0;
    return peak_W_m2 * Math.sin((Math.PI * (middle - from_h)) / (to_h - from_h));
  });
}

/** The library's parts as one lamp, temperature and delayed branches on. */
export function libraryLamp(changes: Partial<LampInput> = {}): LampInput {
  return {
    cell: PARTS.cell['small-cell']!.values,
    diode: PARTS.diode['small-schottky']!.values,
    capacitor: PARTS.capacitor['medium-capacitor']!.values,
    driver: PARTS.driver['inductor-driver']!.values,
    led: PARTS.led['white-led']!.values,
    schedule: { on: 'dusk', hours: 8 },
    ...changes,
  };
}
