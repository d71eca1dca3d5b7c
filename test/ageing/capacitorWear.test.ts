import { describe, expect, it } from 'vitest';
import { BankAge } from '../../sim/ageing/BankAge.ts';
import { beyondRating_h, wearUnder } from '../../sim/ageing/CapacitorStress.ts';
import { capacitorAge, LIFE_LAWS, lifeRating, wearRate_per_h } from '../../sim/ageing/capacitorWear.ts';
import { capacitorSchema } from '../../sim/lamp/capacitor/schema.ts';

const section = capacitorSchema.parse({
  capacitance_F: 360,
  rated_V: 2.7,
  life: { hours: 1000, at_degC: 65, capacitance_left: 0.7 },
});
const rating = lifeRating(section);
const [low, middle, high] = LIFE_LAWS;

/** A year of one voltage and one temperature. */
const constant = (volts: number, degC: number, hours = 8760) => ({
  bank_V: new Float64Array(hours).fill(volts),
  degC: new Float64Array(hours).fill(degC),
});

describe('wear of a capacitor', () => {
  it.each(LIFE_LAWS)('is the rating at the rated voltage and temperature, by the law $name', (law) => {
    const wear = wearUnder(constant(2.7, 65, 1000), rating, law, 1);
    expect(wear).toBeCloseTo(1, 9);
    expect(capacitorAge(rating, wear).capacitance).toBeCloseTo(0.7, 9);
    expect(capacitorAge(rating, wear).resistance).toBeCloseTo(2, 9);
  });

  // Multipliers of life from 65 degC and 2.7 V to 20 degC and 2.4 V, worked by hand from the published factors.
  it.each([
    [low, 49.7],
    [middle, 64],
    [high, 181],
  ])('goes by the published factors ($0.name)', (law, times) => {
    const rate = wearRate_per_h(rating, law!, 2.4, 20);
    expect(Math.abs(1 / (rate * 1000) / times - 1)).toBeLessThan(1e-3);
    const product = 2 ** 4.5 * law!.perTenthVolt ** 3;
    expect(1 / (rate * 1000)).toBeCloseTo(product, 6);
  });

  it('of a voltage that rises within an hour is the integral of the law', () => {
    const stress = { bank_V: Float64Array.of(2.5, 2.2, 2.2), degC: Float64Array.of(30, 20, 10) };
    let sum = 0;
    const steps = 20_000;
    for (const [from, to, degC] of [
      [2.2, 2.5, 30],
      [2.5, 2.2, 20],
      [2.2, 2.2, 10],
    ] as const)
      for (let k = 0; k < steps; k++)
        sum += wearRate_per_h(rating, high!, from + ((to - from) * (k + 0.5)) / steps, degC) / steps;
    expect(wearUnder(stress, rating, high!, 1) / sum).toBeCloseTo(1, 8);
  });

  it('doubles the life with each ten kelvin less, whatever the voltage', () => {
    const warm = wearUnder(constant(2.3, 35), rating, low!, 1);
    const cool = wearUnder(constant(2.3, 25), rating, low!, 1);
    expect(warm / cool).toBeCloseTo(2, 9);
  });

  it('counts the hours that its rating does not cover', () => {
    const stress = { bank_V: Float64Array.of(2.8, 2.7, 2), degC: Float64Array.of(20, 20, 70) };
    expect(beyondRating_h(stress, rating, 1)).toBe(2);
  });

  it('rests on a usual rating where none is stated', () => {
    const bare = capacitorSchema.parse({ capacitance_F: 360, rated_V: 2.5 });
    expect(lifeRating(bare)).toMatchObject({ hours: 1000, at_V: 2.5, at_degC: 65, capacitanceLeft: 0.7 });
  });
});

describe('a bank that ages', () => {
  const years = (bank: BankAge, volts: number, count: number) => {
    for (let year = 0; year < count; year++) bank.spend(constant(volts, 25));
    return bank;
  };

  it('is a single part where parts are in parallel', () => {
    const one = years(new BankAge(section, middle!), 2.3, 10);
    const three = years(new BankAge({ ...section, parallel: 3 }, middle!), 2.3, 10);
    expect(three.age()).toEqual(one.age());
    expect(one.age().capacitance).toBeCloseTo(capacitorAge(rating, one.wear()).capacitance, 12);
  });

  it('of two in series with balancing ages as one at half the voltage', () => {
    const two = years(new BankAge({ ...section, series: 2, balancing_kohm: 10 }, middle!), 4.6, 10);
    const one = years(new BankAge(section, middle!), 2.3, 10);
    expect(two.weakShare()).toBe(0.5);
    expect(two.age().capacitance).toBeCloseTo(one.age().capacitance, 12);
  });

  it.each(LIFE_LAWS)(
    'of two in series whose weakest runs away stays one that can be run, by the law $name',
    (law) => {
      const age = years(new BankAge({ ...section, series: 2 }, law), 5, 60).age();
      expect(age.capacitance).toBeGreaterThanOrEqual(0.01);
      expect(age.capacitance).toBeLessThan(0.05);
      expect(age.resistance).toBeLessThanOrEqual(1000);
      expect(age.leakage).toBeLessThanOrEqual(1000);
    },
  );

  it('of two in series without it leaves the weakest ever higher, and is worse for it', () => {
    const uneven = new BankAge({ ...section, series: 2 }, middle!);
    const first = uneven.weakShare();
    expect(first).toBeCloseTo(1 / 1.9, 12);
    expect(uneven.age().capacitance).toBeCloseTo(1, 12);
    years(uneven, 4.6, 10);
    expect(uneven.weakShare()).toBeGreaterThan(first);
    const even = years(new BankAge({ ...section, series: 2, balancing_kohm: 10 }, middle!), 4.6, 10);
    expect(uneven.age().capacitance).toBeLessThan(even.age().capacitance);
    expect(uneven.wear()).toBeGreaterThan(even.wear());
  });
});
