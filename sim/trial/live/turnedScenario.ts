import type { Json } from '../../scenario/Scenario.ts';
import type { Keys, Knob, LiveRun, Refused, Turn } from './LiveRun.ts';
import { turnedKeys, unreadParts, wholeKey } from './turnedKeys.ts';
import { trialKnobs, turnedTrial } from './turnedTrial.ts';
import { unlessRefused } from './unlessRefused.ts';
import { yamlText } from './yamlText.ts';

/**
 * A run's scenario with one of its lamps alone, some values of it, its spot and its promise turned, as YAML: put beside
 * the file of the run, the command line runs it to the numbers of `LiveTrials`. Parts and defaults are written out.
 *
 * in: run; spot and lamp of the trial; turns, of its knobs
 * out: text, ending in a line break; or why there is none
 */
export function turnedScenario(
  run: LiveRun,
  spot: string,
  lamp: string,
  turns: readonly Turn[],
): string | Refused {
  return unlessRefused(() => textOf(run, spot, lamp, turnedTrial(run, { spot, lamp, turns }).turns));
}

function textOf(run: LiveRun, spot: string, lamp: string, turns: readonly Turn[]): string {
  const { knobs } = trialKnobs(run, spot, lamp);
  const { format, site, weather, parts, currency, start, promise, spots, lamps } =
    run.resolved as unknown as Resolved;
  const unread = run.lamps.find(({ name }) => name === lamp)!.unread as Readonly<Record<string, Keys>>;
  const parted = Object.entries(lamps[lamp]!).map(([part, keys]): [string, Json] => {
    return [part, unreadParts(turns).has(part) ? (unread[part] ?? keys) : keys];
  });
  const stated = { lamp: Object.fromEntries(parted), spot: spots[spot]!, promise };
  const turned = turnedKeys(stated, turns, run.site);
  const text = yamlText({
    format,
    name: nameOf(run.name, turns),
    seed: run.seed,
    site,
    ...given({ weather, parts: parts && { file: parts.file! }, currency }),
    start,
    promise: turned.promise,
    spots: { ...spots, [spot]: turned.spot },
    lamps: { [lamp]: turned.lamp },
  });
  const lines = [
    `${run.name}, lamp ${lamp} on ${spot}, with values turned on its page:`,
    ...turns.map((turn) => `  ${wholeKey(turn)} ${turn.value}${wasWords(turn, knobs)}`),
    `Put it beside the file of ${run.name}. The numbers of the page are over ${run.weatherWords};`,
    'what was typed beside the file (--weather, --from, --to and the like) has to be typed again.',
    ...run.rootedFiles.map((key) => `${key} was a path from the root: write it again.`),
  ];
  return `${lines.map((line) => `# ${line.replace(/[\p{Cc}\u2028\u2029]/gu, ' ')}\n`).join('')}${text}`;
}

interface Resolved {
  format: Json;
  site: Json;
  weather?: Json;
  parts?: Keys;
  currency?: Json;
  start: Json;
  promise: Keys;
  spots: Readonly<Record<string, Keys>>;
  lamps: Readonly<Record<string, Readonly<Record<string, Keys>>>>;
}

function given(keys: Readonly<Record<string, Json | undefined>>): Keys {
  return Object.fromEntries(Object.entries(keys).filter((entry): entry is [string, Json] => !!entry[1]));
}

function wasWords(turn: Turn, knobs: readonly Knob[]): string {
  const knob = knobs.find(({ of, key }) => of === turn.of && key === turn.key)!;
  return `${knob.unit === '' ? '' : ` ${knob.unit}`} instead of ${knob.value}`;
}

const LONGEST_NAME = 64;

/** The scenario's name, which is that of its folder, with what is turned, as far as there is room. */
function nameOf(name: string, turns: readonly Turn[]): string {
  const words = turns.map(({ key, value }) => `${key.split('.').at(-1)} ${String(value).replace(':', '.')}`);
  const room = LONGEST_NAME - 1 - Math.min(name.length, LONGEST_NAME / 2);
  const said = words.length === 0 ? 'as it is' : words.join(', ').slice(0, room);
  const before = name.slice(0, LONGEST_NAME - 1 - said.length).replace(/[\ud800-\udbff]$/, '');
  return `${before} ${said}`.replace(/[\s.]+$/, '');
}
