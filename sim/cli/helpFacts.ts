/** What the command line answers to the shell, in words. */
export const EXIT_WORDS: readonly (readonly [code: number, words: string])[] = [
  [0, 'ran'],
  [1, 'failed (the disk, a defect)'],
  [2, 'bad usage or input'],
  [3, 'a promise is broken, and --must-keep was given'],
  [130, 'interrupted'],
];

/** What the program reads of the environment. */
export const VARIABLES: readonly (readonly [name: string, words: string])[] = [
  ['NO_COLOR', 'no colours'],
  ['FORCE_COLOR', 'colours in a file too, with 0 none'],
  ['COLUMNS', "the terminal's width, 60 at least"],
  ['LONGNIGHT_TRACE=1', 'where a defect lies'],
];

export const STREAM_WORDS = 'A file that is called - is standard input, after --write standard output.';
