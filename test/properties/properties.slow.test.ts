import { expect, it } from 'vitest';
import { FUZZ } from '../fuzz/all.ts';
import { CELL_DIODE_CIRCUIT } from './cellDiodeCircuit.property.ts';
import { LAMP_YEAR } from './lampYear.property.ts';
import { SPOT_PLACE } from './spotPlace.property.ts';

it.each([...CELL_DIODE_CIRCUIT, ...LAMP_YEAR, ...SPOT_PLACE, ...FUZZ])('$title', async ({ check, runs }) => {
  expect.hasAssertions();
  await check(runs);
});
