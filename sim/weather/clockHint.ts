import { HOUR_MS } from '../common/time.ts';
import type { SunColumns } from '../sun/sunColumns.ts';
import type { HourlyMapping, HourlySeries } from '../tables/hourlyTable.ts';
import { parseOffset } from '../tables/stampStyles.ts';
import { HIGHEST_NIGHT_W_M2 } from './limits.ts';

/** Hours from the stamp back to the start of its hour. */
const MARKS_H = { start: 0, middle: 0.5, end: 1 } as const;

/**
 * What to correct about a clock, in words, where the light of the whole file is centred away from solar noon.
 * A rough hint for a message that has other grounds, to half an hour: the centre is the mean hour angle weighted by
 * the light.
 *
 * in: values, irradiance in W/m2; sun over the same hours; mapping and series they come from
 * out: a sentence; undefined where the light is centred on noon or nowhere
 */
export function clockHint(
  values: Float64Array,
  sun: SunColumns,
  mapping: HourlyMapping,
  series: HourlySeries,
): string | undefined {
  let noon = 0;
  let side = 0;
  let light = 0;
  for (let i = 0; i < values.length; i++) {
    if (!(values[i]! > HIGHEST_NIGHT_W_M2)) continue;
    const middle = (sun.hourAngle_deg[i]! + 7.5) * (Math.PI / 180);
    noon += values[i]! * Math.cos(middle);
    side += values[i]! * Math.sin(middle);
    light += values[i]!;
  }
  const late_h = Math.round(Math.atan2(side, noon) / (Math.PI / 24)) / 2;
  if (late_h === 0 || Math.hypot(noon, side) / light < 0.3) return undefined;
  const { zone, marks } = mapping.stamp;
  const other = (['start', 'middle', 'end'] as const).find(
    (mark) => MARKS_H[mark] - MARKS_H[marks] === late_h,
  );
  const changes = [
    ...(other === undefined ? [] : [`weather.stamp.marks (${other} would fit)`]),
    series.stampZone === zone
      ? `weather.stamp.zone (${zoneText(parseOffset(zone) / HOUR_MS + late_h)} would fit)`
      : 'the offset the stamps state',
    'the site and the sign of its longitude',
  ];
  const away = `${Math.abs(late_h)} ${Math.abs(late_h) === 1 ? 'hour' : 'hours'} ${late_h > 0 ? 'after' : 'before'}`;
  return `the light is centred about ${away} solar noon; check ${changes.join(', ')}.`;
}

function zoneText(hours: number): string {
  const wrapped = hours > 14 ? hours - 24 : hours < -12 ? hours + 24 : hours;
  if (wrapped === 0) return 'UTC';
  const minutes = Math.round(Math.abs(wrapped) * 60);
  const clock = `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`;
  return `${wrapped < 0 ? '-' : '+'}${clock}`;
}
