import type { LampLife } from '../ageing/lampLife.ts';
import type { LifeSweep, LifeVariant } from '../ageing/ScenarioLives.ts';
import { fixed } from '../common/csvText.ts';
import { bandOf, bandWords, nightsText } from './bandWords.ts';
import type { TextColumn } from './textTable.ts';
import { shortNumber } from './words.ts';

/** What a sweep changes. */
export const SWEPT: Readonly<Record<LifeSweep['what'], string>> = {
  limit: 'charge limit',
  'led-current': 'LED current',
  capacitors: 'capacitors',
};

/**
 * The columns of a sweep: light and failed nights of the first winter, winters kept, and light until then.
 *
 * in: sweep
 */
export function sweepColumns({ what, variants, best }: LifeSweep): TextColumn<LifeVariant>[] {
  const can = (of: (variant: LifeVariant) => string) => (variant: LifeVariant) =>
    variant.cannotBe === undefined ? of(variant) : '-';
  const [first, second = ''] = SWEPT[what].split(' ');
  return [
    {
      heading: [first!, second],
      cell: (variant) => `${variant.label}${variants[best ?? -1] === variant ? ' best' : ''}`,
    },
    { heading: ['first winter', 'klm h'], cell: can(({ tonight }) => fixed(tonight.light_lm_h / 1000, 2)) },
    { heading: ['failed', 'nights'], cell: can(({ tonight }) => nightsText(tonight.failedNights)) },
    { heading: ['winters', 'kept'], cell: can(({ bands }) => keptText(bands)) },
    {
      heading: ['light until then', 'klm h'],
      cell: can(({ untilBreak_klm_h }) => bandWords(bandOf(untilBreak_klm_h, Number), shortNumber)),
    },
  ];
}

/** Winters before the promise first breaks; all that were run where it does not. */
export function keptWinters({ breaks, winters }: LampLife): number {
  return breaks === undefined ? winters.length : breaks - 1;
}

function keptText(bands: readonly LampLife[]): string {
  const all = bands[0]!.winters.length;
  return bandWords(bandOf(bands, keptWinters), (kept) => (kept === all ? `${all}+` : `${kept}`));
}

/** What a sweep comes to: where the most light is, what one step less buys, and values that cannot be. */
export function sweepSentences({ variants, best }: LifeSweep): string[] {
  const most = variants[best ?? -1];
  const brightest = variants.reduce<LifeVariant | undefined>(
    (so, each) =>
      each.cannotBe === undefined && (so === undefined || each.tonight.light_lm_h > so.tonight.light_lm_h)
        ? each
        : so,
    undefined,
  );
  const total = ({ untilBreak_klm_h }: LifeVariant) =>
    bandWords(bandOf(untilBreak_klm_h, Number), shortNumber, 'klm h');
  const told =
    most === undefined || brightest === undefined
      ? 'No value keeps the promise for a winter: none is best.'
      : most === brightest
        ? `Most light until the promise breaks at ${most.label}, ${total(most)}, where there is also most light in the first winter.`
        : `Most light until the promise breaks at ${most.label}, ${total(most)} (the middle factor decides); most light in the first winter at ${brightest.label}, where it is ${total(brightest)} until then.`;
  const cannot = variants.flatMap(({ label, cannotBe }) =>
    cannotBe === undefined ? [] : [`${label} cannot be: ${cannotBe}`],
  );
  return [told, ...cannot].map((words) => (words.endsWith('.') ? words : `${words}.`));
}
