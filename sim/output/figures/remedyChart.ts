import { scaleLinear } from 'd3-scale';
import { fixed } from '../../common/csvText.ts';
import type { Remedy } from '../../trial/Remedy.ts';
import { element, shortNumber } from './element.ts';
import type { Figure } from './Figure.ts';
import { figureSvg } from './figureSvg.ts';
import { label } from './label.ts';
import type { Plot } from './monthAxis.ts';

const WIDTH = 1000;
const ROW = 44;
const TOP = 34;
const LEFT = 440;

/**
 * What single changes would do: failure nights left by each, against those there are.
 *
 * in: id; name; remedies, best first, at least one; summary
 * out: the picture; a rect of class hatched for each remedy that leaves failure nights
 */
export function remedyChart(id: string, name: string, remedies: readonly Remedy[], summary: string): Figure {
  const height = TOP + remedies.length * ROW + 10;
  const facts = { key: 'remedies', id, title: `Single changes: ${name}`, summary, width: WIDTH, height };
  const before = remedies[0]?.failureNightsBefore ?? 0;
  const plot: Plot = { x: LEFT, y: TOP, width: WIDTH - LEFT - 130, height: height - TOP - 10 };
  // A change that makes it much worse runs to the edge; its number says how much.
  const along = scaleLinear([0, Math.max(before * 2, 1)], [plot.x, plot.x + plot.width]).clamp(true);
  const now = shortNumber(along(before));
  const rows = remedies.map((remedy, k) => {
    const y = plot.y + k * ROW;
    const count = remedy.failureNights;
    const cost = remedy.cost === undefined || remedy.cost === 0 ? '' : `, costs ${fixed(remedy.cost, 2)}`;
    return (
      label(0, y + 17, remedy.change, { class: 'strong' }) +
      label(0, y + 33, remedy.detail.length > 64 ? `${remedy.detail.slice(0, 62)}…` : remedy.detail) +
      (count > 0
        ? element('rect', { class: 'hatched', x: plot.x, y: y + 8, width: along(count) - plot.x, height: 18 })
        : '') +
      label(along(count) + 8, y + 22, `${count === 0 ? 'none fails' : `${count} fail`}${cost}`, {
        class: count < before ? 'strong halo' : 'axis halo',
      })
    );
  });
  return {
    ...facts,
    svg: figureSvg(facts, [
      ...rows,
      element('path', { class: 'limit', d: `M${now} ${TOP - 8}V${height - 6}` }),
      label(along(before), TOP - 14, `now ${before} nights fail`, { class: 'strong middle' }),
    ]),
    table: {
      columns: [
        { heading: 'change', label: 'change' },
        { heading: 'detail', label: 'from, to' },
        { heading: 'failure_nights', label: 'nights that still fail' },
        { heading: 'failure_nights_before', label: 'now' },
        { heading: 'dark_h', label: 'dark', unit: 'h' },
        { heading: 'dark_before_h', label: 'now', unit: 'h' },
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
