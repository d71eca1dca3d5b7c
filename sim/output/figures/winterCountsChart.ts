import { scaleBand } from 'd3-scale';
import { fixed } from '../../common/csvText.ts';
import type { WinterStatistics } from '../../statistics/TrialStatistics.ts';
import type { WinterOdds } from '../../statistics/WinterOdds.ts';
import { nightCount } from '../oddsWords.ts';
import { bar } from './bar.ts';
import { chart, numbers, type Panel, texts } from './chart.ts';
import { type Box, coordinate, label, path } from './element.ts';
import type { Figure } from './Figure.ts';
import { upward, verticalAxis } from './verticalAxis.ts';

/** The name of a winter needs so much. */
const NAME = 58;

/**
 * How failed nights are spread over winters: a bar each, from the best winter to the worst, with the typical one and the
 * worst in ten.
 *
 * in: id; name; winters that count; odds of them; summary
 */
export function winterCountsChart(
  id: string,
  name: string,
  winters: readonly WinterStatistics[],
  odds: WinterOdds,
  summary: string,
): Figure {
  const { typical, worstInTen } = odds.failedNights;
  const rows = [...winters].sort((a, b) => a.failedNights - b.failedNights || a.short_h - b.short_h);
  return chart<WinterStatistics>(
    {
      key: 'winter-counts',
      id,
      title: `Failed nights, from the best winter to the worst: ${name}`,
      summary,
      legend: [
        { mark: 'dim', words: 'failed, dim' },
        { mark: 'hatched', words: 'failed, out' },
        { mark: 'limit', line: true, words: `typical: ${nightCount(typical)}` },
        ...(worstInTen === undefined
          ? []
          : [{ mark: 'seam', line: true, words: `worst winter in ten: about ${fixed(worstInTen, 0)}` }]),
      ],
      height: { plot: 190 },
      above: 34,
      below: 26,
      rows,
      columns: [
        texts('winter', 'winter', ({ winter }) => winter),
        numbers('failed_nights', 'failed nights', 'nights', 0, ({ failedNights }) => failedNights),
        numbers('failed_out', 'of them out', 'nights', 0, ({ failedOut }) => failedOut),
        numbers('short_h', 'short', 'h', 2, ({ short_h }) => short_h),
      ],
      reader: { step: 'winter' },
    },
    (plot) => marks(rows, [typical, worstInTen], plot),
  );
}

function marks(
  rows: readonly WinterStatistics[],
  [typical, worstInTen]: readonly [number, number | undefined],
  plot: Box,
): { panels: Panel[]; own: string[] } {
  const up = upward(plot, 0, Math.max(rows.at(-1)?.failedNights ?? 0, 4)).nice(4);
  const across = scaleBand(rows.keys(), [plot.x, plot.x + plot.width])
    .paddingInner(0.3)
    .paddingOuter(0.15);
  const wide = across.bandwidth();
  const every = Math.ceil((rows.length * NAME) / plot.width);
  const bars = () =>
    rows.flatMap(({ failedNights, failedOut }, k) => {
      const x = across(k) ?? 0;
      const dim = failedNights - failedOut;
      return [
        bar('dim edged', x, wide, dim, up),
        bar('hatched edged', x, wide, failedOut, (nights) => up(dim + nights)),
      ];
    });
  const names = rows.map(({ winter }, k) =>
    k % every === 0
      ? label((across(k) ?? 0) + wide / 2, plot.y + plot.height + 17, winter, 'axis middle')
      : '',
  );
  const axis = verticalAxis(up, plot, 4);
  const line = (kind: string, nights: number) =>
    path(kind, `M${plot.x} ${coordinate(up(nights))}H${plot.x + plot.width}`);
  return {
    panels: [
      {
        box: plot,
        marks: () => [
          axis.lines,
          ...bars(),
          line('limit', typical),
          worstInTen === undefined ? '' : line('seam', worstInTen),
        ],
      },
    ],
    own: [label(plot.x, plot.y - 17, 'Failed nights of a winter', 'strong'), axis.words, ...names],
  };
}
