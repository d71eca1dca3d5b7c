import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export interface SmallGarden {
  folder: string;
  remove: () => void;
}

/**
 * A folder with `small.yaml` and two weeks, or a cyclic year of 365 days, of invented light on the cell: in `log.csv` enough for a small
 * lamp, in `dim.csv` too little to keep the promise.
 */
export function smallGarden(days: 14 | 365 = 14): SmallGarden {
  const folder = mkdtempSync(join(tmpdir(), 'garden-'));
  for (const [name, most_W_m2] of [
    ['log.csv', 300],
    ['dim.csv', 3],
  ] as const) {
    writeFileSync(join(folder, name), logText(days * 24, most_W_m2));
  }
  writeFileSync(join(folder, 'small.yaml'), scenario(days === 365 ? 'cyclic' : '{ capacitor_V: 1.5 }'));
  return { folder, remove: () => rmSync(folder, { recursive: true }) };
}

function logText(hours: number, most_W_m2: number): string {
  const rows = ['start_utc,light_W_m2'];
  for (let hour = 0; hour < hours; hour++) {
    const stamp = new Date(Date.UTC(2025, 11, 10, hour)).toISOString().slice(0, 16);
    const ofDay = hour % 24;
    const light_W_m2 = ofDay < 8 || ofDay > 14 ? 0 : most_W_m2 * Math.sin((Math.PI * (ofDay - 7)) / 8);
    rows.push(`${stamp}Z,${light_W_m2.toFixed(2)}`);
  }
  return `${rows.join('\n')}\n`;
}

const spot = (file: string) =>
  `{ light_on_cell: { file: ${file}, stamp: { column: start_utc, zone: UTC, marks: start }, column: light_W_m2, ` +
  'unit: W/m2, air_temperature: { constant_degC: 5 } } }';

const scenario = (start: string) => `format: 1
site: { latitude_deg: 54, longitude_deg: 10, elevation_m: 20, time_zone: Europe/Berlin, albedo: 0.2 }
start: ${start}
promise: { from: dusk, hours: 3, least_lumen: 0.5 }
spots:
  bright: ${spot('log.csv')}
  dim: ${spot('dim.csv')}
lamps:
  one:
    cell: { part: small-cell }
    diode: { part: small-schottky }
    capacitor: { part: medium-capacitor }
    driver: { kind: power, power_mW: 17, cutoff_V: 0.9 }
    led: { part: white-led }
    schedule: { on: dusk, hours: 4 }
`;
