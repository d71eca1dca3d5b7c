import type { Scenario, ScenarioLamp, ScenarioSpot } from '../scenario/Scenario.ts';
import { isUneven } from './BankAge.ts';
import { LIFE_LAWS, type LifeRating, lifeRating } from './capacitorWear.ts';
import { ledRating } from './ledFade.ts';
import { type CheapChoice, USUAL_CHEAP } from './lifeCost.ts';
import { lightLoss } from './lightLoss.ts';
import type { LivesWishes, TrialLife } from './ScenarioLives.ts';
import { SEAL_FAILS_PERCENT } from './trialLife.ts';

interface Pair {
  spot: ScenarioSpot;
  lamp: ScenarioLamp;
}

/**
 * What lives take where the scenario says nothing, and how they are computed, in sentences.
 *
 * in: scenario; pairs, its trials; wishes
 */
export function lifeAssumptions(
  { origins }: Scenario,
  pairs: readonly Pair[],
  wishes: LivesWishes,
): string[] {
  const isStated = ({ name }: ScenarioLamp, ...keys: string[]) => {
    const path = ['lamps', name, ...keys].join('.');
    return origins.some((origin) => origin.kind === 'scenario' && origin.path.join('.') === path);
  };
  const lamps = [...new Set(pairs.map(({ lamp }) => lamp))];
  const spots = [...new Set(pairs.map(({ spot }) => spot))];
  const cheap: CheapChoice = wishes.cheap ?? USUAL_CHEAP;
  return [
    ...of(
      lamps.filter((lamp) => !isStated(lamp, 'capacitor', 'life', 'hours')),
      ({ section }) =>
        `capacitor.life: ${ratingWords(lifeRating(section.capacitor))}; most datasheets, from memory`,
    ),
    ...of(
      lamps.filter((lamp) => !isStated(lamp, 'led', 'life', 'hours')),
      ({ section }) => {
        const { hours, left, at_A } = ledRating(section.led);
        return `led.life: ${hours} h at ${at_A * 1000} mA until ${left * 100} percent of the light is left; common practice, no source`;
      },
    ),
    ...of(
      lamps.filter(({ section }) => section.cell.decline_percent_year === undefined),
      ({ section }) =>
        `cell.decline_percent_year: ${percent(lightLoss(section.cell, spots[0]!.section.cover).cell)}; the median of silicon modules (Jordan and Kurtz 2013)`,
    ),
    ...of(
      lamps.filter(({ section }) => section.jar.seal_fails_percent_year === undefined),
      () => `jar.seal_fails_percent_year: ${SEAL_FAILS_PERCENT}; no source`,
    ),
    ...of(spots, (spot) => coverWords(spot, lamps[0]!, wishes.cleaned)),
    `wear of the capacitor goes by published factors, of which none is picked: ${LIFE_LAWS.map(({ name, per10K, perTenthVolt, from }) => `${name} x${per10K} for each 10 K and x${perTenthVolt.toPrecision(3)} for each 0.1 V less (${from})`).join('; ')}`,
    `a cheap lamp to hold it against: ${cheap.price} each, replaced after ${cheap.winters} winters, with the light of this lamp's first year${wishes.cheap === undefined ? '; from memory' : ''}`,
    wishes.exact === true
      ? 'every winter is run'
      : 'hours are run again where a part has changed by 6 percent; of the winters between only as many as tell the failed nights of each to one night',
  ];
}

/** What a maker must see of lives. in: pairs, and their lives, in the same order */
export function lifeFlags(pairs: readonly Pair[], lives: readonly TrialLife[]): string[] {
  return lives.flatMap((life) => {
    const { lamp } = pairs.find((pair) => pair.spot.name === life.spot && pair.lamp.name === life.lamp)!;
    const named = `${life.lamp} in ${life.spot}`;
    const [{ winters }] = life.bands as [TrialLife['bands'][0]];
    return [
      ...lamp.flags.map((flag) => `${named}: ${flag}`),
      ...(isUneven(lamp.section.capacitor)
        ? [
            `${named}: parts in series without balancing: the weakest holds ever more of the voltage and wears first; balancing resistors (capacitor.balancing_kohm) keep all alike`,
          ]
        : []),
      ...(winters[0]!.nights === 0 ? [`${named}: nothing is promised in any night`] : []),
    ];
  });
}

/** The same sentence of several owners said once. */
function of<Owner extends { name: string }>(
  owners: readonly Owner[],
  say: (owner: Owner) => string | undefined,
): string[] {
  const names = new Map<string, string[]>();
  for (const owner of owners) {
    const said = say(owner);
    if (said !== undefined) names.set(said, [...(names.get(said) ?? []), owner.name]);
  }
  return [...names].map(([said, of]) => `${of.join(', ')}: ${said}`);
}

function ratingWords({ hours, at_V, at_degC, capacitanceLeft, resistanceTimes }: LifeRating): string {
  return `${hours} h at ${at_V} V and ${at_degC} degC until ${100 * capacitanceLeft} percent of the capacitance is left and the resistance is ${resistanceTimes} times as large`;
}

/** What wears the cover of a spot, where it is not stated. */
function coverWords(
  { section: { cover } }: ScenarioSpot,
  lamp: ScenarioLamp,
  cleaned: boolean,
): string | undefined {
  const { dirt, yellowing } = lightLoss(lamp.section.cell, cover);
  const said = [
    cover.kind !== 'none' &&
      cover.dirt_percent_year === undefined &&
      `cover.dirt_percent_year: ${percent(dirt)}`,
    cover.yellowing_percent_year === undefined && `cover.yellowing_percent_year: ${percent(yellowing)}`,
  ].filter((each) => each !== false);
  if (said.length === 0) return undefined;
  return `${said.join(', ')}; no source; ${cleaned ? 'cleaned each spring' : 'never cleaned'}`;
}

function percent(share: number): string {
  return String(Number((100 * share).toPrecision(3)));
}
