import { settleParts } from '../lamp/settleLamp.ts';
import type { Scenario } from '../scenario/Scenario.ts';
import { type KeyValues, type UncertainValue, uncertainValues } from '../scenario/uncertainValues.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';
import type { Premises } from './LeanTrials.ts';

/** One value for each end of an assumption, and for what is assumed. */
export interface AtEnds<Value> {
  worse: Value;
  assumed: Value;
  better: Value;
}

/** Something that the trials of a scenario take for granted. */
export interface TrialAssumption {
  /** Part and first key, as 'capacitor.leakage_uA'; of a spot, the site or the sky just the key. */
  key: string;
  from: UncertainValue['from'] | 'judged';
  assumed: KeyValues;
  ends: readonly [KeyValues, KeyValues];
  /** Whose it is: only trials with such a lamp, or in such a spot, are moved; all where not given. */
  lamps?: Set<string>;
  spots?: Set<string>;
  /** The premises of a trial with an end in place of what is assumed. */
  with: (premises: Premises, end: KeyValues) => Premises;
}

/** Degrees by which a skyline judged by eye is off, from memory. */
const SKYLINE_DEG = 5;
/** How far the diffuse share of a site's own skies may be from the split's, from memory. */
const DIFFUSE_SHARE = 0.08;

/**
 * What the trials of a scenario take for granted and what it may be instead: what parts and defaults say of themselves;
 * how high things stand around the spots; how the global light is split. The same of several lamps or spots is one.
 *
 * in: scenario; weather, undefined where the light is logged on every cell
 * out: in the order of the scenario
 */
export function trialAssumptions(scenario: Scenario, weather: WeatherRecord | undefined): TrialAssumption[] {
  const found = new Map<string, TrialAssumption>();
  for (const value of uncertainValues(scenario)) {
    const [root, name, ...below] = value.section;
    const assumption = assumptionOf(value, below);
    if (assumption === undefined) continue;
    const { from, assumed, ends } = value;
    const same = JSON.stringify([root, below, from, assumed, ends]);
    const known = found.get(same) ?? assumption;
    found.set(same, known);
    if (root === 'lamps' || root === 'spots') known[root] = new Set([...(known[root] ?? []), name!]);
  }
  return [...surroundings(scenario), ...split(weather), ...found.values()];
}

function assumptionOf({ section, ...value }: UncertainValue, below: string[]): TrialAssumption | undefined {
  const [key] = Object.keys(value.assumed);
  switch (section[0]) {
    case 'lamps': {
      const part = below[0] as 'cell';
      return {
        ...value,
        key: `${part}.${key}`,
        with: (premises, end) => withPart(premises, part, end),
      };
    }
    case 'spots':
      return {
        ...value,
        key: [below[0], key].filter((step) => step !== undefined).join('.'),
        with: ({ spot, ...rest }, end) => ({ ...rest, spot: withKeys(spot, below, end) }),
      };
    case 'site':
      return {
        ...value,
        key: key!,
        with: ({ site, ...rest }, end) => ({ ...rest, site: { ...site, ...end } }),
      };
    default:
      return undefined;
  }
}

/** Whether an assumption is one of a trial. */
export function concerns(
  { lamps, spots }: TrialAssumption,
  spot: { name: string },
  lamp: { name: string },
): boolean {
  return (lamps?.has(lamp.name) ?? true) && (spots?.has(spot.name) ?? true);
}

/** Other keys of a part of the lamp, what its readings say settled again beside them. */
function withPart({ lamp, section, ...rest }: Premises, part: 'cell', keys: KeyValues): Premises {
  const given = { ...section[part], ...keys };
  const settled =
    given.readings === undefined ? given : settleParts({ [part]: given }, () => {}).settled[part];
  return {
    ...rest,
    section: { ...section, [part]: given },
    lamp: { ...lamp, [part]: settled } as Premises['lamp'],
  };
}

function withKeys<Section extends object>(
  section: Section,
  below: readonly string[],
  keys: KeyValues,
): Section {
  const [next, ...further] = below;
  if (next === undefined) return { ...section, ...keys };
  return { ...section, [next]: withKeys(section[next as keyof Section] as object, further, keys) };
}

/** What stands around is judged by eye, or left out; a log of the light knows better. */
function surroundings({ spots }: Scenario): TrialAssumption[] {
  const judged = spots.filter(
    ({ params: { loggedLight, measured } }) => loggedLight === undefined && measured?.replaces !== 'geometry',
  );
  if (judged.length === 0) return [];
  return [
    {
      key: 'skyline_deg',
      from: 'judged',
      assumed: { skyline_deg: 0 },
      ends: [{ skyline_deg: SKYLINE_DEG }, { skyline_deg: -SKYLINE_DEG }],
      spots: new Set(judged.map(({ name }) => name)),
      with: (premises, { skyline_deg }) => ({ ...premises, skylineOff_deg: Number(skyline_deg) }),
    },
  ];
}

/** Only where the record has the global light alone. */
function split(weather: WeatherRecord | undefined): TrialAssumption[] {
  if (weather === undefined || weather.dni_W_m2 !== undefined || weather.dhi_W_m2 !== undefined) return [];
  return [
    {
      key: 'diffuse_share',
      from: 'judged',
      assumed: { diffuse_share: 0 },
      ends: [{ diffuse_share: -DIFFUSE_SHARE }, { diffuse_share: DIFFUSE_SHARE }],
      with: (premises, { diffuse_share }) => ({ ...premises, diffuseOff: Number(diffuse_share) }),
    },
  ];
}
