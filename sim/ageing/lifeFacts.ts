import { power } from '../common/elementary/power.ts';
import type { LifeLaw, LifeRating } from './capacitorWear.ts';
import type { LampLife } from './lampLife.ts';
import type { LifeFact } from './ScenarioLives.ts';

/**
 * What a published factor says of the facts of the trade; reported, never tuned.
 *
 * in: life, by that law; rating, of the lamp's capacitor; law
 * source: common practice, no source
 */
export function lifeFacts(
  { firstWear, firstWearAtRated }: LampLife,
  rating: LifeRating,
  law: LifeLaw,
): LifeFact[] {
  const halfVolt = power(law.perTenthVolt, 5);
  const percent = Math.round(100 * (1 - rating.capacitanceLeft));
  const [atRated, inService] = [1 / firstWearAtRated, 1 / firstWear];
  return [
    {
      says: 'from 2.7 to 2.2 V a capacitor lives a bit more than twice as long',
      law: law.name,
      holds: halfVolt >= 2 && halfVolt < 3,
      value: `${Number(halfVolt.toPrecision(2))} times`,
    },
    {
      says: `at its rated voltage, as warm as in this spot, about ten years to ${percent} percent less`,
      law: law.name,
      holds: atRated >= 7 && atRated <= 14,
      value: years(atRated),
    },
    {
      says: `20 to 50 years in service, to ${percent} percent less`,
      law: law.name,
      holds: inService >= 20 && inService <= 50,
      value: years(inService),
    },
  ];
}

function years(count: number): string {
  return `${count < 10 ? count.toFixed(1) : Number(count.toPrecision(2))} years`;
}
