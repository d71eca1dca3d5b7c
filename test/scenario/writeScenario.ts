import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { InputProblem, type Problem } from '../../sim/common/InputProblem.ts';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import type { Scenario } from '../../sim/scenario/Scenario.ts';

/** A sound scenario, small. Tests change a line of it. */
export const SOUND = `format: 1
site:
  latitude_deg: 54
  longitude_deg: 10
  time_zone: Europe/Berlin
weather:
  file: year.csv
  stamp: { column: start_utc, zone: UTC, marks: start }
  columns:
    ghi: { column: ghi, unit: W/m2 }
    air_temperature: { column: air, unit: degC }
promise: { from: dusk, hours: 6, least_lumen: 0.5 }
spots:
  lawn:
    cell_tilt_deg: 10
    cell_bearing_deg: 180
lamps:
  single:
    cell: { part: small-cell }
    diode: { part: small-schottky }
    capacitor: { part: medium-capacitor }
    driver: { part: inductor-driver }
    led: { part: white-led }
    schedule: { on: dusk, hours: 8 }
`;

/** Where the scenarios are written. */
export const folder = mkdtempSync(join(tmpdir(), 'longnight-scenario-'));
writeFileSync(join(folder, 'year.csv'), 'start_utc,ghi,air\n');
let count = 0;

/** The sound scenario with pieces of its text replaced; each must be there. */
export function changed(...changes: readonly (readonly [from: string, to: string])[]): string {
  return changes.reduce((text, [from, to]) => {
    if (!text.includes(from)) throw new Error(`no "${from}" in the scenario`);
    return text.replace(from, to);
  }, SOUND);
}

/** Path of a file with that text, beside a year.csv. */
export function written(text: string | Uint8Array): string {
  const path = join(folder, `scenario-${++count}.yaml`);
  writeFileSync(path, text);
  return path;
}

export function load(text: string): Scenario {
  return loadScenario(written(text));
}

/** The problems a scenario is refused with, and the whole message. */
export function refused(text: string | Uint8Array): {
  problems: readonly Problem[];
  message: string;
  file: string;
} {
  const file = written(text);
  try {
    loadScenario(file);
  } catch (error) {
    if (!(error instanceof InputProblem)) throw error;
    return { problems: error.problems, message: error.message, file };
  }
  throw new Error('the scenario was accepted');
}

/** 1-based line and column of the first place of a piece of text. */
export function placeOf(text: string, piece: string): { line: number; column: number } {
  const at = text.indexOf(piece);
  if (at < 0) throw new Error(`no "${piece}" in the scenario`);
  const lines = text.slice(0, at).split('\n');
  return { line: lines.length, column: lines.at(-1)!.length + 1 };
}
