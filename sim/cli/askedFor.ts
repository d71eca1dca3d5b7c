import type { Arguments } from './Command.ts';
import type { Io } from './Io.ts';
import type { OptionName } from './options.ts';
import { readingsOf } from './parseCommandLine.ts';

/** A question that stands for an option. */
export interface Question {
  option: OptionName;
  question: string;
  /** Asked only where this option was typed or answered. */
  after?: OptionName;
}

/**
 * What was typed, with the answers to questions in place of the options that were not: only where a person watches. An
 * empty answer leaves its option away; an option that may be typed more than once takes answers parted by blanks.
 *
 * in: args; questions, in order; io
 */
export async function askedFor(args: Arguments, questions: readonly Question[], io: Io): Promise<Arguments> {
  if (io.ask === undefined) return args;
  const answers = new Map<OptionName, string>();
  const known = (option: OptionName) => args.text(option) ?? answers.get(option);
  for (const { option, question, after } of questions) {
    if (known(option) !== undefined || (after !== undefined && known(after) === undefined)) continue;
    const answer = (await io.ask(`${question}: `)).trim();
    if (answer !== '') answers.set(option, answer);
  }
  return {
    ...args,
    ...readingsOf(known),
    all: (option) => {
      const answer = answers.get(option);
      return answer === undefined ? args.all(option) : answer.split(/\s+/);
    },
  };
}
