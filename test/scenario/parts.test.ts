import { describe, expect, it } from 'vitest';
import type { Report } from '../../sim/common/InputProblem.ts';
import { capacitorParams } from '../../sim/lamp/capacitor/params.ts';
import { cellParams } from '../../sim/lamp/cell/params.ts';
import { diodeParams } from '../../sim/lamp/diode/params.ts';
import { driverParams } from '../../sim/lamp/driver/params.ts';
import { ledParams } from '../../sim/lamp/led/params.ts';
import { capacitorPrice, lampPrice, unpriced } from '../../sim/lamp/partsList.ts';
import { lampSchema } from '../../sim/lamp/schema.ts';
import { LAMP_PARTS, PARTS, type Part } from '../../sim/scenario/parts.ts';
import { changed, load, SOUND } from './writeScenario.ts';

const report: Report = ({ path, got, expected }) => {
  throw new Error(`${path.join('.')}: ${got}, expected ${expected}`);
};
const { cell, diode, capacitor, driver, led, jar } = lampSchema.shape;
const MADE = {
  cell: (values: object) => cellParams(cell.parse(values), report),
  diode: (values: object) => diodeParams(diode.parse(values), report),
  capacitor: (values: object) => capacitorParams(capacitor.parse(values), report),
  driver: (values: object) => driverParams(driver.parse(values), report),
  led: (values: object) => ledParams(led.parse(values), report),
  jar: (values: object) => jar.parse(values),
};

describe('the parts library', () => {
  it.each(LAMP_PARTS)('holds at least one %s, each whole in itself', (kind) => {
    const parts: Part<object>[] = Object.values(PARTS[kind]);
    expect(parts.length).toBeGreaterThan(0);
    for (const { values } of parts) expect(MADE[kind](values)).toBeDefined();
  });

  it('holds a poor and a good sibling of what matters', () => {
    for (const kind of ['cell', 'diode', 'capacitor', 'driver', 'led'] as const) {
      const names = Object.keys(PARTS[kind]);
      expect(names).toHaveLength(3);
      expect(names.slice(1)).toEqual([`poor-${kind}`, `good-${kind}`]);
    }
  });

  it.each(LAMP_PARTS)('says of every %s what its values may be, with it whole at either end', (kind) => {
    for (const { values, spans } of Object.values(PARTS[kind]) as Part<Record<string, unknown>>[]) {
      expect(spans.length).toBeGreaterThan(0);
      for (const { poor, good } of spans) {
        expect(Object.keys(good)).toEqual(Object.keys(poor));
        expect(Object.keys(poor).filter((key) => !(key in values))).toEqual([]);
        for (const end of [poor, good]) expect(MADE[kind]({ ...values, ...end })).toBeDefined();
      }
    }
  });

  it('puts siblings at the ends of what a part may be, reaching back to its middle', () => {
    const [middle, poor, good] = ['white-led', 'poor-led', 'good-led'].map((name) => PARTS.led[name]!);
    const [span] = middle!.spans;
    const values = (part: typeof middle) => {
      const { price, life, ...others } = part!.values;
      expect(price).toBeGreaterThan(0);
      expect(life).toEqual({ hours: 20_000, at_mA: 20 });
      return others;
    };
    expect(values(poor)).toEqual(span!.poor);
    expect(values(good)).toEqual(span!.good);
    expect(poor!.spans).toEqual([{ poor: span!.poor, good: values(middle) }]);
    expect(good!.spans).toEqual([{ poor: values(middle), good: span!.good }]);
  });

  it('has a small boost driver give 70 to 80 percent from 1.2 V and 80 to 88 from 2 V, from memory', () => {
    const { efficiency } = PARTS.driver['inductor-driver']!.values;
    const at = (capacitor_V: number) =>
      (efficiency as { capacitor_V: number; efficiency: number }[]).find(
        (row) => row.capacitor_V === capacitor_V,
      )!.efficiency;
    expect(at(1.2)).toBeGreaterThan(0.7);
    expect(at(1.2)).toBeLessThan(0.8);
    expect(at(2)).toBeGreaterThan(0.8);
    expect(at(2)).toBeLessThan(0.88);
  });

  it('says of every part that it is generic, and whence its values are', () => {
    for (const shelf of Object.values(PARTS) as Record<string, Part<object>>[]) {
      for (const { note } of Object.values(shelf)) expect(note).toMatch(/^generic.*(from memory|invented)$/);
    }
  });

  it('has a white LED that is best near 5 to 6 mA, as such LEDs are: common practice, no source', () => {
    const rows = PARTS.led['white-led']!.values.table!;
    const best = rows.reduce((one, other) => (other.efficacy_lm_W > one.efficacy_lm_W ? other : one));
    expect(best.current_mA).toBe(5);
    expect(best.efficacy_lm_W).toBeLessThanOrEqual(220);
  });
});

describe('prices of the library', () => {
  const GENERIC = /^prices of generic parts: .* in euros or dollars, from memory \[single\]$/;
  const section = (text: string) => load(text).lamps[0]!.section;

  it('make every lamp of its parts priced, and say so in one sentence', () => {
    expect(lampPrice(section(SOUND))).toBeCloseTo(3 + 0.3 + (2 + 360 * 0.016) + 1.5 + 0.3, 9);
    expect(load(SOUND).assumptions.filter((sentence) => GENERIC.test(sentence))).toHaveLength(1);
  });

  it('follow the farads, and give way to a price beside the part', () => {
    const capacitor = (keys: string) =>
      section(changed(['part: medium-capacitor', `part: medium-capacitor, ${keys}`])).capacitor;
    expect(capacitorPrice(capacitor('capacitance_F: 100'))).toBeCloseTo(3.6, 9);
    expect(capacitorPrice(capacitor('price: 4'))).toBe(4);
    expect(capacitorPrice(capacitor('price_per_F: 0.01'))).toBeCloseTo(3.6, 9);
  });

  it('are not there where money is of another size, nor spoken of where none is used', () => {
    const inCrowns = load(`currency: SEK\n${SOUND}`);
    expect(unpriced(inCrowns.lamps[0]!.section)).toHaveLength(5);
    expect(inCrowns.assumptions.filter((sentence) => GENERIC.test(sentence))).toEqual([]);
    expect(unpriced(load(`currency: EUR\n${SOUND}`).lamps[0]!.section)).toEqual([]);
  });
});
