import type { Scenario } from '../scenario/Scenario.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';
import type { Trial } from './Trial.ts';

/** A whole run: every lamp of a scenario in every spot, under one weather record. */
export interface RunResult {
  scenario: Scenario;
  weather: {
    /** SHA-256 of the weather file's bytes, hexadecimal. */
    sha256: string;
    /** Start of the first hour, '...Z'. */
    first_utc: string;
    hours: number;
    filled_hours: number;
    /** How the file was read, in words. */
    options: Record<string, string>;
  };
  /** The weather itself; undefined where light was logged on the cells. */
  record?: WeatherRecord;
  /** Spots in the order of the scenario, the lamps within each. */
  trials: Trial[];
  assumptions: string[];
  cautions: string[];
}
