import { winterOdds } from '../../sim/statistics/WinterOdds.ts';
import { winterStatistics } from '../../sim/statistics/winterStatistics.ts';
import { winterOf } from '../../sim/sun/NightCalendar.ts';
import { darkNight, nightsFrom, smallNight } from './smallRun.ts';

/** Nights of four winters, of which the second has a 29 February: one is out, one dim, both short for two of six hours. */
export const nights = nightsFrom('2022-06-30', 1462, (night) => ({
  ...(night === '2023-12-20'
    ? darkNight(night, 2)
    : night === '2025-01-05'
      ? darkNight(night, 2, 2)
      : smallNight(night)),
  winter: winterOf(night, 54),
}));
export const winters = winterStatistics(nights, 54);
export const whole = winters.filter(({ complete }) => complete);
export const odds = winterOdds(winters)!;
/** Ten winters, from none to nine failed nights. */
export const ten = Array.from({ length: 10 }, (_, k) => ({
  ...whole[0]!,
  winter: `200${k}`,
  failedNights: k,
}));
