import { expect, it } from 'vitest';
import { lampSchema } from '../../../sim/lamp/schema.ts';
import { connectionFigure } from '../../../sim/output/figures/connectionFigure.ts';
import type { LampInput } from '../../lamp/makeLamp.ts';
import { libraryLamp } from '../../year/days.ts';

const WIRES = [{ from: 'cell +', to: 'diode anode' }];

function figureOf(changes: Partial<LampInput> = {}, name = 'invented') {
  return connectionFigure('bench-1', name, lampSchema.parse(libraryLamp(changes)), WIRES);
}

function count(svg: string, mark: string): number {
  return svg.match(new RegExp(`class="[^"]*\\bpart-${mark}\\b`, 'g'))?.length ?? 0;
}

it('the picture has one mark for each part of the bank, and its words say how they stand', () => {
  const { svg, narrow } = figureOf({ capacitor: { ...libraryLamp().capacitor, parallel: 3, series: 2 } });
  expect(count(svg, 'capacitor')).toBe(6);
  expect(count(svg, 'cell')).toBe(1);
  expect(count(svg, 'led')).toBe(1);
  for (const form of [svg, narrow.svg]) {
    const words = [...form.matchAll(/>([^<]*)<\/text>/g)].map(([, text]) => text);
    expect(words.join(' ')).toContain('3 in parallel, each of 2 in series');
  }
});

it('a bank too large to draw says in its words how large it is, and that it is drawn in part', () => {
  const { svg, summary } = figureOf({ cell: { ...libraryLamp().cell, parallel: 20 } });
  expect(count(svg, 'cell')).toBe(4);
  expect(svg).toContain('20 in parallel');
  expect(summary).toContain('only some parts are drawn');
  expect(figureOf().summary).not.toContain('only some parts');
});

it('only a boost has an inductor, and an ideal-diode switch is no diode', () => {
  expect(count(figureOf().svg, 'inductor')).toBe(1);
  const other = figureOf({
    driver: { kind: 'power', power_mW: 20 },
    diode: { switch_on_ohm: 0.1 },
  }).svg;
  expect(count(other, 'inductor')).toBe(0);
  expect(other).toContain('ideal-diode switch');
  expect(other).not.toContain('ring towards');
});

it('the table and the summary are the wires; a name can do no harm', () => {
  const { svg, table, summary } = figureOf({}, '<script>');
  expect(table.rows).toEqual([['cell +', 'diode anode']]);
  expect(summary).toBe('cell + to diode anode.');
  expect(svg).not.toContain('<script>');
  expect(svg).not.toMatch(/NaN|undefined/);
});
