import { scaleLinear } from 'd3-scale';
import { fixed } from '../../common/csvText.ts';
import type { Remedy } from '../../trial/Remedy.ts';
import { element, shortNumber } from './element.ts';
import type { Figure } from './Figure.ts';
import { figureSvg } from './figureSvg.ts';
import { label } from './label.ts';

const WIDTH = 1000;
const TOP = 34;
const LEFT = 470;
const RIGHT = WIDTH - 150;
/** Letters of a line of small words to the left of the bars. */
const LINE = 74;

/**
 * What single changes would do: failure nights left by each, against those there are.
 *
 * in: id; name; remedies, best first, at least one; summary
 * out: the picture; a rect of class hatched for each remedy that leaves failure nights
 */
export function remedyChart(id: string, name: string, remedies: readonly Remedy[], summary: string): Figure {
  const before = remedies[0]?.failureNightsBefore ?? 0;
  // A change that makes it much worse runs to the edge; its number says how much.
  const along = scaleLinear([0, Math.max(before * 2, 1)], [LEFT, RIGHT]).clamp(true);
  let y = TOP;
  const rows = remedies.map((remedy) => {
    const lines = linesOf(remedy.detail);
    const markup = row(remedy, lines, y, along, before);
    y += 30 + lines.length * 15;
    return markup;
  });
  const facts = { key: 'remedies', id, title: `Single changes: ${name}`, summary, width: WIDTH, height: y };
  const now = shortNumber(along(before));
  return {
    ...facts,
    svg: figureSvg(facts, [
      element('path', { class: 'limit', d: `M${now} ${TOP - 8}V${y - 8}` }),
      ...rows,
      label(along(before), TOP - 14, `now ${before} fail`, { class: 'strong middle' }),
    ]),
    table: {
      columns: [
        { heading: 'change', label: 'change' },
        { heading: 'detail', label: 'from, to' },
        { heading: 'failure_nights', label: 'nights that still fail' },
        { heading: 'failure_nights_before', label: 'that fail now' },
        { heading: 'dark_h', label: 'dark', unit: 'h' },
        { heading: 'dark_before_h', label: 'dark now', unit: 'h' },
        { heading: 'cost', label: 'cost' },
      ],
      rows: remedies.map((remedy) => [
        remedy.change,
        remedy.detail,
        String(remedy.failureNights),
        String(remedy.failureNightsBefore),
        fixed(remedy.dark_h, 1),
        fixed(remedy.darkBefore_h, 1),
        remedy.cost === undefined ? '' : fixed(remedy.cost, 2),
      ]),
    },
  };
}

function row(
  remedy: Remedy,
  lines: readonly string[],
  y: number,
  along: (nights: number) => number,
  before: number,
): string {
  const count = remedy.failureNights;
  const cost = remedy.cost === undefined || remedy.cost === 0 ? '' : `, costs ${fixed(remedy.cost, 2)}`;
  const bar = { class: 'hatched', x: LEFT, y: y + 6, width: along(count) - LEFT, height: 18 };
  const cut = count > before * 2 ? ' (bar cut)' : '';
  const words = `${count === 0 ? 'none fails' : `${count} fail`}${cut}${cost}`;
  return (
    label(0, y + 14, remedy.change, { class: 'strong' }) +
    lines.map((line, k) => label(0, y + 30 + k * 15, line)).join('') +
    (count > 0 ? element('rect', bar) : '') +
    label(along(count) + 8, y + 20, words, { class: count < before ? 'strong halo' : 'axis halo' })
  );
}

/** Words in lines of so many letters. */
function linesOf(words: string): string[] {
  const lines = [''];
  for (const word of words.split(' ')) {
    const line = lines[lines.length - 1]!;
    if (line !== '' && line.length + 1 + word.length > LINE) lines.push(word);
    else lines[lines.length - 1] = line === '' ? word : `${line} ${word}`;
  }
  return lines;
}
