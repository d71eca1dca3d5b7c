import { type CsvColumn, csvText, fixed } from '../common/csvText.ts';
import type { NightRow } from '../night/NightRow.ts';
import type { Trial } from '../trial/Trial.ts';
import { civilStamp } from './civilStamp.ts';
import { utcStamp } from './utcStamp.ts';

interface NightOfTrial {
  trial: Trial;
  night: NightRow;
}

/**
 * The text of nights.csv: a row per trial and night, in the order of the trials. Hours to 4 decimals (a third of a
 * second), so that lit and dark add up to promised.
 *
 * in: trials; timeZone, IANA name of the site
 * out: CSV text, one heading row
 */
export function nightsCsv(trials: readonly Trial[], timeZone: string): string {
  const rows = trials.flatMap((trial) => trial.nights.map((night) => ({ trial, night })));
  return csvText(nightColumns(civilStamp(timeZone)), rows);
}

function nightColumns(civil: (ms: number) => string): CsvColumn<NightOfTrial>[] {
  const text = (heading: string, of: (night: NightRow) => string): CsvColumn<NightOfTrial> => ({
    heading,
    cell: ({ night }) => of(night),
  });
  const number = (heading: string, decimals: number, of: (night: NightRow) => number) =>
    text(heading, (night) => fixed(of(night), decimals));
  return [
    { heading: 'spot', cell: ({ trial }) => trial.spot },
    { heading: 'lamp', cell: ({ trial }) => trial.lamp },
    text('winter', (night) => night.winter),
    text('night', (night) => night.night),
    text('complete', (night) => (night.complete ? '1' : '0')),
    text('dusk_utc', (night) => utcStamp(night.dusk_ms)),
    text('dawn_utc', (night) => utcStamp(night.dawn_ms)),
    number('promised_h', 4, (night) => night.promised_h),
    number('lit_h', 4, (night) => night.lit_h),
    number('short_h', 4, (night) => night.short_h),
    number('lit_beyond_promise_h', 4, (night) => night.litBeyondPromise_h),
    text('outcome', (night) => night.outcome),
    text('cause', (night) => night.cause),
    text('first_short_local', (night) => civil(night.firstShort_ms)),
    number('light_on_cell_Wh_m2', 2, (night) => night.lightOnCell_Wh_m2),
    number('highest_reachable_V', 4, (night) => night.highestReachable_V),
    number('capacitor_dusk_V', 4, (night) => night.capacitorDusk_V),
    number('capacitor_lowest_V', 4, (night) => night.capacitorLowest_V),
    number('capacitor_dawn_V', 4, (night) => night.capacitorDawn_V),
    number('reserve_dawn_J', 4, (night) => night.reserveDawn_J),
    number('light_given_lm_h', 4, (night) => night.lightGiven_lm_h),
    number('above_rated_h', 4, (night) => night.aboveRated_h),
    number('filled_weather_h', 2, (night) => night.filledWeather_h),
    number('above_half_h', 4, (night) => night.aboveHalf_h),
    number('above_fifth_h', 4, (night) => night.aboveFifth_h),
  ];
}
