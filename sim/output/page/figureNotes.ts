/** What a picture's numbers are, what they rest on, and whose equations they follow. */
export interface FigureNote {
  /** Name of its section on the page. */
  heading: string;
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
    'L. Zubieta and R. Bonert, Characterization of double-layer capacitors for power electronics applications',
  IEC60904: 'IEC 60904-3: standard test conditions of photovoltaic devices',
  ISO9488: 'ISO 9488, Solar energy, Vocabulary',
};

/** By the key of the picture. */
export const FIGURE_NOTES: Readonly<Record<string, FigureNote>> = {
  nights: {
    heading: 'Every night',
    unit: 'Hours by the clock on the wall, daylight saving included; capacitor in volts.',
    assumption:
      "Dusk and dawn are the sun's centre 6 degrees below the horizon. Lit means at or above the promised light. Each hour's lit and dark minutes are exact; where several changes fall into one hour they are shown as one.",
    sources: ['Meeus1998'],
  },
  changes: {
    heading: 'What single changes would do',
    unit: 'Nights that fail.',
    assumption:
      'Each change alone, the whole record run again with it, all else as stated. Costs only where the scenario gives prices.',
    sources: [],
  },
  capacitor: {
    heading: 'The capacitor through the year',
    unit: 'Volts across the capacitor, light in W/m2 on the cell.',
    assumption:
      "The reachable voltage is where the cell's current through the diode equals leakage and standby in that light and temperature; leakage falls with voltage by the law stated in the scenario.",
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
      "Unharvested is what the cell's best point would have given beyond what it gave, since the capacitor holds it at its own voltage: 'capacitor low' below the best voltage, 'capacitor high' above it. What the cell gave is the sum of the parts below and the change of what is stored.",
    sources: ['IEC60904', 'ZubietaBonert2000'],
  },
  sky: {
    heading: 'The sky from the spot',
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
    unit: 'Share of the promised hours, lit and dark.',
    assumption: 'Of each the worst winter of the record.',
    sources: [],
  },
  weather: {
    heading: 'The year of the weather',
    unit: 'W/m2 of global light on a level plane, mean of the hour; degrees Celsius.',
    assumption: 'As the file gives it; where it has global light only, beam and sky light are split from it.',
    sources: ['ISO9488', 'Erbs1982'],
  },
};
