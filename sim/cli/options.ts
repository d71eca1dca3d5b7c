/** An option of the command line. */
export interface OptionFacts {
  kind: 'switch' | 'text';
  /** What it does, in a few words. */
  about: string;
  /** What its value is: a folder, a file, or a unit; only of kind text. */
  unit?: string;
  /** A use of it, as typed. */
  example: string;
}

/** Every option of every command; a command names those it takes. */
export const OPTIONS = {
  json: {
    kind: 'switch',
    about: 'print JSON and nothing else; the bytes of summary.json, or of compare.json',
    example: '--json',
  },
  out: {
    kind: 'text',
    about: 'where each scenario gets its folder, "out" unless given',
    unit: 'folder',
    example: '--out results',
  },
  'must-keep': {
    kind: 'switch',
    about: 'exit with 3 when a promise is broken',
    example: '--must-keep',
  },
  hours: {
    kind: 'switch',
    about: 'write hours.csv for records of more than one year too',
    example: '--hours',
  },
  weather: {
    kind: 'text',
    about: "a file in place of the scenario's weather, read in the same way",
    unit: 'file',
    example: '--weather other-year.csv',
  },
  by: {
    kind: 'text',
    about: 'what stands side by side, "spot" unless given',
    unit: 'word, spot or lamp,',
    example: '--by lamp',
  },
  schema: {
    kind: 'switch',
    about: 'print the JSON Schema of scenarios, for editors',
    example: '--schema',
  },
} as const satisfies Record<string, OptionFacts>;

export type OptionName = keyof typeof OPTIONS;
