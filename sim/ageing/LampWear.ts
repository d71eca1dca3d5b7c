import { power } from '../common/elementary/power.ts';
import type { LampSection } from '../lamp/schema.ts';
import type { CoverSection } from '../spot/cover/schema.ts';
import type { LampAge } from './agedLamp.ts';
import { BankAge } from './BankAge.ts';
import type { LifeLaw } from './capacitorWear.ts';
import { ledRating } from './ledFade.ts';
import { lightLeft, lightLoss } from './lightLoss.ts';
import type { YearStress } from './YearStress.ts';

/** A part of a lamp that wears, and can be made new. */
export type WornPart = keyof LampAge;

/** Parts are followed down to this share of new ones, and what grows as far up: the lamp has long been dark by then. */
const LEAST = 0.02;

/** How the parts of one lamp in one spot wear from year to year. */
export class LampWear {
  private readonly lamp: LampSection;
  private readonly cover: CoverSection;
  private readonly law: LifeLaw;
  private readonly cleaned: boolean;
  private bank: BankAge;
  private ledSpent = 0;
  private readonly since = { cell: 0, cover: 0 };

  /** in: lamp, its parts merged in; cover, the spot's; law; cleaned, whether the cover is cleaned each spring */
  constructor(lamp: LampSection, cover: CoverSection, law: LifeLaw, cleaned: boolean) {
    this.lamp = lamp;
    this.cover = cover;
    this.law = law;
    this.cleaned = cleaned;
    this.bank = new BankAge(lamp.capacitor, law);
  }

  copy(): LampWear {
    const copy = new LampWear(this.lamp, this.cover, this.law, this.cleaned);
    copy.bank = this.bank.copy();
    copy.ledSpent = this.ledSpent;
    Object.assign(copy.since, this.since);
    return copy;
  }

  age(): LampAge {
    const loss = lightLoss(this.lamp.cell, this.cover);
    const { capacitance, resistance, leakage } = this.bank.age();
    return {
      capacitor: {
        capacitance: Math.max(LEAST, capacitance),
        resistance: Math.min(1 / LEAST, resistance),
        leakage: Math.min(1 / LEAST, leakage),
      },
      led: Math.max(LEAST, power(ledRating(this.lamp.led).left, this.ledSpent)),
      cell: Math.max(LEAST, lightLeft({ ...loss, yellowing: 0, dirt: 0 }, this.since.cell, true)),
      cover: Math.max(LEAST, lightLeft({ ...loss, cell: 0 }, this.since.cover, this.cleaned)),
    };
  }

  /** Spends a year between two stresses, or before them. in: from, to; share, of the way from the one to the other */
  spendYear(from: YearStress, to = from, share = 0): void {
    this.bank.spend(from.capacitor, from.years / (1 - share));
    if (share !== 0) this.bank.spend(to.capacitor, to.years / share);
    this.ledSpent += (1 - share) * from.led + share * to.led;
    this.since.cell++;
    this.since.cover++;
  }

  renew(part: WornPart): void {
    if (part === 'capacitor') this.bank = new BankAge(this.lamp.capacitor, this.law);
    else if (part === 'led') this.ledSpent = 0;
    else this.since[part] = 0;
  }

  /** Share of the rated life that the weakest capacitor has spent. */
  capacitorWear(): number {
    return this.bank.wear();
  }

  /** Share of the bank's voltage that the weakest capacitor holds. */
  weakShare(): number {
    return this.bank.weakShare();
  }
}
