import type { Io } from './Io.ts';
import type { OptionName } from './options.ts';

/** What was typed after a command's name, understood and checked. */
export interface Arguments {
  /** Words that are no options, in order. */
  words: readonly string[];
  /** Switches that were given. */
  has: (option: OptionName) => boolean;
  /** Value of an option of kind text; undefined where it was not given. */
  text: (option: OptionName) => string | undefined;
}

/** A command: one file in commands/, one entry in the registry. */
export interface Command {
  name: string;
  /** Words it takes, in the manner of a usage line: 'SCENARIO' is needed, '[SCENARIO]' is not, 'SCENARIO...' one or more. */
  words: readonly string[];
  about: string;
  /** What to type, and what it is for. */
  examples: readonly (readonly [string, string])[];
  options: readonly OptionName[];
  /** out: exit code */
  run: (args: Arguments, io: Io) => Promise<number>;
}
