import { beforeAll, describe, expect, it } from 'vitest';
import { lifeEnd } from '../../sim/ageing/lifeEnd.ts';
import { apart, type OldGarden, oldGarden } from './oldGarden.ts';

let garden: OldGarden;
beforeAll(async () => {
  garden = await oldGarden('scenarios/invented-garden.yaml');
});

describe('the life of a lamp', () => {
  it('is the same to a night and a hundredth of the capacitance, whether every winter is run or as many as are needed', () => {
    const terms = { years: 14, law: 0 } as const;
    const { life } = garden.life('north-side', 'double', terms);
    const { life: exact } = garden.life('north-side', 'double', { ...terms, exact: true });
    const { capacitance, nights } = apart(life, exact);
    expect(capacitance).toBeLessThan(0.001);
    expect(nights).toBeLessThanOrEqual(1);
    expect(life.breaks).toBe(exact.breaks);
    expect(exact.winters.some(({ between }) => between)).toBe(false);
    expect(life.winters.filter(({ between }) => between).length).toBeGreaterThan(2);
    expect(life.firstWear).toBe(exact.firstWear);
  });

  it('of one winter is that of a new lamp', () => {
    const { life } = garden.life('lawn', 'double', { years: 1 });
    expect(life.winters).toHaveLength(1);
    expect(life.winters[0]).toMatchObject({
      winter: 1,
      failedNights: 0,
      broken: 0,
      age: { led: 1, cell: 1 },
    });
    expect(life.breaks).toBeUndefined();
  });

  it('goes on for a thousand winters, long after all is dark', () => {
    const { life } = garden.life('lawn', 'single', { years: 1000 });
    const last = life.winters.at(-1)!;
    expect(last.winter).toBe(1000);
    expect(last.failedNights).toBe(last.nights);
    expect(life.winters.every(({ light_lm_h }) => Number.isFinite(light_lm_h))).toBe(true);
    expect(life.winters.filter(({ between }) => !between).length).toBeLessThan(120);
  });

  it('dims sooner under a lid that is never cleaned', () => {
    const { life: cleaned } = garden.life('lawn', 'double', { years: 10, law: 2 });
    const { life: dirty } = garden.life('lawn', 'double', { years: 10, law: 2, cleaned: false });
    expect(dirty.winters[9]!.age.cover).toBeLessThan(0.95 * cleaned.winters[9]!.age.cover);
    expect(dirty.winters[9]!.failedNights).toBeGreaterThan(cleaned.winters[9]!.failedNights);
  });
});

describe('what ends a life', () => {
  it('is the part that keeps the promise longest when made new', () => {
    const { run, life, worn } = garden.life('lawn', 'double', { years: 16 });
    const end = lifeEnd(run, life, worn)!;
    expect(end).toMatchObject({ winter: life.breaks, by: 'capacitor', together: false });
    expect(end.withNew[0]).toMatchObject({ part: 'capacitor', failedNights: 0, keeps: true });
    const longest = end.withNew[0]!.breaks ?? Number.POSITIVE_INFINITY;
    for (const { breaks } of end.withNew) expect(longest).toBeGreaterThanOrEqual(breaks ?? 1000);
  });

  it('is none of a lamp that breaks its promise when new, nor of one that keeps it', () => {
    const broken = garden.life('lawn', 'single', { years: 2 });
    expect(lifeEnd(broken.run, broken.life, broken.worn)).toMatchObject({
      winter: 1,
      withNew: [],
      by: undefined,
    });
    const kept = garden.life('lawn', 'double', { years: 2 });
    expect(lifeEnd(kept.run, kept.life, kept.worn)).toBeUndefined();
  });
});
