import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type SmallGarden, smallGarden } from '../cli/smallGarden.ts';

/** Prices of an invented lamp, and what may be chosen of it. */
const PRICED: readonly (readonly [string, string])[] = [
  ['part: small-cell }', 'part: small-cell, price: 2, pack: 4, in_drawer: 1 }'],
  ['part: small-schottky }', 'part: small-schottky, price: 0.1, pack: 10 }'],
  ['part: medium-capacitor }', 'part: medium-capacitor, price: 1, price_per_F: 0.01 }'],
  ['cutoff_V: 0.9 }', 'cutoff_V: 0.9, price: 1.5 }'],
  ['part: white-led }', 'part: white-led, price: 0.2 }'],
];

/** A small garden of a year whose one lamp has prices and choices. in: choices, as YAML lines; cell, of the lamp, as YAML */
export function choiceGarden(
  choices = 'choices: { cell: { parallel: [1, 2] }, capacitor: { capacitance_F: [10, 22, 100] } }\n',
  cell?: string,
): SmallGarden {
  const garden = smallGarden(365);
  const file = join(garden.folder, 'small.yaml');
  const text = PRICED.reduce((all, [from, to]) => all.replace(from, to), readFileSync(file, 'utf8'));
  const lamp = cell === undefined ? text : text.replace(/cell: \{ part: [^}]+\}/, cell);
  writeFileSync(file, `${lamp.replace('site:', 'currency: EUR\nsite:')}${choices}`);
  return garden;
}
