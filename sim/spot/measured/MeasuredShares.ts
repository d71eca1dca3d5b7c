import type { HourlyMapping } from '../../weather/examineHourlyCsv.ts';

/** A log of light at the spot, as the scenario maps it. */
export interface MeasuredLight {
  file: string;
  stamp: HourlyMapping['stamp'];
  column: string;
  unit: string;
  /** Lux for each W/m2 of daylight. */
  lumenPerWatt: number;
  sensorTilt_deg: number;
  sensorBearing_deg: number;
  /** geometry: the shares stand for all that surrounds the spot; factor: they correct what is stated of it. */
  replaces: 'geometry' | 'factor';
  missing: readonly string[];
}

/** What a log gave: what was seen of the light that the model expects. */
export interface MeasuredShares {
  replaces: 'geometry' | 'factor';
  /** Share of the beam, and of the diffuse light (what obstacles return included); 0 or more. */
  beam: number;
  diffuse: number;
  /** Standard errors of the two. */
  beamError: number;
  diffuseError: number;
  /** Hours of light the log holds beside weather, and the days they lie in. */
  hours: number;
  days: number;
  /** Root mean square of log minus model, and mean of the log, over those hours. */
  misfit_W_m2: number;
  mean_W_m2: number;
  /** Mean of log minus model by hour of the day at mean solar time (0 to 23); NaN where the log has no light. */
  misfitByHour_W_m2: Float64Array;
}
