import { createHash } from 'node:crypto';
import { appendFileSync, existsSync, mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Design, SpotVariant } from './Design.ts';
import type { DesignTrials } from './DesignTrials.ts';
import type { Outcome } from './SizedDesign.ts';

/** Where outcomes are kept from one search to the next. */
export interface CachePlace {
  folder: string;
  /** Version of the program: another computes anew. */
  program: string;
}

const FILE = 'size-cache.txt';
const KEYS = [
  'nights',
  'winters',
  'keptWinters',
  'failedNights',
  'short_h',
  'light_lm_h',
  'smallestReserve_J',
] as const satisfies (keyof Outcome)[];

/**
 * What designs came to in earlier searches, by all that it depends on: the light on the cell and the air of every hour, the
 * site, promise, start and seed, the lamp, the program. A line a design, each with its own check: what is damaged, cut
 * short or written by something else is not read. Safe to delete.
 */
export class OutcomeCache {
  private readonly trials: DesignTrials;
  private readonly program: string;
  private readonly folder: string;
  private readonly known = new Map<string, Outcome>();
  private readonly lights = new Map<SpotVariant, string>();
  private cut = false;

  /** in: place; trials, whose outcomes are kept */
  constructor({ folder, program }: CachePlace, trials: DesignTrials) {
    this.trials = trials;
    this.program = program;
    this.folder = folder;
    const path = join(folder, FILE);
    if (!existsSync(path)) return;
    const text = readFileSync(path, 'utf8');
    this.cut = text !== '' && !text.endsWith('\n');
    for (const line of text.split('\n')) {
      const [check, key, numbers] = line.split(' ', 3);
      const outcome = check === digest(`${key} ${numbers}`) ? outcomeOf(numbers!) : undefined;
      if (outcome !== undefined) this.known.set(key!, outcome);
    }
  }

  get(design: Design): Outcome | undefined {
    return this.known.get(this.keyOf(design));
  }

  /** Adds outcomes at the end of the file, where they were not known before. */
  add(designs: readonly (readonly [Design, Outcome])[]): void {
    const lines = designs.map(([design, outcome]) => {
      const kept = `${this.keyOf(design)} ${KEYS.map((key) => outcome[key]).join(',')}`;
      return `${digest(kept)} ${kept}\n`;
    });
    if (lines.length === 0) return;
    mkdirSync(this.folder, { recursive: true });
    appendFileSync(join(this.folder, FILE), (this.cut ? '\n' : '') + lines.join(''));
    this.cut = false;
  }

  private keyOf({ spot, section }: Design): string {
    const { site, promise, start, seed } = this.trials.space.scenario;
    const terms = [this.program, this.light(spot), site, promise, start, seed, section];
    return digest(JSON.stringify(terms));
  }

  private light(spot: SpotVariant): string {
    const known = this.lights.get(spot);
    if (known !== undefined) return known;
    const { start_ms, planeOfArray_W_m2, air_degC, nightLight_lux } = this.trials.light(spot);
    const hash = createHash('sha256').update(JSON.stringify([start_ms, nightLight_lux]));
    for (const { buffer, byteOffset, byteLength } of [planeOfArray_W_m2, air_degC])
      hash.update(new Uint8Array(buffer, byteOffset, byteLength));
    const made = hash.digest('hex');
    this.lights.set(spot, made);
    return made;
  }
}

function digest(text: string): string {
  return createHash('sha256').update(text).digest('hex').slice(0, 32);
}

/** Numbers as they are written: the shortest text that reads back as the same. */
function outcomeOf(numbers: string): Outcome | undefined {
  const values = numbers.split(',').map(Number);
  if (values.length !== KEYS.length) return undefined;
  return Object.fromEntries(KEYS.map((key, k) => [key, values[k]!])) as unknown as Outcome;
}
