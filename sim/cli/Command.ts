import type { Io } from './Io.ts';
import type { OptionName } from './options.ts';

/** What was typed after a command's name, understood and checked. */
export interface Arguments {
  /** Words that are no options, in order. */
  words: readonly string[];
  /** Whether an option was given. */
  has: (option: OptionName) => boolean;
  /** Value of an option that takes one; undefined where it was not given. */
  text: (option: OptionName) => string | undefined;
  /** Values of an option that was typed once or more, in order. */
  all: (option: OptionName) => readonly string[];
  /** The same as one of a few words. throws: USAGE where it is none of them */
  oneOf: <Word extends string>(option: OptionName, words: readonly Word[]) => Word | undefined;
  /** The same as a number. throws: USAGE where it is none, or not within */
  number: (option: OptionName, from: number, to: number) => number | undefined;
}

/** A command as its help tells of it: one entry in commands.ts, and one file in commands/ that does it. */
export interface Command {
  name: string;
  /** Words it takes, in the manner of a usage line: 'SCENARIO' is needed, '[SCENARIO]' is not, 'SCENARIO...' one or more. */
  words: readonly string[];
  about: string;
  /** What to type, and what it is for. */
  examples: readonly (readonly [string, string])[];
  options: readonly OptionName[];
  /** What it does, loaded when it is called: answers with the exit code. */
  load: () => Promise<(args: Arguments, io: Io) => Promise<number>>;
}
