import { chosen } from '../fitting/scenarioWithReadings.ts';
import type { Scenario } from '../scenario/Scenario.ts';
import type { TrialNames } from '../trial/namedTrials.ts';
import type { Arguments } from './Command.ts';

/**
 * The trials that `--spot` and `--lamp` mean.
 *
 * in: args; scenario, that must have them
 * throws: USAGE where it has no such spot or lamp
 */
export function trialNames(args: Arguments, { spots, lamps }: Scenario): TrialNames {
  const named = (kind: 'spot' | 'lamp', known: readonly { name: string }[]) =>
    args.text(kind) === undefined ? undefined : chosen(kind, known, args.text(kind)).name;
  return { spot: named('spot', spots), lamp: named('lamp', lamps) };
}
