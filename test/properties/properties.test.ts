import { expect, it } from 'vitest';
import { CELL_DIODE_CIRCUIT } from './cellDiodeCircuit.property.ts';
import { LAMP_YEAR } from './lampYear.property.ts';
import { SPOT_PLACE } from './spotPlace.property.ts';

/** A sixteenth of the inputs, the first of them; properties.slow.test.ts tries all. */
it.each([...CELL_DIODE_CIRCUIT, ...LAMP_YEAR, ...SPOT_PLACE])('$title', ({ check, runs }) => {
  expect.hasAssertions();
  check(Math.ceil(runs / 16));
});
