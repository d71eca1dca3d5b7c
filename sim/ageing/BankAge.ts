import type { CapacitorChange } from '../lamp/capacitor/params.ts';
import type { CapacitorSection } from '../lamp/capacitor/schema.ts';
import { type CapacitorStress, wearUnder } from './CapacitorStress.ts';
import { capacitorAge, type LifeLaw, type LifeRating, lifeRating } from './capacitorWear.ts';

/** Of parts of one kind the weakest has so much less; common practice, no source: sold as -10 to +20 percent. */
const SPREAD = 0.1;

/** Whether the parts of a bank share its voltage by themselves, so that the weakest stands highest. */
export function isUneven({ series, balancing_kohm }: CapacitorSection): boolean {
  return series > 1 && balancing_kohm === undefined;
}

/**
 * How a bank ages. Parts in series without balancing share the voltage by their charge: the weakest stands higher, ages
 * faster and stands higher still. Balancing resistors keep all alike.
 *
 * departs: one weak part among equal ones; the leakage, which over weeks of rest sets the shares anew, is left out
 */
export class BankAge {
  private readonly rating: LifeRating;
  private readonly law: LifeLaw;
  private readonly series: number;
  private readonly uneven: boolean;
  /** Shares of the rated life, of the weakest part and of the others. */
  private weak = 0;
  private others = 0;

  constructor(section: CapacitorSection, law: LifeLaw) {
    this.rating = lifeRating(section);
    this.law = law;
    this.series = section.series;
    this.uneven = isUneven(section);
  }

  copy(): BankAge {
    const copy: BankAge = Object.create(BankAge.prototype);
    return Object.assign(copy, this);
  }

  /** A year of a stress that lasts some years. */
  spend(stress: CapacitorStress, years = 1): void {
    const { rating, law, series } = this;
    const weak = this.weakShare();
    const others = this.uneven ? (1 - weak) / (series - 1) : weak;
    this.weak += wearUnder(stress, rating, law, weak) / years;
    this.others = this.uneven ? this.others + wearUnder(stress, rating, law, others) / years : this.weak;
  }

  /** Share of the bank's voltage that the weakest part holds. */
  weakShare(): number {
    if (!this.uneven) return 1 / this.series;
    const [weak, other] = this.capacitances();
    return 1 / weak / (1 / weak + (this.series - 1) / other);
  }

  /** Share of the rated life that the weakest part has spent. */
  wear(): number {
    return this.weak;
  }

  /** The bank against a new one. */
  age(): CapacitorChange {
    const { rating, series } = this;
    const mean = (of: keyof CapacitorChange) => {
      const weak = capacitorAge(rating, this.weak)[of];
      return (weak + (series - 1) * capacitorAge(rating, this.others)[of]) / series;
    };
    const [weak, other] = this.capacitances();
    const [newWeak, newOther] = this.uneven ? [1 - SPREAD, 1] : [1, 1];
    const inRow = (one: number, rest: number) => 1 / (1 / one + (series - 1) / rest);
    return {
      capacitance: inRow(weak, other) / inRow(newWeak, newOther),
      resistance: mean('resistance'),
      leakage: mean('leakage'),
    };
  }

  /** Capacitance of the weakest part and of each of the others, against what is printed on them. */
  private capacitances(): [number, number] {
    const { capacitance: weak } = capacitorAge(this.rating, this.weak);
    const { capacitance: other } = capacitorAge(this.rating, this.others);
    return this.uneven ? [(1 - SPREAD) * weak, other] : [weak, weak];
  }
}
