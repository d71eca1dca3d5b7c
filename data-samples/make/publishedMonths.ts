/** Mean global irradiance on the horizontal, month by month, of a region in a published table. */
export interface PublishedRegion {
  region: string;
  latitude_deg: number;
  /** January to December, rounded to 1 W/m2 in the table. */
  ghi_W_m2: readonly number[];
}

/**
 * The two rows of the published table that the invented year leans on (source: SAP2012, tables U3 and U4). Of the
 * first, November to February were checked against the table; its other months are from memory and add up to the year
 * that was computed from the table, which prints none (951 kWh/m2). The second was checked in full.
 */
export const PUBLISHED_REGIONS: readonly PublishedRegion[] = [
  {
    region: 'average of the United Kingdom',
    latitude_deg: 53.5,
    ghi_W_m2: [26, 54, 96, 150, 192, 200, 189, 157, 115, 66, 33, 21],
  },
  {
    region: 'Thames',
    latitude_deg: 51.6,
    ghi_W_m2: [30, 56, 98, 157, 195, 217, 203, 173, 127, 73, 39, 24],
  },
];

/**
 * Day-to-day persistence of clearness, January to December: October to March and June as measured at a maritime
 * place at 57.7 N, hourly global irradiance of 2011 to 2021 (own evaluation of the open data of a national weather
 * service); the months between are interpolated.
 */
export const PERSISTENCE: readonly number[] = [
  0.17, 0.3, 0.35, 0.34, 0.32, 0.31, 0.32, 0.33, 0.35, 0.36, 0.16, 0.16,
];
