import { median } from 'd3-array';
import { expect, it } from 'vitest';
import { agedLamp, NEW } from '../../sim/ageing/agedLamp.ts';
import { capacitanceAt, capacitorReadings, readingAt } from '../../sim/ageing/capacitorReadings.ts';
import { randomStream } from '../../sim/common/random.ts';
import { lightOfHours } from '../../sim/spot/lightOfHours.ts';
import { runTrial } from '../../sim/trial/runTrial.ts';
import { demoTrial } from './demoTrial.ts';

const { lamp, light, terms } = await demoTrial('lawn', 'single');
const { best, atDusk_V, mostTelling } = capacitorReadings(lamp, light, terms);

it('the voltage at dusk of a clear day hardly knows the capacitance, that of the morning after does', () => {
  expect(Math.abs(atDusk_V)).toBeLessThan(0.03);
  expect(best).toMatchObject({ at: 'dawn', sinceDusk: false });
  const [fresh, , worn] = best!.steps;
  expect(fresh!.volts - worn!.volts).toBeGreaterThan(10 * Math.abs(atDusk_V));
  expect(mostTelling).toBeGreaterThan(5);
});

/** Dawns of a lamp with some of its capacitance after the brightest third of a month's days, from the whole year. */
function dawns_V(capacitance: number, month: string): number[] {
  const aged = agedLamp(lamp.params, { ...NEW, capacitor: { ...NEW.capacitor, capacitance } });
  return runTrial(aged, light, terms)
    .nights.filter(({ night }) => night.slice(5, 7) === month)
    .sort((one, other) => other.lightOnCell_Wh_m2 - one.lightOnCell_Wh_m2)
    .slice(0, 10)
    .map(({ capacitorDawn_V }) => capacitorDawn_V);
}

it('what a reading is said to be comes out of a whole year too', () => {
  const month = String(best!.month).padStart(2, '0');
  // Its resistance and leakage have not grown here: those move the reading by a few millivolts.
  for (const capacitance of [1, 0.7])
    expect(median(dawns_V(capacitance, month))! - readingAt(best!.steps, capacitance)).toBeLessThan(0.01);
});

it('a capacitance between the steps is read off within what the card promises, nine times in ten', () => {
  const random = randomStream(7, 'readings of a plain meter');
  const month = String(best!.month).padStart(2, '0');
  const cases = [0.93, 0.78, 0.62].flatMap((capacitance) =>
    dawns_V(capacitance, month).map((volts) => {
      const read_V = volts * (1 + 0.0025 * random.normal()) + 0.0025 * random.normal();
      return 100 * Math.abs(capacitanceAt(best!.steps, read_V) - capacitance) <= best!.sinceNew_percent;
    }),
  );
  expect(cases.filter((within) => within).length).toBeGreaterThanOrEqual(0.9 * cases.length);
});

it('other causes are weighed in percent of the capacitance: the draw counts, dirt and a poorer LED do not', () => {
  const percent = (words: string) => best!.causes.find(({ what }) => what.includes(words))!.asIfLost_percent;
  expect(percent('draws 10 percent more')).toBeGreaterThan(5);
  expect(percent('draws 10 percent more')).toBeLessThan(12);
  expect(Math.abs(percent('15 percent less light'))).toBeLessThan(1);
  expect(percent('a third less light')).toBe(0);
  expect(percent('dull day')).toBeGreaterThan(percent('sun and cloud'));
  expect(best!.alone_percent).toBeGreaterThan(best!.sinceNew_percent);
});

it('steps are read both ways, and beyond their ends', () => {
  for (const share of [1.1, 0.9, 0.7, 0.55, 0.4])
    expect(capacitanceAt(best!.steps, readingAt(best!.steps, share))).toBeCloseTo(share, 12);
  expect(capacitanceAt(best!.steps, 0)).toBe(0);
});

it('a lamp that draws next to nothing of its capacitor has no reading that tells, and it says so', () => {
  const idle = agedLamp(lamp.params, { ...NEW, capacitor: { ...NEW.capacitor, capacitance: 200 } });
  const found = capacitorReadings({ ...lamp, params: idle }, light, terms);
  expect(found.best).toBeUndefined();
  expect(found.mostTelling).toBeLessThan(2);
});

it('a record that holds no evenings before the dark weeks gives none', () => {
  const spring = lightOfHours(light, 24 * 60, 24 * 120, terms.site);
  const found = capacitorReadings(lamp, spring, { ...terms, start: 'lead-in' });
  expect(found.best).toBeUndefined();
  expect(found.mostTelling).toBeNaN();
});
