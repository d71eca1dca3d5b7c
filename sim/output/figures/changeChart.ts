import { scaleLinear } from 'd3-scale';
import { fixed } from '../../common/csvText.ts';
import type { Change } from '../../trial/Change.ts';
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
 * What single changes would do: failed nights left by each, against those there are.
 *
 * in: id; name; changes, best first, at least one; summary
 * out: the picture; a rect of class hatched for each change that leaves failed nights
 */
export function changeChart(id: string, name: string, changes: readonly Change[], summary: string): Figure {
  const before = changes[0]?.failedNightsBefore ?? 0;
  // A change that makes it much worse runs to the edge; its number says how much.
  const along = scaleLinear([0, Math.max(before * 2, 1)], [LEFT, RIGHT]).clamp(true);
  let y = TOP;
  const rows = changes.map((change) => {
    const lines = linesOf(change.detail);
    const markup = row(change, lines, y, along, before);
    y += 30 + lines.length * 15;
    return markup;
  });
  const facts = { key: 'changes', id, title: `Single changes: ${name}`, summary, width: WIDTH, height: y };
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
        { heading: 'failed_nights', label: 'nights that still fail' },
        { heading: 'failed_nights_before', label: 'that fail now' },
        { heading: 'short_h', label: 'dark', unit: 'h' },
        { heading: 'short_before_h', label: 'dark now', unit: 'h' },
        { heading: 'cost', label: 'cost' },
      ],
      rows: changes.map((change) => [
        change.change,
        change.detail,
        String(change.failedNights),
        String(change.failedNightsBefore),
        fixed(change.short_h, 1),
        fixed(change.shortBefore_h, 1),
        change.cost === undefined ? '' : fixed(change.cost, 2),
      ]),
    },
  };
}

function row(
  change: Change,
  lines: readonly string[],
  y: number,
  along: (nights: number) => number,
  before: number,
): string {
  const count = change.failedNights;
  const cost = change.cost === undefined || change.cost === 0 ? '' : `, costs ${fixed(change.cost, 2)}`;
  const bar = { class: 'hatched', x: LEFT, y: y + 6, width: along(count) - LEFT, height: 18 };
  const cut = count > before * 2 ? ' (bar cut)' : '';
  const words = `${count === 0 ? 'none fails' : `${count} fail`}${cut}${cost}`;
  return (
    label(0, y + 14, change.change, { class: 'strong' }) +
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
