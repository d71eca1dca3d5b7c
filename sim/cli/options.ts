/** An option of the command line: a switch, or one that takes a value. */
export interface OptionFacts {
  /** What it does, in a few words. */
  about: string;
  /** What its value is: a folder, a file, or a unit; a switch has none. */
  unit?: string;
  /** The words that its value is one of. */
  choices?: readonly string[];
  /** Whether it may stand without its value, which is a number. */
  optional?: true;
  /** A use of it, as typed. */
  example: string;
}

/** Every option of every command; a command names those it takes. */
export const OPTIONS = {
  json: {
    about: 'print JSON and nothing else',
    example: '--json',
  },
  out: {
    about: 'where each scenario gets its folder, "out" unless given',
    unit: 'folder',
    example: '--out results',
  },
  'no-files': {
    about: 'write no file: the terminal, or --json, says all',
    example: '--no-files',
  },
  'must-keep': {
    about:
      'exit with 3 when a promise is broken; with a share, when of several winters fewer may be kept (the lower bound of the chance; with size and no --winters the winters on file); without the dark months of a winter none is judged, nor broken',
    unit: 'share',
    optional: true,
    example: '--must-keep 0.9',
  },
  hours: {
    about: 'write hours.csv for records of more than one year too',
    example: '--hours',
  },
  weather: {
    about:
      "a file in place of the scenario's weather, of any layout; of several, or 'folder/*.csv', one record is made",
    unit: 'file',
    example: '--weather other-year.csv',
  },
  scenario: {
    about: 'takes the place from a scenario',
    unit: 'file',
    example: '--scenario scenarios/invented-garden.yaml',
  },
  details: {
    about:
      'all there is, not only what to act on: of weather how it was read and why, of a run every change, night and month, of a life every winter, of a fit its tables',
    example: '--details',
  },
  place: {
    about: 'where the weather was measured, north and east positive; the elevation may be left out',
    unit: 'place, LAT,LON[,ELEVATION],',
    example: '--place 54,10,20',
  },
  zone: {
    about: 'the clock of the stamps, over what the file says: UTC, +01:00, Europe/Berlin, solar',
    unit: 'zone',
    example: '--zone +01:00',
  },
  marks: {
    about: 'which instant of its interval a stamp marks, over what the file says',
    unit: 'word, start, middle or end,',
    choices: ['start', 'middle', 'end'],
    example: '--marks end',
  },
  column: {
    about: 'the column of a quantity, by heading or number; once for each (ghi, dni, air_temperature ...)',
    unit: 'quantity and column, QUANTITY=NAME,',
    example: '--column ghi="Global radiation"',
  },
  unit: {
    about: 'the unit of a quantity, over what the file says; once for each',
    unit: 'quantity and unit, QUANTITY=UNIT,',
    example: '--unit ghi=J/cm2',
  },
  station: {
    about: 'the station that is meant, where a file holds several',
    unit: 'name',
    example: '--station Northfield',
  },
  from: {
    about: 'only the part of the record from this day or month on, UTC',
    unit: 'date',
    example: '--from 2021-10-01',
  },
  to: {
    about: 'only the part of the record up to and with this day or month, UTC',
    unit: 'date',
    example: '--to 2022-03-31',
  },
  believe: {
    about: "where stamps and sun disagree: take the sun's correction, or insist on the file's word",
    unit: 'word, sun or file,',
    choices: ['sun', 'file'],
    example: '--believe sun',
  },
  'accept-filled': {
    about: 'take months of which more than a tenth of the daylight had to be filled',
    example: '--accept-filled',
  },
  'whole-record': {
    about: 'count all of a long record, though a break in it shows that its station moved or came into shade',
    example: '--whole-record',
  },
  air: {
    about: 'air temperature for hours without one, in place of a usual one by latitude',
    unit: 'degC',
    example: '--air 8',
  },
  write: {
    about: "save what was read: hours in this tool's own plain form, a climate as YAML",
    unit: 'file',
    example: '--write 2021.csv',
  },
  force: {
    about: 'replace the file of --write where it is there already',
    example: '--force',
  },
  by: {
    about: 'what stands side by side, "spot" unless given',
    unit: 'word, spot or lamp,',
    choices: ['spot', 'lamp'],
    example: '--by lamp',
  },
  log: {
    about:
      "capacitor voltages that a lamp in service logged, CSV with time_utc and capacitor_V; or a diary, a line a night: when it went out, or a time and 'lit'; both by --log twice",
    unit: 'file',
    example: '--log january.csv',
  },
  lamp: {
    about: 'the lamp that is meant, where the scenario has several',
    unit: 'name',
    example: '--lamp single',
  },
  spot: {
    about: 'the spot that is meant, where the scenario has several',
    unit: 'name',
    example: '--spot lawn',
  },
  discharge: {
    about:
      'the discharge of a capacitor that a logger kept: time and voltage, as the file is; needs no scenario',
    unit: 'file',
    example: '--discharge data-samples/discharge-curve.csv',
  },
  rated: {
    about: 'rated voltage of the discharged capacitor, over what the file says',
    unit: 'V',
    example: '--rated 2.7',
  },
  current: {
    about: 'constant current of the discharge, over what the file says',
    unit: 'A',
    example: '--current 0.1',
  },
  ohms: {
    about: 'load resistor of the discharge, over what the file says',
    unit: 'ohm',
    example: '--ohms 10',
  },
  readings: {
    about: 'bench readings of one lamp: CSV with part, key and value',
    unit: 'file',
    example: '--readings bench.csv',
  },
  spread: {
    about: 'run each lamp again over what its bench readings leave open: does the verdict stand',
    example: '--spread',
  },
  winters: {
    about:
      'make so many winters that have not happened, from a record of five or more or from twelve monthly means: how likely is a bad one; with size the cheapest lamp whose chance to keep them reaches --must-keep SHARE',
    unit: 'number',
    example: '--winters 300',
  },
  batch: {
    about: 'with --winters: so many lamps built to each list of parts, within the tolerances: how many fail',
    unit: 'number',
    example: '--batch 12',
  },
  years: {
    about: 'how many winters a lamp is followed, 40 unless given, 1000 at most',
    unit: 'number',
    example: '--years 40',
  },
  card: {
    about:
      'a card for the jar of each lamp too, in the text and to print from the page: what to do each year, and what a voltage means',
    example: '--card',
  },
  exact: {
    about: 'run every winter of a life, in place of as many as tell each to one night',
    example: '--exact',
  },
  'never-cleaned': {
    about: 'leave the dirt on the lid, in place of brushing it off each spring',
    example: '--never-cleaned',
  },
  limit: {
    about:
      'try charge limits (a limiter at these voltages of the bank): light tonight against winters; in steps of 0.1 V, or "A..B by STEP"',
    unit: 'range, A..B,',
    example: '--limit 1.8..2.7',
  },
  'led-current': {
    about: 'the same for the current drawn, so many times as stated, in steps of 0.1',
    unit: 'range, A..B,',
    example: '--led-current 0.5..1.5',
  },
  capacitors: {
    about: 'the same for the number of capacitors in parallel',
    unit: 'range, A..B,',
    example: '--capacitors 1..3',
  },
  'cheap-lamp': {
    about:
      'the lamp from a shop that it is held against: its price, and the winters after which it is replaced; 5,2 unless given',
    unit: 'pair, PRICE,WINTERS,',
    example: '--cheap-lamp 5,2',
  },
  figures: {
    about: 'write the pictures of the page as SVG files too',
    unit: 'folder',
    example: '--figures pictures',
  },
  promise: {
    about: 'hours from dusk for which light is promised, 6 unless given',
    unit: 'h',
    example: '--promise 6',
  },
  'least-light': {
    about: 'least light that counts as lit, 0.65 unless given',
    unit: 'lm',
    example: '--least-light 0.65',
  },
  'wall-clock': {
    about: "time zone of the clock on the wall, this computer's unless given",
    unit: 'zone',
    example: '--wall-clock Europe/Berlin',
  },
  around: {
    about:
      'what stands around the spot, once for each: a wall, house, hedge, fence or tree, the bearing of its middle, its distance, height and width in m',
    unit: 'obstacle, KIND=BEARING,DISTANCE,HEIGHT,WIDTH,',
    example: '--around house=S,6,5,10',
  },
  have: {
    about:
      'what lies in the drawer, once for each: a cell by mA and V in full sun and its junctions in series, a capacitor by F, rated V and how many',
    unit: 'part, cell=MA,V,JUNCTIONS or capacitor=F,V,COUNT,',
    example: '--have cell=500,2.45,4',
  },
  budget: {
    about: 'money for one lamp, in the currency of the prices: the brightest that it buys is told too',
    unit: 'number',
    example: '--budget 12',
  },
  lamps: {
    about: 'how many lamps are to be built: what to buy for them, packs and drawer counted',
    unit: 'number',
    example: '--lamps 12',
  },
  assign: {
    about: 'which of the lamps there are goes into which of the spots, so that most promises are kept',
    example: '--assign',
  },
  bench: {
    about: 'care, parts, wires, what to measure at each lamp, with bands; a sheet to survey each spot',
    example: '--bench',
  },
  sensitivity: {
    about: 'the five assumptions that move the verdict most, found by running them, and what to measure',
    example: '--sensitivity',
  },
  find: {
    about:
      'one value for every lamp in every spot: the least capacitance, the longest promise, the deepest shade, the most light or the inductor with which every night is kept',
    unit: 'word, capacitance, promise, shade, light or inductor,',
    choices: ['capacitance', 'promise', 'shade', 'light', 'inductor'],
    example: '--find capacitance',
  },
  'lit-hours': {
    about: 'with --find inductor: for how long it is to be lit every night; as promised unless given',
    unit: 'h',
    example: '--lit-hours 8',
  },
  quiet: {
    about: 'say nothing on stderr but what is wrong: no progress, no paths beside --json',
    example: '--quiet',
  },
  'no-color': {
    about: 'no colours, as with the variable NO_COLOR set',
    example: '--no-color',
  },
  schema: {
    about: 'print the JSON Schema of scenarios, for editors',
    example: '--schema',
  },
} as const satisfies Record<string, OptionFacts>;

export type OptionName = keyof typeof OPTIONS;

/** Those of every command. */
export const COMMON_OPTIONS = ['quiet', 'no-color'] as const satisfies readonly OptionName[];

/** Those of every command that writes results. */
export const RESULT_OPTIONS = [
  'json',
  'out',
  'no-files',
  'must-keep',
  'figures',
] as const satisfies readonly OptionName[];

/** Those of every command that reads weather of any layout. */
export const WISH_OPTIONS = [
  'place',
  'zone',
  'marks',
  'column',
  'unit',
  'station',
  'from',
  'to',
  'believe',
  'accept-filled',
] as const satisfies readonly OptionName[];

/**
 * What is known of an option.
 *
 * in: name, as typed after '--'
 * out: its facts; undefined where there is no such option
 * @example optionFacts('out').unit; // => 'folder'
 */
export function optionFacts(name: string): OptionFacts | undefined {
  return Object.entries(OPTIONS).find(([known]) => known === name)?.[1];
}
