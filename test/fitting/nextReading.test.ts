import { expect, it } from 'vitest';
import { nextReading } from '../../sim/fitting/nextReading.ts';
import { lampSchema } from '../../sim/lamp/schema.ts';
import { type LampInput, makeSettled } from '../lamp/makeLamp.ts';
import { libraryLamp } from '../year/days.ts';

/** What is to be read next of a capacitor that was only left at rest. */
function nextOf(capacitor: Partial<LampInput['capacitor']>, from_V: number) {
  const readings = { rest: { from_V, after: [{ hours: 168, voltage_V: from_V - 0.1 }] } };
  const input = { ...libraryLamp(), capacitor: { ...libraryLamp().capacitor, ...capacitor, readings } };
  return nextReading('capacitor', lampSchema.parse(input), makeSettled(input).fits)!.read;
}

it('no reading that is advised brings a lithium hybrid below its lowest voltage', () => {
  expect(nextOf({}, 2.5)).toMatch(/discharge .* from 2\.16 to 1\.08 V$/);
  const hybrid = { kind: 'lithium-hybrid', rated_V: 3.8, leakage_uA: 60 } as const;
  expect(nextOf(hybrid, 3.6)).toMatch(/discharge .* from 3\.04 to 2\.31 V$/);
});
