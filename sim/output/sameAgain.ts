import type { Program } from './program.ts';

/** What a result rests on. */
export interface Grounds {
  seed: number;
  /** SHA-256 of each scenario, hexadecimal. */
  scenarios: readonly string[];
  /** SHA-256 of the weather; '' or undefined where there is none. */
  weather: string | undefined;
}

/** Signs of a digest that tell files apart. */
const DIGEST_SIGNS = 12;

/**
 * The sentence that says what gives the same result again.
 *
 * in: grounds; program, what made it; options, as typed, that moved it
 * @example sameAgain({ seed: 1, scenarios: ['0123456789abcdef'], weather: '' }, { version: '1.2.3', nodeMajor: 20 }, []); // => 'The same again: longnight 1.2.3, Node 20, seed 1, scenario 0123456789ab.'
 */
export function sameAgain(
  { seed, scenarios, weather = '' }: Grounds,
  { version, nodeMajor }: Program,
  options: readonly string[],
): string {
  const short = (digest: string) => digest.slice(0, DIGEST_SIGNS);
  const facts = [
    `longnight ${version}`,
    `Node ${nodeMajor}`,
    `seed ${seed}`,
    `scenario ${scenarios.map(short).join(' and ')}`,
    ...(weather === '' ? [] : [`weather ${short(weather)}`]),
    ...(options.length === 0 ? [] : [options.join(' ')]),
  ];
  return `The same again: ${facts.join(', ')}.`;
}
