import type { HorizonProfile } from './shade/horizonScreen.ts';

/**
 * What the files that a spot names say, read, found sound and in our units: plain data, so that the light of a spot can
 * be made where there are no files to read. `readSpotFiles` makes it from the files; whoever keeps it beside a run (a
 * page that runs its trials again) hands it to `spotLight`, `spotPlace` or `SpotLights` as it is, with whatever of the
 * spot is changed but for the keys that say how a file is read. A part is there where the spot names its file.
 */
export interface SpotFiles {
  horizon?: HorizonProfile | undefined;
  shading?: ShadingTrace | undefined;
  /** Of `measured_light`. */
  measured?: LightLog | undefined;
  /** Of `light_on_cell`. */
  loggedLight?: LoggedHours | undefined;
}

/** A share of the light by the hour, from a file. */
export interface ShadingTrace {
  /** Start of the first hour, UTC milliseconds. */
  start_ms: number;
  /** 0 to 1, one an hour. */
  share: Float64Array;
}

/** Readings of a light logger, whatever its step. */
export interface LightLog {
  /** Start of what each reading covers, UTC milliseconds, rising. Missing readings are left out. */
  time_ms: Float64Array;
  light_W_m2: Float64Array;
  /** Usual time from one reading to the next. */
  step_s: number;
}

/** Light logged on a cell, hour by hour. */
export interface LoggedHours {
  /** Start of the first hour, UTC milliseconds. */
  start_ms: number;
  light_W_m2: Float64Array;
  /** Where the log has it. */
  air_degC?: Float64Array | undefined;
}

/** What a file says. in: part, of `SpotFiles`; file, name of the one it is from. throws: Error where it was not handed over */
export function heldPart<Part>(part: Part | undefined, { file }: { file: string }): Part {
  if (part === undefined) throw new Error(`a spot names ${file}, and what it says was not handed over`);
  return part;
}
