import type { PromiseSection } from '../../lamp/schedule/schema.ts';
import type { LampSection, SettledSection } from '../../lamp/schema.ts';
import type { Json } from '../../scenario/Scenario.ts';
import type { SpotFiles } from '../../spot/SpotFiles.ts';
import type { SpotSection } from '../../spot/schema.ts';
import type { Site } from '../../sun/Site.ts';
import type { WeatherRecord } from '../../weather/WeatherRecord.ts';
import type { YearStart } from '../../year/simulateYear.ts';

/** Plain keys of a scenario. */
export type Keys = Readonly<Record<string, Json>>;

/**
 * All that it takes to run any trial of a run again, as it was or with some values turned: plain data, which a page can
 * carry. No absolute path stands in it.
 */
export interface LiveRun {
  /** Of the scenario. */
  name: string;
  site: Site;
  promise: PromiseSection;
  start: YearStart;
  seed: number;
  currency?: string | undefined;
  /** Undefined where light was logged on the cells. */
  weather?: WeatherRecord | undefined;
  spots: LiveSpot[];
  lamps: LiveLamp[];
  /** The whole scenario, parts merged in and defaults filled in, as `Scenario.resolved` has it. */
  resolved: Keys;
  /** What the weather was, in words. */
  weatherWords: string;
  /** Keys of files that the scenario names by paths from the root, of which no more than the last part is known here. */
  rootedFiles: readonly string[];
}

/** A spot, with all that it takes from files. */
export interface LiveSpot {
  name: string;
  section: SpotSection;
  /** What the files that it names say. */
  files: SpotFiles;
  /** Whether snow lies there at times, brushed off the lid or not. */
  snowFalls: boolean;
}

/** A lamp, its readings settled. */
export interface LiveLamp {
  name: string;
  settled: SettledSection;
  /** What a maker must see of its readings, by part. */
  readingFlags: Readonly<Partial<Record<keyof LampSection, readonly string[]>>>;
  /** Where each farad of its capacitor has a price: that, and what one part costs besides. */
  farads?: { price?: number | undefined; price_per_F: number } | undefined;
  /** Parts with readings as they would be written without them. */
  unread: Readonly<Partial<Record<keyof LampSection, Keys>>>;
}

/** What a knob belongs to. */
type KnobOwner = 'lamp' | 'spot' | 'promise';

/** Something that a maker may turn. */
export interface Knob {
  /** Keys below the lamp, the spot or the promise of a scenario, as 'capacitor.capacitance_F'. */
  key: string;
  of: KnobOwner;
  /** In few words, as they stand beside a slider. */
  label: string;
  /** '' of a count or a choice. */
  unit: string;
  /** What the file says. */
  value: TurnValue;
  /** Values to step through, the one of the file among them; numbers rise. Numbers between them may be turned to as well. */
  steps: readonly TurnValue[];
  /** Of a number: whether only whole ones will do. */
  whole?: boolean | undefined;
  /** What goes along, where anything does, in words. */
  note?: string | undefined;
}

export type TurnValue = number | string | boolean;

/** What may be turned of a trial. */
export interface Knobs {
  knobs: readonly Knob[];
  /** What may not, and why, in words. */
  fixed: readonly { label: string; why: string }[];
}

/** A knob turned to a value. */
export interface Turn {
  key: string;
  of: KnobOwner;
  value: TurnValue;
}

/** Why no trial came, in words. */
export interface Refused {
  refused: string;
}
