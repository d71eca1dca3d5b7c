import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { knownSeries } from '../weather/recognise/knownSeries.ts';
import { runMain } from './runMain.ts';

export const SAMPLES = fileURLToPath(new URL('../../data-samples/', import.meta.url));
const KNOWN = knownSeries(Date.UTC(2025, 0, 1), 365);

/** A folder with scenarios of one lamp in one spot, whose weather each names in its own way. */
export interface WeatherGarden {
  folder: string;
  /** Writes a file into it; out: its name. */
  add: (name: string, text: string | Uint8Array) => string;
  /** Writes a scenario with this weather section; out: its name. */
  scenario: (name: string, weather: string) => string;
  run: (...words: string[]) => ReturnType<typeof runMain>;
  read: (...path: string[]) => string;
  remove: () => void;
}

export function weatherGarden(): WeatherGarden {
  const folder = mkdtempSync(join(tmpdir(), 'weather-garden-'));
  const add = (name: string, text: string | Uint8Array): string => {
    writeFileSync(join(folder, name), text);
    return name;
  };
  return {
    folder,
    add,
    scenario: (name, weather) => add(name, scenarioText(weather)),
    run: (...words) => runMain(words, { cwd: folder }),
    read: (...path) => readFileSync(join(folder, ...path), 'utf8'),
    remove: () => rmSync(folder, { recursive: true }),
  };
}

/** Rows of an invented year near 54 north, 10 east, UTC, start of the hour. */
export function yearRows(change: (row: string, i: number) => string = (row) => row): string[] {
  return Array.from({ length: KNOWN.count }, (_, i) => {
    const stamp = new Date(KNOWN.start_ms + i * 3_600_000).toISOString().slice(0, 16).replace('T', ' ');
    return change(`${stamp},${KNOWN.ghi_W_m2[i]!.toFixed(1)},${KNOWN.air_degC[i]!.toFixed(1)}`, i);
  });
}

export const yearText = (rows: readonly string[], heading = 'start utc,GHI (W/m2),air temperature (degC)') =>
  `${heading}\n${rows.join('\n')}\n`;

/** Rows of a CSV by heading. */
export function rowsOf(text: string): Record<string, string>[] {
  const [heading = '', ...lines] = text.trimEnd().split('\n');
  const names = heading.split(',');
  return lines.map((line) => Object.fromEntries(line.split(',').map((cell, i) => [names[i]!, cell])));
}

const scenarioText = (weather: string) => `format: 1
site: { latitude_deg: 54, longitude_deg: 10, elevation_m: 20, time_zone: Europe/Berlin, albedo: 0.2 }
weather: ${weather}
start: cyclic
promise: { from: dusk, hours: 6, least_lumen: 1.5 }
spots:
  lawn: { cell_tilt_deg: 10, cell_bearing_deg: 180, cover: { part: flat-lid } }
lamps:
  single:
    cell: { part: small-cell }
    diode: { part: small-schottky }
    capacitor: { part: medium-capacitor }
    driver: { part: inductor-driver }
    led: { part: white-led }
    jar: { part: small-jar }
    schedule: { on: dusk, hours: 6 }
`;
