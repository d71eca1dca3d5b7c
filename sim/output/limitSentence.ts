import { max, min } from 'd3-array';
import { fixed } from '../common/csvText.ts';
import { MONTH_NAMES } from '../common/time.ts';
import type { ComparedSpot, ComparedTrial, Comparison, LampInSpot, LimitedBy } from '../trial/Comparison.ts';
import type { ChargeClaim } from '../trial/chargeClaim.ts';

const LIMITED: Readonly<Record<Exclude<LimitedBy, 'cover'>, string>> = {
  beam: 'Limited most by the missing sun.',
  sky: 'Limited most by the sky it does not see.',
  snow: 'Limited most by snow on the lid.',
  'dim-light': 'Limited most by dim light: the cell cannot charge the capacitor high in it.',
  leakage: 'Limited most by leakage.',
  season:
    'Limited by the season alone, short days and a low sun: nothing here takes a tenth of what there is.',
  unknown: 'What limits it cannot be told.',
};

/** What light has to pass into the cell, by what lies over it. */
const COVER: Readonly<Record<ComparedSpot['cover'], string>> = {
  none: "the cell's own front",
  flat: "the lid and the cell's front",
  dome: "the dome and the cell's front",
  'side-lit': "the jar and the cell's front",
  resin: 'the resin over the cell',
};

/**
 * What limits a spot in the darkest months, in words with the numbers it rests on: light and sunshine against the same cell unshaded,
 * what lid and front leave of that, the reachable voltage in dim light, leakage.
 *
 * in: spot; comparison, for the lamps in it and the side of the equator
 * out: sentences in one line
 */
export function limitSentence(
  spot: ComparedSpot,
  { trials, southern }: Pick<Comparison, 'trials' | 'southern'>,
): string {
  const lamps = trialsIn(spot, trials).map(({ inSpot }) => inSpot);
  const months = darkMonths(southern);
  if (lamps.every((lamp) => Number.isNaN(lamp.daylight_h)))
    return `${LIMITED.unknown} The record has no ${months}.`;
  return `${mostWords(spot)} In ${months}: ${lightWords(spot)}; ${lampWords(lamps)}.`;
}

/** The same with the two numbers that a maker sees from where he stands. */
export function limitInShort(
  spot: ComparedSpot,
  { southern }: Pick<Comparison, 'trials' | 'southern'>,
): string {
  const { limits } = spot;
  if (limits === undefined) return mostWords(spot);
  const { lightShare, beam_h, sunshine_h } = limits;
  return `${mostWords(spot)} In ${darkMonths(southern)} ${fixed(100 * lightShare, 0)} percent of the light of an unshaded cell, sun for ${fixed(beam_h, 0)} of ${fixed(sunshine_h, 0)} h of sunshine.`;
}

function darkMonths(southern: boolean): string {
  return (southern ? [6, 7] : [12, 1]).map((month) => MONTH_NAMES[month - 1]!).join(' and ');
}

function mostWords({ limitedBy, cover }: ComparedSpot): string {
  return limitedBy === 'cover' ? `Limited most by ${COVER[cover]} at low sun.` : LIMITED[limitedBy];
}

/** The trials in a spot of a comparison. */
export function trialsIn(
  { spot, scenario }: ComparedSpot,
  trials: readonly ComparedTrial[],
): ComparedTrial[] {
  return trials.filter((trial) => trial.scenario === scenario && trial.spot === spot);
}

function lightWords({ limits, dullShare, cover }: ComparedSpot): string {
  if (limits === undefined) return 'light logged on the cell, so what stands around it is not known';
  const percent = (share: number) => fixed(100 * share, 0);
  const beam = Number.isNaN(limits.beamShare)
    ? ''
    : ` (${percent(limits.beamShare)} percent of the direct sun)`;
  const dull = Number.isNaN(dullShare) ? '' : ` (${percent(dullShare)} on the duller half of the days)`;
  const reflected =
    limits.reflectedShare < 0.1
      ? ''
      : `; walls and ground reflect ${percent(limits.reflectedShare)} percent of what it gets`;
  const snow =
    limits.snowShare < 0.01 ? '' : `; snow on the lid takes ${percent(limits.snowShare)} percent of that`;
  return (
    `${percent(limits.lightShare)} percent of the unshaded light${dull}, sun for ${fixed(limits.beam_h, 0)} of ` +
    `${fixed(limits.sunshine_h, 0)} h of sunshine${beam}, ${percent(limits.skyShare)} percent of the light of the ` +
    `sky${reflected}; at low sun ${COVER[cover]} let in ${percent(limits.coverShare)} percent of the light${snow}`
  );
}

function lampWords(lamps: readonly LampInSpot[]): string {
  const span = (of: (lamp: LampInSpot) => number, decimals: number) => {
    const values = lamps.map(of).filter((value) => !Number.isNaN(value));
    const [least, most] = [min(values), max(values)];
    if (least === undefined || most === undefined) return 'an unknown number of';
    const [from, to] = [fixed(least, decimals), fixed(most, decimals)];
    return from === to ? from : `${from} to ${to}`;
  };
  return (
    `the highest voltage the cell can charge to below the cut-off in ${span((lamp) => lamp.reachableBelowCutoff_h, 0)} and below the capacitor's own in ` +
    `${span((lamp) => lamp.reachableBelowCapacitor_h, 0)} of ${span((lamp) => lamp.daylight_h, 0)} hours of daylight, ` +
    `${span((lamp) => 100 * lamp.unharvestedShare, 0)} percent of what the cell could give not used for it; leakage took ` +
    `${span((lamp) => 100 * lamp.leakageShare, 1)} percent of what came in`
  );
}

/** What is claimed, and by whom. */
export const CLAIM =
  'Claim tested (common practice, no source): an oversized cell in full shade charges its capacitor fully on an ordinary ' +
  'day, even in winter. Full: at dusk at least 90 percent of the energy that full sun on a day of 25 degC ' +
  'fills in. It holds for a month where the capacitor is full on at least half of the evenings.';

const HOLDS: Readonly<Record<ChargeClaim['inWinter'], string>> = {
  holds: 'HOLDS in winter too',
  'in-part': 'HOLDS IN PART of the winter',
  fails: 'DOES NOT HOLD in winter',
  unknown: 'no winter in the record',
};

/**
 * How much of the claim holds for one lamp in one spot: the dark months and the year.
 *
 * in: claim, as tested; southern
 * out: a sentence without its subject
 */
export function claimSentence(claim: ChargeClaim, southern: boolean): string {
  const { winter, year } = claim;
  const months = southern ? 'June to August' : 'December to February';
  const inWinter =
    winter.evenings === 0
      ? ''
      : `, ${winter.full} of ${winter.evenings} from ${months} (then ${fixed(100 * winter.medianShare, 0)} percent ` +
        'on the middle evening)';
  return (
    `${HOLDS[claim.inWinter]}: full on ${year.full} of ${year.evenings} evenings${inWinter}; holds in ` +
    `${claim.monthsHeld} of ${claim.monthsKnown} months. Full sun fills it in ${fixed(claim.fill_h, 1)} h to ${fixed(claim.full_V, 2)} V.`
  );
}
