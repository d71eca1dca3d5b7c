import { describe, expect, it } from 'vitest';
import { jarParams } from '../../../sim/lamp/jar/params.ts';
import { jarSchema } from '../../../sim/lamp/jar/schema.ts';
import { jarTemperatureInto } from '../../../sim/lamp/jar/step.ts';
import { sineDay } from '../../year/days.ts';

const jar = jarParams(jarSchema.parse({ rise_K_full_sun: 20, time_constant_min: 90 }));
const light = Float64Array.from(sineDay(6, 18, 700, 480));
const air = Float64Array.from(light, (_, i) => 8 + 6 * Math.sin((Math.PI * i) / 12));

describe('the air in the jar', () => {
  it('is the hourly mean of a fine-step integration', () => {
    const inside = new Float64Array(480);
    jarTemperatureInto(inside, air, light, jar);
    let temperature = air[0]!;
    const steps = 3600;
    for (let hour = 0; hour < 480; hour++) {
      let sum = 0;
      const steady = air[hour]! + (20 * light[hour]!) / 1000;
      for (let k = 0; k < steps; k++) {
        const next = temperature + ((steady - temperature) * 1) / (90 * 60);
        sum += (temperature + next) / 2;
        temperature = next;
      }
      // Euler with a second: some 1e-3 K. The first days forget their start.
      if (hour > 240) expect(Math.abs(inside[hour]! - sum / steps)).toBeLessThan(5e-3);
    }
  });

  it('begins as it ends, so that a year joins', () => {
    const inside = new Float64Array(480);
    jarTemperatureInto(inside, air, light, jar);
    for (let hour = 0; hour < 24; hour++) expect(inside[hour]).toBeCloseTo(inside[hour + 456]!, 6);
  });

  it('stays where it is held', () => {
    const inside = new Float64Array(480);
    jarTemperatureInto(inside, air, light, jarParams(jarSchema.parse({ fixed_degC: 12.5 })));
    expect(new Set(inside)).toEqual(new Set([12.5]));
  });
});
