import { type Estimate, type PartFit, significant } from '../common/Estimate.ts';
import { type Report, reportBelow } from '../common/InputProblem.ts';
import { type CapacitorFit, capacitorFromReadings } from './capacitor/readings.ts';
import { type CellFit, cellFromReadings } from './cell/readings.ts';
import { type DiodeFit, diodeFromReadings } from './diode/readings.ts';
import { driverFromReadings } from './driver/readings.ts';
import { jarFromReadings } from './jar/readings.ts';
import { ledFromReadings } from './led/readings.ts';
import { type LampParams, partParams, wholeLamp } from './params.ts';
import { capacitorPrice } from './partsList.ts';
import { type LampSection, lampSchema, type SettledSection } from './schema.ts';

/** What the readings of a lamp's parts gave, in the order of the lamp; undefined for parts without readings. */
export interface LampFits {
  cell: CellFit | undefined;
  diode: DiodeFit | undefined;
  capacitor: CapacitorFit | undefined;
  driver: PartFit | undefined;
  led: PartFit | undefined;
  jar: PartFit | undefined;
}

/** A lamp with its readings settled once. */
export interface SettledLamp {
  /** With what its readings gave written in place of them. */
  settled: SettledSection;
  fits: LampFits;
  params: LampParams;
}

/**
 * A lamp whose bench readings are settled: what they gave, the lamp with that in place of them, and its parameters.
 *
 * in: section, one lamp of the scenario with its library parts merged in; report, takes readings and values that
 *   cannot be
 * out: undefined after problems
 */
export function settleLamp(section: LampSection, report: Report): SettledLamp | undefined {
  const { fits, settled, parts } = settleParts(section, report);
  const params = wholeLamp(parts, section.schedule);
  if (fits === undefined || params === undefined) return undefined;
  return { settled: settled as SettledSection, fits, params };
}

/**
 * The same for those parts of a lamp that are there.
 *
 * in: section; report, takes what cannot be: of a part its readings, or else its values
 * out: fits, undefined where readings of any cannot be; the others settled; their parameters, undefined after problems
 */
export function settleParts(section: Partial<LampSection>, report: Report) {
  const failed = new Set<string | number>();
  const reporting: Report = (problem) => {
    failed.add(problem.path[0]!);
    report(problem);
  };
  const fits = fitsOf(section, reporting);
  const parts = Object.entries(section).map(([part, given]) => {
    const keys = settledKeys(fits, part as keyof LampFits);
    const made = withKeys(
      part === 'capacitor' ? asBought(given as LampSection['capacitor']) : (given as ReadPart),
      keys,
    );
    if (keys !== undefined && !failed.has(part)) checkSettled(part as keyof LampFits, made, reporting);
    return [part, made] as const;
  });
  const sound = parts.filter(([part]) => !failed.has(part));
  const settled = Object.fromEntries(sound) as Partial<SettledSection>;
  return { fits: failed.size > 0 ? undefined : fits, settled, parts: partParams(settled, report) };
}

/** Readings that make of a part what no part is. */
function checkSettled(part: keyof LampFits, settled: object, report: Report): void {
  const found = lampSchema.shape[part]
    .safeParse(settled)
    .error?.issues.find((issue) => issue.code === 'too_small' || issue.code === 'too_big');
  if (found === undefined) return;
  const value = found.path.reduce<unknown>((at, key) => (at as Record<PropertyKey, unknown>)[key], settled);
  report({
    code: 'SCENARIO_CONFLICT',
    path: [part, 'readings'],
    got: `readings that make ${found.path.join('.')} ${significant(Number(value), 3)}`,
    expected:
      found.code === 'too_small'
        ? `at least ${found.minimum}`
        : `at most ${(found as { maximum?: number }).maximum}`,
    fix: 'is one of the readings in another unit than its key says?',
  });
}

function fitsOf(
  { cell, diode, capacitor, driver, led, jar }: Partial<LampSection>,
  report: Report,
): LampFits {
  const below = (part: keyof LampFits) => reportBelow(report, part);
  return {
    cell: cell?.readings && cellFromReadings(cell, cell.readings, below('cell')),
    diode: diode?.readings && diodeFromReadings(diode, diode.readings, below('diode')),
    capacitor:
      capacitor?.readings && capacitorFromReadings(capacitor, capacitor.readings, below('capacitor')),
    driver: driver?.readings && driverFromReadings(driver, driver.readings, below('driver')),
    led: led?.readings && led.table && ledFromReadings(led.table, led.readings, below('led')),
    jar: jar?.readings && jarFromReadings(jar, jar.readings),
  };
}

/** What a part may be given by besides its datasheet. */
interface ReadPart {
  readings?: unknown;
  raw?: unknown;
}

/** The keys that stand in place of readings; a cell's to the last digit, since its curve feels the seventh. */
function settledKeys(fits: LampFits, part: keyof LampFits): PartFit['keys'] | undefined {
  return part === 'cell' && fits.cell !== undefined ? { raw: fits.cell.cell } : fits[part]?.keys;
}

/** A capacitor with the price of the farads that it was bought for, whatever its readings say. */
function asBought(capacitor: LampSection['capacitor']): LampSection['capacitor'] {
  const { price_per_F, ...rest } = capacitor;
  const price = capacitorPrice(capacitor);
  return price_per_F === undefined || price === undefined ? capacitor : { ...rest, price };
}

function withKeys(part: ReadPart, keys: PartFit['keys'] | undefined) {
  const { readings: _, ...rest } = part;
  // Model parameters win over readings.
  return rest.raw === undefined ? { ...rest, ...keys } : { ...rest, ...keys, raw: rest.raw };
}

/** Quantities that say nothing to a maker by themselves. */
const INNER = new Set(['saturation_A', 'ideality']);
const WORTH_SAYING = 0.1;

/**
 * Sentences on parts whose readings are not what would be taken without them: outside the interval, and by a tenth or
 * more.
 *
 * in: fits, of one lamp
 * out: one sentence a part that has such
 */
export function readingFlags(fits: LampFits): string[] {
  return Object.entries<PartFit | undefined>({ ...fits }).flatMap(([part, fit]) => {
    const others = fit?.estimates.filter(differs) ?? [];
    if (others.length === 0) return [];
    const words = others.map(
      ({ what, unit, value, datasheet }) =>
        `${what} ${significant(value, 3)} ${unit} instead of ${significant(datasheet!, 3)}`,
    );
    return [`Readings of the ${part}: ${words.join(', ').replaceAll('  ', ' ')}.`];
  });
}

function differs({ key, value, low, high, datasheet }: Estimate): boolean {
  if (datasheet === undefined || INNER.has(key) || (datasheet >= low && datasheet <= high)) return false;
  return Math.abs(value / datasheet - 1) >= WORTH_SAYING;
}
