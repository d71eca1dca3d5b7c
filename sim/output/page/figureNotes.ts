/** What a picture's numbers are, what they rest on, and whose equations they follow. */
export interface FigureNote {
  /** Name of its section on the page; the title of the picture where there is none. */
  heading?: string;
  unit: string;
  assumption: string;
  /** Keys of the list of sources. */
  sources: readonly string[];
}

/** Sources as the page cites them, by their keys in the program's list of sources. */
export const CITED: Readonly<Record<string, string>> = {
  Meeus1998: 'J. Meeus, Astronomical Algorithms, 2nd edition, Willmann-Bell 1998',
  Erbs1982: 'D. G. Erbs, S. A. Klein and J. A. Duffie, Solar Energy 28 (1982) 293-302',
  HayDavies1980:
    'J. E. Hay and J. A. Davies, Proc. First Canadian Solar Radiation Data Workshop, Toronto 1980 (from memory)',
  ZubietaBonert2000:
    'L. Zubieta and R. Bonert, Characterization of double-layer capacitors for power electronics applications (from memory)',
  IEC60904: 'IEC 60904-3: standard test conditions of photovoltaic devices (from memory)',
  HyndmanFan1996: 'R. J. Hyndman and Y. Fan, The American Statistician 50 (1996) 361-365 (from memory)',
  Wilson1927: 'E. B. Wilson, Journal of the American Statistical Association 22 (1927) 209-212 (from memory)',
  ISO9488: 'ISO 9488, Solar energy, Vocabulary (from memory)',
};

/** The same of what wears a lamp. */
export const LIFE_CITED: Readonly<Record<string, string>> = {
  SupercapacitorLife:
    "Life of supercapacitors by temperature and voltage: a factor of 2 per 10 K and of 1.3 per 0.1 V (a maker's guide, seen); of 2 per 0.2 V in other guides (from memory); of 2 per 0.1 V in D. Linzen et al. (2005), O. Bohlen, J. Kowal and D. U. Sauer (2007), R. Koetz et al. (2010) (all from memory)",
  IesTM2011:
    'IES TM-21-11, Projecting long-term luminous flux maintenance of LED light sources (from memory)',
  JordanKurtz2013:
    'D. C. Jordan and S. R. Kurtz, Photovoltaic degradation rates, an analytical review, Progress in Photovoltaics 21 (2013) 12-29 (from memory)',
};

/** What sweeps of a lamp's life rest on. */
const SWEPT_NOTE = {
  unit: 'Kilolumen-hours, of the first winter and of all that keep the promise; winters.',
  assumption:
    'Each value alone is changed, all else as stated; the lamp is run again through all its winters. A limiter that the lamp lacks is added, with its usual draw and heat.',
  sources: ['SupercapacitorLife', 'IesTM2011'],
} as const;

/** By the key of the picture. */
export const FIGURE_NOTES: Readonly<Record<string, FigureNote>> = {
  winters: {
    heading: 'Winter by winter, every night',
    unit: 'Share of the promised hours; the number before each row is its failed nights.',
    assumption:
      'A kept night is drawn as lit, whatever of its promise was short within the tolerance. Rows run with the season; 29 February has a place in all of them.',
    sources: [],
  },
  'winter-counts': {
    heading: 'Failed nights, from the best winter to the worst',
    unit: 'Failed nights of a winter.',
    assumption:
      'Winters are taken as a sample: typical is the median, and one winter in ten passes the worst in ten, which is told from ten winters on only. Whole winters alone, or their dark months.',
    sources: ['HyndmanFan1996', 'Wilson1927'],
  },
  nights: {
    heading: 'Every night',
    unit: 'Hours by the clock on the wall, daylight saving included; capacitor in volts.',
    assumption:
      "Dusk and dawn are the sun's centre 6 degrees below the horizon. Lit means at or above the promised light, dim on but below it, out off. Each hour's minutes of each are exact; where several changes fall into one hour they are shown as one.",
    sources: ['Meeus1998'],
  },
  odds: {
    heading: 'When it fails',
    unit: 'Of a hundred made winters.',
    assumption:
      'Winters are made from those on file; a climate that changes, or a winter unlike any on file, is not foreseen.',
    sources: [],
  },
  changes: {
    heading: 'What single changes would do',
    unit: 'Failed nights.',
    assumption:
      'Each change alone, the whole record run again with it, all else as stated. What is added costs only where its parts have prices; those of generic parts are from memory.',
    sources: [],
  },
  capacitor: {
    heading: 'The capacitor through the year',
    unit: 'Volts across the capacitor, light in W/m2 on the cell.',
    assumption:
      'The cell can charge the capacitor up to the voltage at which its current through the diode just covers leakage and standby, in that light and temperature; leakage falls with voltage by the law stated in the scenario.',
    sources: ['ZubietaBonert2000', 'IEC60904'],
  },
  fortnight: {
    heading: 'The darkest fortnight, hour by hour',
    unit: 'W/m2, degrees Celsius, volts, lumen; light and LED are means of the hour.',
    assumption:
      'The 14 nights running with most short hours; of equals the one with least light on the cell. The jar follows the air with the time constant stated in the scenario.',
    sources: ['ZubietaBonert2000'],
  },
  brightness: {
    heading: 'How bright "lit" is',
    unit: 'Hours a night, mean over the nights of a month.',
    assumption:
      'Half and a fifth are of the light at switching on that same night: after a dull day that is little, so read all three together.',
    sources: [],
  },
  energy: {
    heading: 'Where the energy went',
    unit: 'Watt-hours a month (1 Wh is 3600 J).',
    assumption:
      "Not used is what the cell at its best voltage would have given beyond what it gave, since the capacitor holds it at its own: 'capacitor too low' below the best voltage, 'already full' above it. What the cell gave is the sum of the parts below and the change of what is stored.",
    sources: ['IEC60904', 'ZubietaBonert2000'],
  },
  sky: {
    unit: 'Degrees of bearing (clockwise from north) and elevation; hours of sun a day.',
    assumption:
      'The grid is of 5 degrees, trees in leaf. Through a crown of half transmittance an hour of sun counts half.',
    sources: ['Meeus1998', 'HayDavies1980'],
  },
  light: {
    heading: 'Light on the cell, spot by spot',
    unit: 'Wh/m2 a day, mean over the days of a month.',
    assumption:
      'On the cell as it lies in each spot, behind its cover. The open is level ground under the whole sky.',
    sources: ['HayDavies1980', 'Erbs1982'],
  },
  'nights-compared': {
    heading: 'The nights, side by side',
    unit: 'Share of the promised hours, lit, dim and out.',
    assumption: 'Of each the worst winter of the record.',
    sources: [],
  },
  designs: {
    heading: 'Cost against failed nights',
    unit: 'Money for the parts of one lamp that must be bought; failed nights by their square root, so that few can be told apart; area of a mark: lumen-hours a year.',
    assumption:
      'Every design was run over the whole record; those are missing that bounds showed to be beaten. Of designs that would lie on each other the brightest is drawn; designs.csv has all.',
    sources: [],
  },
  weather: {
    heading: 'The year of the weather',
    unit: 'W/m2 of global light on level ground, mean of the hour; degrees Celsius.',
    assumption: 'As the file gives it; where it has global light only, beam and sky light are split from it.',
    sources: ['ISO9488', 'Erbs1982'],
  },
  'life-capacitance': {
    heading: 'Capacitance left',
    unit: 'Percent of the capacitance of a new bank; winters of its life.',
    assumption:
      'The hours of one year come again each winter; within them the part ages by the hours, volts and degrees of its rating. Published factors differ, so three are run and none is picked. Below the end of the rating the same fade is carried on: an extrapolation.',
    sources: ['SupercapacitorLife'],
  },
  'life-nights': {
    heading: 'Failed nights by winter',
    unit: 'Failed nights of a winter; of several winters of weather their mean.',
    assumption:
      'Every winter the lamp is run as old as it is then: capacitance, series resistance, leakage, LED, cell and lid.',
    sources: ['SupercapacitorLife', 'IesTM2011', 'JordanKurtz2013'],
  },
  'life-chance': {
    heading: 'How likely a winter breaks the promise',
    unit: 'Of a hundred winters like those of the record, or made ones.',
    assumption:
      'Each winter of the life is run through all of these, with the lamp as old as it is then; the climate does not change.',
    sources: ['SupercapacitorLife'],
  },
  'life-limit': { heading: 'The charge limit: light now against winters', ...SWEPT_NOTE },
  'life-led-current': { heading: 'The current of the LED: light now against winters', ...SWEPT_NOTE },
  'life-capacitors': { heading: 'How many capacitors: light now against winters', ...SWEPT_NOTE },
};
