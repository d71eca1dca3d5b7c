import { skyHours } from '../../sim/climate/SkyHours.ts';
import { sunColumns } from '../../sim/sun/sunColumns.ts';
import { PUBLISHED_REGIONS } from './publishedMonths.ts';

/** First day of each month of a year of 365 days, and the year's end. */
const MONTH_STARTS: readonly number[] = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365];

/**
 * Mean clearness index of each month at the invented place (no unit): the mean of the published regions north and
 * south of it. Clearness and not irradiance is carried over, because the regions see another sun.
 *
 * in: start_ms, 0 h UTC of 1 January of a year of 365 days
 * out: January to December
 * source: SAP2012
 */
export function expectedClearness(start_ms: number): number[] {
  const regions = PUBLISHED_REGIONS.map(({ latitude_deg, ghi_W_m2 }) => {
    const outside_W_m2 = monthlyMeans(
      skyHours(sunColumns(start_ms, 365 * 24, { latitude_deg, longitude_deg: 0 }), 0, 1)
        .extraterrestrial_W_m2,
    );
    return ghi_W_m2.map((ghi, month) => ghi / outside_W_m2[month]!);
  });
  return MONTH_STARTS.slice(1).map(
    (_, month) => regions.reduce((sum, region) => sum + region[month]!, 0) / regions.length,
  );
}

/** Mean of an hourly column of a year of 365 days over each month, in the column's unit. */
export function monthlyMeans(column: Float64Array): number[] {
  return MONTH_STARTS.slice(1).map((end, month) => {
    const of = column.subarray(MONTH_STARTS[month]! * 24, end * 24);
    return of.reduce((sum, value) => sum + value, 0) / of.length;
  });
}
