/** What every result carries for whoever goes and builds the lamp, short enough to be read; summary.json has it in full. */
export const CAUTION_LINES = [
  'Care: a shorted capacitor gives hundreds of amperes; discharge it, mind its rated volts and poles.',
  'Jars heat, resin needs air, water a drain; decoration, not for stairs or exits; local rules first.',
] as const;
