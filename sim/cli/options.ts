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
    about: "a file in place of the scenario's weather, of any layout",
    unit: 'file',
    example: '--weather other-year.csv',
  },
  scenario: {
    kind: 'text',
    about: 'takes the place from a scenario',
    unit: 'file',
    example: '--scenario scenarios/invented-garden.yaml',
  },
  latitude: {
    kind: 'text',
    about: 'latitude of the place, north positive',
    unit: 'degrees',
    example: '--latitude 54',
  },
  longitude: {
    kind: 'text',
    about: 'longitude of the place, east positive',
    unit: 'degrees',
    example: '--longitude 10',
  },
  elevation: {
    kind: 'text',
    about: 'height of the place',
    unit: 'm',
    example: '--elevation 20',
  },
  zone: {
    kind: 'text',
    about: 'the clock of the stamps, over what the file says: UTC, +01:00, Europe/Berlin, solar',
    unit: 'zone',
    example: '--zone +01:00',
  },
  marks: {
    kind: 'text',
    about: 'which instant of its interval a stamp marks, over what the file says',
    unit: 'word, start, middle or end,',
    example: '--marks end',
  },
  believe: {
    kind: 'text',
    about: "where stamps and sun disagree: take the sun's correction, or insist on the file's word",
    unit: 'word, sun or file,',
    example: '--believe sun',
  },
  'accept-filled': {
    kind: 'switch',
    about: 'take months of which more than a tenth of the daylight had to be filled',
    example: '--accept-filled',
  },
  air: {
    kind: 'text',
    about: 'air temperature for hours without one, in place of a usual one by latitude',
    unit: 'degC',
    example: '--air 8',
  },
  write: {
    kind: 'text',
    about: "save the hours in this tool's own plain form",
    unit: 'file',
    example: '--write 2021.csv',
  },
  by: {
    kind: 'text',
    about: 'what stands side by side, "spot" unless given',
    unit: 'word, spot or lamp,',
    example: '--by lamp',
  },
  log: {
    kind: 'text',
    about: 'capacitor voltages that a lamp in service logged: CSV with time_utc and capacitor_V',
    unit: 'file',
    example: '--log january.csv',
  },
  lamp: {
    kind: 'text',
    about: 'the lamp that it belongs to, where the scenario has several',
    unit: 'name',
    example: '--lamp single',
  },
  spot: {
    kind: 'text',
    about: 'the spot that it stood in, where the scenario has several',
    unit: 'name',
    example: '--spot lawn',
  },
  readings: {
    kind: 'text',
    about: 'bench readings of one lamp: CSV with part, key and value',
    unit: 'file',
    example: '--readings bench.csv',
  },
  spread: {
    kind: 'switch',
    about: 'run each lamp again over what its bench readings leave open: does the verdict stand',
    example: '--spread',
  },
  figures: {
    kind: 'text',
    about: 'write the pictures of the page as SVG files too',
    unit: 'folder',
    example: '--figures pictures',
  },
  bench: {
    kind: 'switch',
    about: 'parts, wires, and what to measure at each lamp before its lid is closed, with bands',
    example: '--bench',
  },
  schema: {
    kind: 'switch',
    about: 'print the JSON Schema of scenarios, for editors',
    example: '--schema',
  },
} as const satisfies Record<string, OptionFacts>;

export type OptionName = keyof typeof OPTIONS;
