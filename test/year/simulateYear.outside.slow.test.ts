import { describe, expect, it } from 'vitest';
import { gapOf, loop, outside, type Trip, together } from './besideOutside.ts';
import { DEMO, demoLight } from './demoStretch.ts';
import { OUTSIDE_CASES } from './outsideCases.ts';

const YEARS = DEMO.spots.flatMap(({ name: spot }) =>
  DEMO.lamps.map(({ name, params }) => ({ name: `${name} on ${spot}`, spot, params })),
);

describe.each(YEARS)('a year of $name, beside an outside integration', ({ spot, params }) => {
  it('holds the capacitor to 0.5 mV rms and 3 mV, lit time to 0.01 percent, every verdict, and closes', () => {
    const trip: Trip = {
      lamp: params,
      light: demoLight(spot),
      options: { timeZone: DEMO.site.timeZone, promise: DEMO.promise, start: { capacitor_V: 1.5 } },
    };
    const year = loop(trip);
    const gap = together([gapOf(year, outside(trip))]);
    expect(1e3 * gap.rms_V).toBeLessThan(0.5);
    expect(gap.litShare).toBeLessThan(1e-4);
    expect(gap.night_s).toBeLessThan(30);
    expect(gap.judgedOtherwise).toBe(0);
    expect(year.energyResidual).toBeLessThan(1e-4);
    expect(1e3 * gap.most_V).toBeLessThan(3);
  });
});

describe.each(OUTSIDE_CASES)('ten days a season of $name', ({ trips }) => {
  it('are as near', () => {
    const gap = together(trips(10).map((trip) => gapOf(loop(trip), outside(trip))));
    expect(1e3 * gap.rms_V).toBeLessThan(0.5);
    expect(gap.litShare).toBeLessThan(1e-4);
    expect(gap.night_s).toBeLessThan(30);
    expect(gap.judgedOtherwise).toBe(0);
    expect(1e3 * gap.most_V).toBeLessThan(3);
  });
});
