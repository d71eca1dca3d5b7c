import { describe, expect, it } from 'vitest';
import { coverCurve } from '../../../sim/spot/cover/coverCurve.ts';
import { coverTransmittance } from '../../../sim/spot/cover/coverTransmittance.ts';

const LID = { kind: 'flat' as const, refractiveIndex: 1.526, absorption_per_m: 10, thickness_m: 0.0025 };

describe('coverCurve', () => {
  it('stays within 0.0005 of the equations at every angle', () => {
    const curve = coverCurve(LID, 10);
    for (let angle_deg = 0; angle_deg <= 90; angle_deg += 0.13) {
      const exact = coverTransmittance(angle_deg, LID).transmittance;
      expect(
        Math.abs(curve.beam(Math.cos((angle_deg * Math.PI) / 180), 90 - angle_deg) - exact),
      ).toBeLessThan(5e-4);
    }
  });

  it('passes everything where there is no cover', () => {
    const { beam, sky, ground } = coverCurve('none', 30);
    expect([beam(0.01, 1), beam(1, 60), sky, ground]).toEqual([1, 1, 1, 1]);
  });

  it('conserves light: passed, thrown back and absorbed make 1 at every angle', () => {
    for (let angle_deg = 0; angle_deg < 90; angle_deg += 1.7) {
      const { transmittance, reflectance, absorptance } = coverTransmittance(angle_deg, LID);
      expect(transmittance + reflectance + absorptance).toBeCloseTo(1, 12);
    }
  });

  it('gives the sky on a flat lid what an exact integral over the sky gives, within 2 percent', () => {
    let sum = 0;
    for (let k = 0; k < 9000; k++) {
      const angle = ((k + 0.5) * Math.PI) / 18000;
      const passed = coverTransmittance((angle * 180) / Math.PI, LID).transmittance;
      sum += passed * Math.sin(2 * angle) * (Math.PI / 18000);
    }
    // The published angle is a fit over many covers.
    expect(Math.abs(coverCurve(LID, 0).sky / sum - 1)).toBeLessThan(0.02);
  });
});
