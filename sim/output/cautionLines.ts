/** What every result carries for whoever goes and builds the lamp, short enough to be read; summary.json has it in full. */
export const CAUTION_LINES = [
  'Care: a shorted store gives hundreds of amperes; discharge it through a resistor; mind volts and poles.',
  'Jars in sun get hot; air the work, drain the jar. Decoration only, never stairs or exits. Obey the rules.',
] as const;
