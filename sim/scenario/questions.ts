import type { KeyPath } from '../common/document.ts';
import { log, log10 } from '../common/elementary/log.ts';
import { type Band, BELIEFS, type Near } from './beliefs.ts';
import { isBelow, isMap, samePath, valueAt } from './paths.ts';
import type { Json, ScenarioLamp } from './Scenario.ts';
import { schemaAt } from './SchemaNode.ts';
import { inUnit, quantityOf, unitsOf } from './unitSuffixes.ts';
import { MOST_SHARE, numberForm } from './writtenQuantity.ts';

/** Hours of a night that is promised until dawn. */
const WHOLE_NIGHT_H = 12;

/** What questions are about. */
interface Asked {
  resolved: { readonly [key: string]: Json };
  lamps: readonly ScenarioLamp[];
}

/**
 * Numbers that hardly any maker would have, each as one question with what was likely meant. They are asked, never
 * refused: the same of several lamps or spots is one.
 *
 * in: resolved, the scenario with its defaults; lamps
 * valid: bands from memory
 */
export function questionsOf({ resolved, lamps }: Asked): string[] {
  const asked = new Map<string, Set<string>>();
  const seen: (string | number)[][] = [];
  for (const { key, band, says, follows = [], asks = 'Is it so?' } of BELIEFS) {
    for (const path of pathsTo(resolved, key.split('.'))) {
      const value = valueAt(resolved, path);
      const near = nearOf(path, resolved, lamps);
      const within = typeof band === 'function' ? band(near) : band;
      // A nought switches off what it is of.
      if (typeof value !== 'number' || value === 0) continue;
      if (!(value < within[0] || value > within[1])) continue;
      if ([key, ...follows].some((other) => seen.some((known) => isBelow(known, alike(other, path)))))
        continue;
      seen.push(path);
      const unit = unitAt(path, resolved);
      const said = says.replace('{kind}', String(near.beside.kind)).replace('{}', bandWords(within, unit));
      const meant = likelyMeant(value, unit, within) ?? slipped(value, unit, within);
      const own = path[0] === 'lamps' || path[0] === 'spots' ? 2 : 0;
      const sentence = `${path.slice(own).join('.')} ${value}${spaced(unit)}: ${said}. ${meant === undefined ? asks : `Did you mean ${meant}?`}`;
      asked.set(sentence, (asked.get(sentence) ?? new Set()).add(String(path[own === 2 ? 1 : 0])));
    }
  }
  return [...asked].map(([sentence, who]) => `${sentence} [${[...who].join(', ')}]`);
}

/**
 * What a number that is out of range was likely meant to be, in words; undefined where nothing is likely.
 *
 * in: path; value; root, the scenario with its parts merged in
 */
export function likelyWithin(path: KeyPath, value: number, root: unknown): string | undefined {
  const node = schemaAt(path, root) ?? {};
  const form = numberForm(node) ?? node;
  const range = [
    form.minimum ?? form.exclusiveMinimum ?? 0,
    form.maximum ?? Number.POSITIVE_INFINITY,
  ] as const;
  const belief = BELIEFS.find(({ key }) => samePath(path, alike(key, path)));
  const near = nearOf(path, root, []);
  const band = typeof belief?.band === 'function' ? belief.band(near) : belief?.band;
  const within = band === undefined || band.some(Number.isNaN) ? range : band;
  return likelyMeant(value, unitAt(path, root), within);
}

/** The number in another unit, a power of ten apart or of time, that makes it likely: '1.8 m, 180 cm'. */
function likelyMeant(value: number, unit: string, band: Band): string | undefined {
  const quantity = quantityOf(unit) ?? '';
  // A nought is one in every unit.
  if (quantity === 'temperature' || value === 0) return undefined;
  const readings = unitsOf(quantity).flatMap((other) => {
    const factor = inUnit(1, other, unit) ?? 1;
    const isLikely = quantity === 'time' || Number.isInteger(log10(factor));
    // Of a share only what cannot be one is taken as percent.
    if (factor === 1 || !isLikely || (other === '%' && (value < 2 || band[1] > MOST_SHARE))) return [];
    return [{ other, factor, meant: inUnit(value, other, unit)! }];
  });
  const [best] = readings
    .filter(({ meant }) => isWithin(meant, band))
    .sort((one, two) => Math.abs(log(one.factor)) - Math.abs(log(two.factor)));
  return best && `${best.meant}${spaced(unit)}, ${value} ${best.other}`;
}

/** The number with its point moved by two or three places, where that makes it likely. */
function slipped(value: number, unit: string, band: Band): string | undefined {
  const meant = [100, 0.01, 1000, 0.001]
    .map((factor) => Number((value * factor).toPrecision(12)))
    .find((moved) => isWithin(moved, band));
  return meant === undefined ? undefined : `${meant}${spaced(unit)}`;
}

function isWithin(value: number, [least, most]: Band): boolean {
  return value >= least && value <= most;
}

function bandWords([least, most]: Band, unit: string): string {
  const [low, high] = [least, most].map((end) => Number(end.toPrecision(2)));
  return least === 0 ? `at most ${high}${spaced(unit)}` : `${low} to ${high}${spaced(unit)}`;
}

function spaced(unit: string): string {
  return unit === '' ? '' : ` ${unit}`;
}

function unitAt(path: KeyPath, root: unknown): string {
  const unit = schemaAt(path, root)?.unit;
  return unit === undefined || unit === '1' ? '' : unit;
}

function nearOf(path: KeyPath, root: unknown, lamps: readonly ScenarioLamp[]): Near {
  const map = (at: KeyPath) => {
    const found = valueAt(root, at);
    return isMap(found) ? found : {};
  };
  const { hours } = map(['promise']);
  return {
    beside: map(path.slice(0, -1)),
    owner: map(path.slice(0, 2)),
    lamp: path[0] === 'lamps' ? lamps.find(({ name }) => name === path[1]) : undefined,
    night_h: typeof hours === 'number' ? hours : WHOLE_NIGHT_H,
  };
}

/** Keys with '*' as a path, what they have in common with another path as that has it. */
function alike(key: string, path: KeyPath): KeyPath {
  return key.split('.').map((step, i) => (step === '*' ? path[i]! : step));
}

/** Paths of a value that keys with '*' for any lead to. */
function pathsTo(value: unknown, keys: readonly string[]): (string | number)[][] {
  const [key, ...rest] = keys;
  if (key === undefined) return [[]];
  const steps: (string | number)[] =
    key !== '*' ? [key] : Array.isArray(value) ? [...value.keys()] : isMap(value) ? Object.keys(value) : [];
  return steps.flatMap((step) => {
    const below = valueAt(value, [step]);
    return below === undefined ? [] : pathsTo(below, rest).map((path) => [step, ...path]);
  });
}
