import { scaleBand } from 'd3-scale';
import { fixed } from '../../common/csvText.ts';
import type { WinterStatistics } from '../../statistics/TrialStatistics.ts';
import type { OverSample, WinterOdds } from '../../statistics/WinterOdds.ts';
import { nightCount } from '../oddsWords.ts';
import { bar, chart, numbers, texts, upward, verticalAxis } from './chart.ts';
import { type Box, coordinate, label, path } from './element.ts';
import type { Figure } from './Figure.ts';

/** Names of more winters than this are too many for the axis. */
const MOST_NAMES = 16;

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
    (plot) => marks(rows, odds.failedNights, plot),
  );
}

function marks(rows: readonly WinterStatistics[], { typical, worstInTen }: OverSample, plot: Box): string[] {
  const up = upward(plot, 0, Math.max(rows.at(-1)?.failedNights ?? 0, 4)).nice(4);
  const across = scaleBand(rows.keys(), [plot.x, plot.x + plot.width])
    .paddingInner(0.3)
    .paddingOuter(0.15);
  const wide = across.bandwidth();
  const every = Math.ceil(rows.length / MOST_NAMES);
  const bars = rows.flatMap(({ winter, failedNights, failedOut }, k) => {
    const x = across(k) ?? 0;
    const dim = failedNights - failedOut;
    return [
      bar('dim edged', x, wide, dim, up),
      bar('hatched edged', x, wide, failedOut, (nights) => up(dim + nights)),
      k % every === 0 ? label(x + wide / 2, plot.y + plot.height + 17, winter, 'axis middle') : '',
    ];
  });
  const line = (nights: number, words: string) => [
    path('limit', `M${plot.x} ${coordinate(up(nights))}H${plot.x + plot.width}`),
    label(plot.x + 6, up(nights) - 5, words, 'strong halo'),
  ];
  return [
    label(plot.x, plot.y - 17, 'Failed nights of a winter', 'strong'),
    verticalAxis(up, plot, 4),
    ...bars,
    ...line(typical, `typical: ${nightCount(typical)}`),
    ...(worstInTen === undefined
      ? []
      : line(worstInTen, `worst winter in ten: about ${fixed(worstInTen, 0)}`)),
  ];
}
