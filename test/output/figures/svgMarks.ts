import { expect } from 'vitest';
import type { Figure } from '../../../sim/output/figures/Figure.ts';

/** Elements of a class in a picture, its legend left out. */
export function marksOf(figure: Pick<Figure, 'svg'>, name: string, className: string): string[] {
  const drawn = figure.svg.replace(/<g class="legend">.*?<\/g>/gs, '');
  const found = drawn.match(new RegExp(`<${name}\\b[^>]*>`, 'g')) ?? [];
  return found.filter((tag) => (/class="([^"]*)"/.exec(tag)?.[1] ?? '').split(' ').includes(className));
}

/** The value of an attribute of an element. */
export function numberOf(tag: string, attribute: string): number {
  return Number(new RegExp(` ${attribute}="([^"]*)"`).exec(tag)?.[1]);
}

/** Every bracket closed, in the order it was opened. */
export function expectWellFormed(markup: string): void {
  const open: string[] = [];
  for (const [, closing, name, own] of markup.matchAll(/<(\/?)([a-zA-Z]+)(?:\s[^<>]*?)?(\/?)>/g)) {
    if (closing === '/') expect(open.pop()).toBe(name);
    else if (own !== '/') open.push(name!);
  }
  expect(open).toEqual([]);
  expect(markup).not.toMatch(/NaN|Infinity|undefined/);
}
