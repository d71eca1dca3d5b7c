import { describe, expect, it } from 'vitest';
import { lampPrice, partsList, unpriced } from '../../sim/lamp/partsList.ts';
import { type LampSection, lampSchema } from '../../sim/lamp/schema.ts';
import { type LampInput, makeSettled, RAW_CELL, RAW_DIODE, RAW_LED } from './makeLamp.ts';

const PRICED: LampInput = {
  cell: { ...RAW_CELL, part: 'window-cell', price: 2.5, parallel: 2, series: 2, pack: 5, in_drawer: 3 },
  diode: { ...RAW_DIODE, price: 0.25 },
  capacitor: { raw: { capacitance_F: 100 }, rated_V: 2.7, price: 1, price_per_F: 0.02, parallel: 2 },
  driver: {
    kind: 'boost',
    inductance_uH: 680,
    frequency_kHz: 9,
    duty: 0.2,
    current_limit_mA: 30,
    price: 1.5,
  },
  led: { ...RAW_LED, price: 0.5, count: 3 },
  jar: { price: 2 },
  schedule: { on: 'dusk', hours: 6 },
};
const lamp = (changes: Partial<LampInput> = {}): LampSection => lampSchema.parse({ ...PRICED, ...changes });
const capacitor = (keys: object) => lamp({ capacitor: { ...PRICED.capacitor, ...keys } });

describe('the parts of a lamp', () => {
  it('are counted, named and priced one by one, with what is at hand', () => {
    expect(partsList(lamp())).toEqual([
      {
        part: 'cell',
        name: 'solar cells, window-cell',
        count: 4,
        price: 2.5,
        pack: 5,
        in_drawer: 3,
        cost: 2.5,
      },
      { part: 'diode', name: 'blocking diode', count: 1, price: 0.25, cost: 0.25 },
      { part: 'capacitor', name: 'supercapacitors', count: 2, price: 3, cost: 6 },
      { part: 'driver', name: 'driver', count: 1, price: 1.5, cost: 1.5 },
      { part: 'inductor', name: 'inductor (priced with the driver)', count: 1, cost: 0, included: true },
      { part: 'led', name: 'LEDs', count: 3, price: 0.5, cost: 1.5 },
      { part: 'jar', name: 'jar', count: 1, price: 2, cost: 2 },
    ]);
  });

  it('add up to what has to be bought', () => {
    expect(lampPrice(lamp())).toBeCloseTo(2.5 + 0.25 + 6 + 1.5 + 1.5 + 2, 12);
    expect(lampPrice(lamp({ jar: {} }))).toBeCloseTo(11.75, 12);
    expect(unpriced(lamp({ jar: {} }))).toEqual([]);
  });

  it('of two lamps come out of one drawer', () => {
    expect(lampPrice(lamp(), 2)).toBeCloseTo(2.5 * 5 + 2 * (0.25 + 6 + 1.5 + 1.5 + 2), 12);
    expect(lampPrice(lamp({ jar: {} }), 2)).toBeCloseTo(2.5 * 5 + 2 * 9.25, 12);
    expect(lampPrice(lamp({ diode: { ...RAW_DIODE, in_drawer: 1 } }), 2)).toBeUndefined();
  });

  it('have a limiter of their own price, and resistors that come with the capacitors', () => {
    const bare = lampPrice(lamp())!;
    expect(lampPrice(capacitor({ limiter: { at_V: 2.6 } }))! - bare).toBeCloseTo(1, 12);
    expect(lampPrice(capacitor({ limiter: { at_V: 2.6, price: 0.4 } }))! - bare).toBeCloseTo(0.4, 12);
    expect(lampPrice(capacitor({ limiter: { at_V: 2.6, in_drawer: 1 } }))! - bare).toBeCloseTo(0, 12);
    expect(lampPrice(capacitor({ balancing_kohm: 10 }))).toBeCloseTo(bare, 12);
    expect(partsList(capacitor({ balancing_kohm: 10 })).map(({ part }) => part)).toContain('balancing');
  });

  it('cost by the farad what they were bought for, whatever their readings say', () => {
    const { raw: _, ...sheet } = PRICED.capacitor;
    const bought = { ...sheet, capacitance_F: 100, leakage_uA: 100 };
    const discharge = [
      {
        resistor_ohm: 10,
        points: [
          { seconds: 0, voltage_V: 2.16 },
          { seconds: 500, voltage_V: 1.08 },
        ],
      },
    ];
    const { settled } = makeSettled({ ...PRICED, capacitor: { ...bought, readings: { discharge } } });
    expect(settled.capacitor.capacitance_F).toBeLessThan(90);
    expect(lampPrice(settled)).toBeCloseTo(lampPrice(lamp({ capacitor: bought }))!, 12);
  });

  it('without a price have none together, and are named, unless all of them are at hand', () => {
    const { price: _, ...cell } = PRICED.cell;
    expect(lampPrice(lamp({ cell }))).toBeUndefined();
    expect(unpriced(lamp({ cell }))).toEqual(['solar cells, window-cell']);
    expect(lampPrice(lamp({ cell: { ...cell, in_drawer: 4 } }))).toBeCloseTo(11.25, 12);
    expect(unpriced(capacitor({ price: undefined, price_per_F: undefined }))).toEqual(['supercapacitors']);
  });
});
