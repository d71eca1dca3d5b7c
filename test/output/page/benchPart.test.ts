import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { benchPart } from '../../../sim/output/page/benchPart.ts';
import { loadScenario } from '../../../sim/scenario/loadScenario.ts';
import { type BuildSheet, benchSheet } from '../../../sim/trial/benchSheet.ts';

function partOf(name: string) {
  const file = fileURLToPath(new URL(`../../../scenarios/${name}.yaml`, import.meta.url));
  const { lamps, spots } = loadScenario(file);
  const lamp = lamps[0]!;
  const sheet = benchSheet(lamp, spots) as BuildSheet;
  return { lamp, sheet, markup: benchPart('bench-1', sheet, lamp.settled) };
}

it('the part of the page has a row for every check and part, the picture, and the cautions', () => {
  const { sheet, markup } = partOf('invented-garden');
  expect(markup.match(/<tr>/g)).toHaveLength(sheet.checks.length + sheet.parts.length + 2);
  expect(markup).toContain('picture-connection');
  for (const { what } of sheet.checks) expect(markup).toContain(what);
  for (const caution of sheet.cautions) expect(markup).toContain(caution);
  expect(markup).not.toMatch(/NaN|undefined|Infinity|e\+\d/);
});

it('the picture shows what the readings settled, not what they replaced', () => {
  const { lamp, markup } = partOf('bench-readings');
  const { driver } = lamp.settled;
  const inductance_uH = 'inductance_uH' in driver ? driver.inductance_uH! : Number.NaN;
  expect(Math.abs(inductance_uH / 680 - 1)).toBeGreaterThan(0.01);
  expect(markup).toContain('stops at 0.88 V');
  expect(markup).toContain(`inductor, ${inductance_uH.toFixed(1)} µH`);
});
