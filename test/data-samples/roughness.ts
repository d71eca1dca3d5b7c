import type { InventedYear } from '../../data-samples/make/inventedYear.ts';
import { hourRoughness } from '../../sim/climate/hourlyIrradiance.ts';
import type { SkyHours } from '../../sim/climate/SkyHours.ts';

/** Below this sine the light is too little to call a ratio of it clearness. */
const LEAST_SINE = 0.1;

/** How far the clearness of the hours strays from the usual: measured on a finished year. */
export interface Roughness {
  /** Correlation between successive hours of a day. */
  persistence: number;
  /** Root mean square of the straying over that of the published law. */
  size: number;
}

/** Straying of hourly clearness from the day's clearness times the usual shape, over the hours with a higher sun. */
export function roughness(year: InventedYear, sun: SkyHours): Roughness {
  let product = 0;
  let square = 0;
  let strayed = 0;
  let published = 0;
  for (let day = 0; day < year.ghi_W_m2.length / 24; day++) {
    const hours = Array.from({ length: 24 }, (_, hour) => day * 24 + hour);
    const light_Wh_m2 = hours.reduce((sum, hour) => sum + year.ghi_W_m2[hour]!, 0);
    const daily = light_Wh_m2 / sun.dailyExtraterrestrial_Wh_m2[day]!;
    const strays = hours
      .filter((hour) => sun.sineAltitude[hour]! > LEAST_SINE)
      .map((hour) => {
        const stray = year.ghi_W_m2[hour]! / sun.extraterrestrial_W_m2[hour]! - daily * sun.shape[hour]!;
        strayed += stray ** 2;
        published += hourRoughness(daily)(sun.sineAltitude[hour]!) ** 2;
        return stray;
      });
    for (let i = 1; i < strays.length; i++) {
      product += strays[i]! * strays[i - 1]!;
      square += (strays[i]! ** 2 + strays[i - 1]! ** 2) / 2;
    }
  }
  return { persistence: product / square, size: Math.sqrt(strayed / published) };
}
