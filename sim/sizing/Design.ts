import type { LampSection, SettledSection } from '../lamp/schema.ts';
import type { Json } from '../scenario/Scenario.ts';
import type { SpotSection } from '../spot/schema.ts';
import type { SpotParams } from '../spot/spotParams.ts';

/** One value of one choice. */
export interface Chosen {
  /** As 'capacitor.capacitance_F', 'stand.cell_tilt_deg' or 'spot'. */
  key: string;
  /** null where an optional key is taken away. */
  value: Json;
  unit?: string | undefined;
}

/** One section of the lamp with one value of each of its choices, checked and settled once. */
export interface PartVariant<Part extends keyof LampSection = keyof LampSection> {
  chosen: readonly Chosen[];
  section: LampSection[Part];
  /** With what its readings gave written in place of them. */
  settled: SettledSection[Part];
  /** Keys of the chosen ones that differ from the present lamp. */
  changed: readonly string[];
}

/** A spot, and how the cell lies in it. */
export interface SpotVariant {
  chosen: readonly Chosen[];
  /** Of the spot in the scenario. */
  name: string;
  section: SpotSection;
  params: SpotParams;
  changed: readonly string[];
}

/** One lamp that could be built, in one spot. */
export interface Design {
  /** From 0; -1 of the present lamp. */
  index: number;
  chosen: readonly Chosen[];
  changed: readonly string[];
  spot: SpotVariant;
  section: LampSection;
  settled: SettledSection;
  /** Of the parts that must be bought; undefined where one of them has no price. */
  price: number | undefined;
}
