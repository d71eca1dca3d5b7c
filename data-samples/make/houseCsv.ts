import { csvText, fixed } from '../../sim/common/csvText.ts';
import { houseElevation, INVENTED_HOUSE } from './houseElevation.ts';

/** Horizon profile of the invented house as CSV, a row a degree of bearing: fine enough for the edges of its walls. */
export function houseCsv(): string {
  const bearings = Array.from({ length: 360 }, (_, bearing_deg) => bearing_deg);
  return csvText(
    [
      { heading: 'bearing_deg', cell: (bearing_deg) => fixed(bearing_deg, 0) },
      {
        heading: 'elevation_deg',
        cell: (bearing_deg) => fixed(houseElevation(INVENTED_HOUSE, bearing_deg), 1),
      },
    ],
    bearings,
  );
}
