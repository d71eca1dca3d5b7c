import { closeSync, openSync, writeSync } from 'node:fs';

const LATITUDE_RAD = (54 * Math.PI) / 180;
const DAY_MIN = 1440;

/**
 * Writes one-minute weather as CSV to a file: invented light that follows the sun at 54 north, 10 east, under clouds
 * that repeat for nobody, UTC, a stamp at the start of its minute.
 *
 * in: path; rows; columns beside the stamp, 2 or 11
 * out: bytes of the longest row
 */
export function longWeather(path: string, rows: number, columns: 2 | 11): number {
  const file = openSync(path, 'w');
  const names = ['GHI (W/m2)', 'air temperature (degC)'];
  const more = [
    'DNI (W/m2)',
    'DHI (W/m2)',
    'wind speed (m/s)',
    'rain (mm)',
    'humidity (%)',
    'pressure (hPa)',
  ];
  const rest = ['wind direction (deg)', 'battery (V)', 'logger temperature (degC)'];
  const heading = [...names, ...(columns === 11 ? [...more, ...rest] : [])];
  let text = `start utc,${heading.join(',')}\n`;
  let longest = 0;
  const first_ms = Date.UTC(2011, 0, 1);
  let date = '';
  for (let i = 0; i < rows; i++) {
    const minute = i % DAY_MIN;
    const day = (i - minute) / DAY_MIN;
    if (minute === 0) date = new Date(first_ms + i * 60_000).toISOString().slice(0, 10);
    const clock = `${two(Math.floor(minute / 60))}:${two(minute % 60)}`;
    // Cooper's declination and a usual equation of time: near enough to be read.
    const declination = 0.409 * Math.sin((2 * Math.PI * (284 + (day % 365.25))) / 365);
    const b = (2 * Math.PI * ((day % 365.25) - 81)) / 364;
    const equation_min = 9.87 * Math.sin(2 * b) - 7.53 * Math.cos(b) - 1.5 * Math.sin(b);
    const hourAngle = ((minute + 0.5 + 40 + equation_min) / 720 - 1) * Math.PI;
    const height =
      Math.sin(LATITUDE_RAD) * Math.sin(declination) +
      Math.cos(LATITUDE_RAD) * Math.cos(declination) * Math.cos(hourAngle);
    const spell = 0.5 + 0.5 * Math.sin(day * 1.7 + Math.sin(day * 0.61) * 2);
    const clearness = (0.12 + 0.6 * spell) * (1 - 0.3 * (1 - spell) * (0.5 + 0.5 * Math.sin(i * 0.13)));
    const ghi = Math.max(0, height) * 1361 * clearness;
    const air = 9 - 9 * Math.cos((2 * Math.PI * (day - 20)) / 365) + 3 * Math.sin((minute - 540) / 229);
    let row = `${date} ${clock}:00,${ghi.toFixed(3)},${air.toFixed(3)}`;
    if (columns === 11) {
      const dhi = ghi * (1 - 0.9 * spell * clearness);
      const dni = height > 0.02 ? (ghi - dhi) / height : 0;
      row += `,${dni.toFixed(1)},${dhi.toFixed(1)},${(2 + spell).toFixed(1)},0.0,${(60 + 30 * spell).toFixed(0)}`;
      row += `,${(1000 + 10 * spell).toFixed(1)},${minute % 360},12.6,${(air + 4).toFixed(1)}`;
    }
    longest = Math.max(longest, row.length + 1);
    text += `${row}\n`;
    if (text.length > 1 << 20) {
      writeSync(file, text);
      text = '';
    }
  }
  writeSync(file, text);
  closeSync(file);
  return longest;
}

function two(value: number): string {
  return value < 10 ? `0${value}` : String(value);
}
