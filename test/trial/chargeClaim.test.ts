import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { bisect } from '../../sim/common/numeric.ts';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import { chargeClaim } from '../../sim/trial/chargeClaim.ts';
import { nightsFrom, smallNight } from '../output/smallRun.ts';

const file = fileURLToPath(new URL('../../scenarios/raw-parameters.yaml', import.meta.url));
const [raw] = loadScenario(file, 'raw-parameters.yaml').lamps;
const lamp = raw!.params;

/** Energy above the cut-off of 0.9 V in 360 F: C V^2 / 2. */
const energy_J = (volts: number) => 180 * (volts ** 2 - 0.9 ** 2);

/** From a year of evenings in which the capacitor stands at a voltage by month. */
const claimOf = (volts: (month: number) => number, southern = false) => {
  const nights = nightsFrom('2025-01-01', 365, (night) =>
    smallNight(night, { capacitorDusk_V: volts(Number(night.slice(5, 7))) }),
  );
  return chargeClaim(lamp, nights, southern);
};

describe('chargeClaim', () => {
  it('takes for full what the circuit, written out by hand, comes to rest at in full sun', () => {
    // Cell of 0.5 A, 1 nA, 4 junctions of ideality 1.2, 400 ohm across and 0.3 ohm in line; diode of 1 uA, ideality
    // 1.05, 0.05 ohm; 3.9 kiloohm across the capacitor; 25 degC (kT/q from memory: 25.693 mV).
    const thermal_V = 0.025693;
    const surplus_A = (capacitor_V: number) => {
      const drain_A = capacitor_V / 3900;
      const diode_V = 1.05 * thermal_V * Math.log(drain_A / 1e-6 + 1) + 0.05 * drain_A;
      const junction_V = capacitor_V + diode_V + 0.3 * drain_A;
      return 0.5 - 1e-9 * Math.expm1(junction_V / (1.2 * 4 * thermal_V)) - junction_V / 400 - drain_A;
    };
    const full_V = bisect(surplus_A, 0.1, 3)!;
    const claim = claimOf(() => 1);
    // The thermal voltage above is rounded to 1e-5.
    expect(claim.full_V).toBeCloseTo(full_V, 4);
    expect(claim.full_J).toBeCloseTo(energy_J(claim.full_V), 6);
    // 360 F from 0.9 V, at little less than the photocurrent.
    const fill_h = (360 * (full_V - 0.9)) / 0.5 / 3600;
    expect(claim.fill_h).toBeGreaterThan(fill_h);
    expect(claim.fill_h).toBeLessThan(1.02 * fill_h);
  });

  it('counts an evening as full from 90 percent of the full energy on', () => {
    const { full_J } = claimOf(() => 1);
    const volts = (share: number) => Math.sqrt((share * full_J) / 180 + 0.9 ** 2);
    expect(claimOf(() => volts(0.901)).year).toMatchObject({ evenings: 365, full: 365 });
    expect(claimOf(() => volts(0.899)).year).toMatchObject({ evenings: 365, full: 0 });
    expect(claimOf(() => volts(0.5)).winter.medianShare).toBeCloseTo(0.5, 9);
  });

  it('holds in part where some dark months are full, and by the months of the hemisphere', () => {
    const [full, low] = [2.3, 1.2];
    expect(claimOf(() => full)).toMatchObject({ inWinter: 'holds', monthsHeld: 12, monthsKnown: 12 });
    expect(claimOf((month) => (month === 2 ? full : low))).toMatchObject({
      inWinter: 'in-part',
      monthsHeld: 1,
      winter: { evenings: 90, full: 28 },
    });
    const summerOnly = (month: number) => (month >= 4 && month <= 9 ? full : low);
    expect(claimOf(summerOnly)).toMatchObject({ inWinter: 'fails', monthsHeld: 6 });
    expect(claimOf(summerOnly, true)).toMatchObject({ inWinter: 'holds', winter: { evenings: 92 } });
  });

  it('leaves out nights held in part, and knows nothing where there is no winter', () => {
    const nights = nightsFrom('2025-05-01', 4, (night) => smallNight(night, { capacitorDusk_V: 2.3 }));
    const claim = chargeClaim(lamp, [...nights, smallNight('2025-05-05', { complete: false })], false);
    expect(claim.year).toMatchObject({ evenings: 4, full: 4 });
    expect(claim).toMatchObject({ inWinter: 'unknown', monthsKnown: 1, monthsHeld: 1 });
    expect(claim.winter.medianShare).toBeNaN();
  });
});
