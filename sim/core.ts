// What needs neither files nor node: sun, light of a spot, lamp, year, nights, statistics. An entry of its own, for
// browsers: weather and the sections of spots and lamps come in as plain data, as loadScenario and loadWeather give them.

export { describeProblem, InputProblem, type Problem, type ProblemCode } from './common/InputProblem.ts';
export { checkLamp } from './lamp/checkLamp.ts';
export { type LampParams, lampParams } from './lamp/params.ts';
export { type NightCause, type NightOutcome, type NightRow, nightLedger } from './night/nightLedger.ts';
export type { SpotFiles } from './spot/SpotFiles.ts';
export { type SpotPlace, spotPlace } from './spot/SpotPlace.ts';
export { type SkyCalendar, skyCalendar } from './spot/sky/SkyCalendar.ts';
export { type OpenSky, openSky } from './spot/sky/skyColumns.ts';
export { lightInSpot, type SpotLight, spotLight } from './spot/spotLight.ts';
export { type SpotParams, spotParams } from './spot/spotParams.ts';
export { energyStatistics } from './statistics/energyStatistics.ts';
export { monthStatistics } from './statistics/monthStatistics.ts';
export { verdictOf } from './statistics/overWinters.ts';
export type { TrialStatistics, Verdict, WinterStatistics } from './statistics/TrialStatistics.ts';
export { type Chance, wilson, winterOdds } from './statistics/WinterOdds.ts';
export { winterStatistics } from './statistics/winterStatistics.ts';
export { type NightCalendar, nightCalendar } from './sun/NightCalendar.ts';
export type { Site } from './sun/Site.ts';
export { solarPosition } from './sun/solarPosition.ts';
export { runNights, runTrial, type TrialTerms } from './trial/runTrial.ts';
export { SpotLights } from './trial/SpotLights.ts';
export type { HourlyTrial, NightTrial } from './trial/Trial.ts';
export type { WeatherRecord } from './weather/WeatherRecord.ts';
export { simulateNights, simulateYear, type YearOptions, type YearResult } from './year/simulateYear.ts';
