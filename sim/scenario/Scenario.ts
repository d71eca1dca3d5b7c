import type { PromiseSection } from '../lamp/schedule/schema.ts';
import type { LampSection } from '../lamp/schema.ts';
import type { SettledLamp } from '../lamp/settleLamp.ts';
import type { SpotSection } from '../spot/schema.ts';
import type { SpotParams } from '../spot/spotParams.ts';
import type { Site } from '../sun/Site.ts';
import type { WeatherValue } from '../weather/schema.ts';
import type { PartShelf } from './PartShelf.ts';
import type { ScenarioClimate } from './scenarioClimate.ts';

/** What can stand in a JSON file. */
export type Json = string | number | boolean | null | readonly Json[] | { readonly [key: string]: Json };

/** One resolved value and where it came from. */
export interface Origin {
  /** Keys from the root of the scenario. */
  path: readonly string[];
  value: Json;
  kind: 'scenario' | 'own part' | 'part' | 'default';
  /** In words: 'scenario line 12', 'scenario line 12: 180 cm' where it was written with a unit, 'own part tall-jar (my-parts.yaml line 12)', 'part small-cell (generic; ...)', 'default: grass and soil ...'. */
  from: string;
  /** Where it stands in the scenario, if it does. */
  place?: { line?: number; column?: number };
}

export interface ScenarioSpot {
  name: string;
  section: SpotSection;
  params: SpotParams;
}

export interface ScenarioLamp extends SettledLamp {
  name: string;
  /** With its library parts merged in, readings and all. */
  section: LampSection;
  /** Sentences a maker must see. */
  flags: string[];
}

/** A key of a lamp or of a spot, or the spot itself, that may be one of some values. */
export interface Choice {
  /** Of a lamp, or `stand`: how the cell lies in its spot; `spot`: where it stands. */
  section: 'spot' | 'stand' | keyof LampSection;
  /** '' of the spot. */
  key: string;
  unit?: string | undefined;
  /** One or more, each once; null takes an optional key away. */
  values: readonly Json[];
  /** Where it stands in the file, if it is of one. */
  line?: number;
  column?: number;
}

/** What may be bought or set, in the order of the file. */
export type Choices = readonly Choice[];

/** What a scenario is made from. */
export interface ScenarioSource {
  /** The bytes of its file, or plain values. */
  written: Uint8Array | Readonly<Record<string, unknown>>;
  /** As the user named it. */
  file: string;
  /** Absolute path of the folder that what it names is relative to; never printed into results. */
  folder: string;
  /** Its name where it says none. */
  called: string;
}

/** A scenario, checked and with every default filled in. */
export interface Scenario extends ScenarioSource {
  name: string;
  /** SHA-256 of the file's bytes, of plain values that of their JSON, hexadecimal. */
  sha256: string;
  seed: number;
  site: Site;
  /** The year on file; path is absolute and never printed into results. */
  weather?: { section: WeatherValue; path: string } | undefined;
  /** What winters are made from, where the scenario says it. */
  climate?: ScenarioClimate | undefined;
  start: 'cyclic' | 'lead-in' | { capacitor_V: number };
  promise: PromiseSection;
  spots: ScenarioSpot[];
  lamps: ScenarioLamp[];
  /** All parts that it may name. */
  shelf: PartShelf;
  /** What prices are in, where it says so. */
  currency?: string | undefined;
  /** Undefined where the scenario names none. */
  choices?: Choices | undefined;
  /** The whole scenario as plain JSON, parts merged in, defaults filled in; no absolute path. */
  resolved: { readonly [key: string]: Json };
  origins: Origin[];
  /** What was assumed, in sentences: defaults that rest on an assumption, and the generic parts. */
  assumptions: string[];
  /** Numbers that hardly anyone would have, each as a question. */
  questions: string[];
}
