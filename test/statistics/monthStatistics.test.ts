import { describe, expect, it } from 'vitest';
import { monthStatistics } from '../../sim/statistics/monthStatistics.ts';
import { nightsFrom } from './nightRow.ts';

describe('statistics by month', () => {
  it('sum hours and average days over the evenings of each calendar month', () => {
    const rows = nightsFrom('2025-11-29', 33, { '2025-12-05': 3 }, (night) => ({
      dim_h: night === '2025-12-05' ? 1 : 0,
      lightOnCell_Wh_m2: night < '2025-12' ? 100 : 50,
      ghi_Wh_m2: Number.NaN,
      capacitorLowest_V: night === '2025-12-06' ? 0.8 : 1.5,
    }));
    const months = monthStatistics(rows);
    expect(months.map((month) => [month.month, month.nights])).toEqual([
      ['2025-11', 2],
      ['2025-12', 31],
    ]);
    expect(months[1]).toMatchObject({
      failedNights: 1,
      promised_h: 186,
      lit_h: 183,
      short_h: 3,
      dim_h: 1,
      out_h: 2,
      lightOnCell_Wh_m2_day: 50,
      capacitorLowest_V: 0.8,
      lightGiven_lm_h: 310,
    });
    expect(months[1]!.ghi_Wh_m2_day).toBeNaN();
  });
});
