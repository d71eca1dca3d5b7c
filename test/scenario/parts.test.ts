import { describe, expect, it } from 'vitest';
import type { Report } from '../../sim/common/InputProblem.ts';
import { capacitorParams } from '../../sim/lamp/capacitor/params.ts';
import { cellParams } from '../../sim/lamp/cell/params.ts';
import { diodeParams } from '../../sim/lamp/diode/params.ts';
import { driverParams } from '../../sim/lamp/driver/params.ts';
import { ledParams } from '../../sim/lamp/led/params.ts';
import { lampSchema } from '../../sim/lamp/schema.ts';
import { LAMP_PARTS, PARTS, type Part } from '../../sim/scenario/parts.ts';

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

  it('holds two cells', () => {
    expect(Object.keys(PARTS.cell)).toHaveLength(2);
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
