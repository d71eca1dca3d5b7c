import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { benchPart } from '../../../sim/output/page/benchPart.ts';
import { loadScenario } from '../../../sim/scenario/loadScenario.ts';
import { benchSheet } from '../../../sim/trial/benchSheet.ts';

function partOf(name: string) {
  const file = fileURLToPath(new URL(`../../../scenarios/${name}.yaml`, import.meta.url));
  const lamp = loadScenario(file).lamps[0]!;
  const sheet = benchSheet(lamp);
  return { sheet, markup: benchPart('bench-1', sheet, lamp.settled) };
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
  const { markup } = partOf('bench-readings');
  expect(markup).toContain('stops at 0.88 V');
  expect(markup).toContain('inductor, 845.3 uH');
});
