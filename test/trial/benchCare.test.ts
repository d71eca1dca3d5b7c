import { expect, it } from 'vitest';
import { benchVoltages } from '../../sim/lamp/capacitor/step.ts';
import { benchCautions, dischargeOf } from '../../sim/trial/benchCare.ts';
import { idealCapacitor, type LampInput, makeSettled } from '../lamp/makeLamp.ts';
import { libraryLamp } from '../year/days.ts';

function bank(capacitor: LampInput['capacitor']) {
  const { params, settled } = makeSettled({ ...libraryLamp(), capacitor });
  return { params, section: settled.capacitor, discharge: dischargeOf(params, settled.capacitor) };
}

it('a constant capacitance is emptied in R C ln(27) from 2.7 V to 0.1 V, and its energy becomes heat', () => {
  const { discharge } = bank(idealCapacitor(360));
  const { ohm, rated_W, begins_A, begins_W, hours, heat_J } = discharge;
  expect(ohm).toBe(6.8);
  // Straight lines between 300 points.
  expect(hours / ((6.8 * 360 * Math.log(27)) / 3600)).toBeCloseTo(1, 4);
  expect(heat_J).toBeCloseTo(180 * (2.7 ** 2 - 0.1 ** 2), 6);
  expect(begins_A).toBeCloseTo(2.7 / 6.8, 9);
  expect(begins_W).toBeCloseTo(2.7 ** 2 / 6.8, 9);
  // The next common size that is twice what it begins with.
  expect(rated_W).toBe(5);
  expect(discharge.steps.join(' ')).toContain(
    'Put 6.8 ohm, rated 5 W or more, across the capacitor. From 2.70 V to 0.10 V takes about 2.2 h. It begins with 0.4 A and 1.1 W and makes 1300 J of heat: the resistor gets hot',
  );
});

it('after that time the circuit of the model, with its delayed branches, has come to 0.1 V', () => {
  const { params, discharge } = bank(libraryLamp().capacitor);
  const shown = (share: number) =>
    benchVoltages(params.capacitor, {
      start_V: 2.7,
      held_h: 1000,
      load_ohm: discharge.ohm,
      capacitor_degC: 20,
      times_s: [discharge.hours * 3600 * share],
    })[0]!;
  expect(shown(1.001)).toBeLessThan(0.1);
  expect(shown(0.999)).toBeGreaterThan(0.1);
});

it.each([0.07, 1, 50, 360, 3000, 100_000])(
  'the resistor of %s F is safe to hold a bank to',
  (capacitance_F) => {
    for (const series of [1, 2, 6]) {
      const { discharge } = bank({ ...idealCapacitor(capacitance_F), series });
      // The nearest of 12 values a decade lies within 10 percent.
      expect(discharge.begins_A).toBeLessThan(1.1);
      expect(discharge.rated_W).toBeGreaterThanOrEqual(2 * discharge.begins_W);
      expect(discharge.hours).toBeGreaterThan(0);
      if (capacitance_F <= 360) expect(discharge.hours).toBeLessThan(3.4);
      expect(discharge.steps.join(' ')).not.toMatch(/NaN|Infinity|undefined|e\+/);
    }
  },
);

it('before every rewiring: the meter checks, and the resistor stays', () => {
  const { discharge } = bank({ ...idealCapacitor(360), series: 2 });
  expect(discharge.steps.join(' ')).toMatch(
    /across the whole bank.*meter: below 0\.10 V across each part.*Leave the resistor/,
  );
});

it('a lithium hybrid is not emptied: only to a little above its own lowest voltage, resistor off, a fuse', () => {
  const { discharge } = bank({ kind: 'lithium-hybrid', capacitance_F: 250, rated_V: 3.8, leakage_uA: 60 });
  expect(discharge.to_V).toBeCloseTo(2.31, 9);
  const words = discharge.steps.join(' ');
  expect(words).toMatch(
    /Never empty.*below 2\.20 V.*At 2\.31 V on the meter take the resistor off.*stays charged.*fuse/,
  );
  expect(words).not.toContain('Leave the resistor across it while');
});

it('parallel and series banks have their own cautions, one capacitor none of them', () => {
  const words = (some: Partial<LampInput['capacitor']>) => {
    const { params, section } = bank({ ...idealCapacitor(360), ...some });
    return benchCautions(params, section).join(' ');
  };
  expect(words({})).not.toMatch(/in parallel|in series/);
  expect(words({ parallel: 3 })).toContain(
    'Join the 3 in parallel only when each by itself is empty (step 0)',
  );
  expect(words({ series: 2 })).toContain(
    'read each of the 2 parts in series, and take the supply off when one reaches 2.70 V',
  );
  expect(words({ parallel: 2, kind: 'lithium-hybrid', rated_V: 3.8 })).toMatch(
    /only when all stand at the same voltage/,
  );
});

it('supply, meter, venting, LED, children and local rules are named for every bank', () => {
  const { params, section } = bank(libraryLamp().capacitor);
  const words = benchCautions(params, section).join(' ');
  expect(words).toMatch(
    /set before it is connected: its voltage, and 1 A at most \(it fills this bank in about 16 min\)/,
  );
  for (const said of [
    'Stay with it as long as it is connected',
    'leads back to the volt sockets',
    'never above 2.70 V',
    'vents: the fumes harm',
    'open the windows',
    'Do not look into the lit LED from near',
    'Keep children away',
    'licensed practice come first',
    'no rings, eye protection',
  ])
    expect(words).toContain(said);
});

it('a delayed branch that dwarfs its capacitor takes no longer to compute, and no less to empty', () => {
  const branch = { resistance_ohm: 60, capacitance_F: 5590 };
  const { params, section } = bank(idealCapacitor(1));
  const none = { resistance_ohm: 1, capacitance_F: 0 };
  const delayed: [typeof branch, typeof branch] = [branch, none];
  const discharge = dischargeOf(
    { capacitor: { ...params.capacitor, capacitance_F: 0.002, delayed } },
    section,
  );
  expect(discharge.hours).toBeCloseTo((Math.log(27) * (60 + discharge.ohm) * 5590) / 3600, 0);
});
