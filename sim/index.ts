// The public functions. Their flow: weather, spot, lamp, year, night, statistics, scenario, trial, fitting, sizing, output.

export { type CapacitorReadings, capacitorReadings } from './ageing/capacitorReadings.ts';
export { LIFE_LAWS, type LifeLaw } from './ageing/capacitorWear.ts';
export { type CardLife, type JarCard, jarCard } from './ageing/JarCard.ts';
export type { LifeTerms, LifeWinter } from './ageing/LifeRun.ts';
export { type LampLife, lampLife } from './ageing/lampLife.ts';
export { lifeSweeps, type SweepWish } from './ageing/lifeSweep.ts';
export { type LifeWeather, madeLife, recordedLife } from './ageing/lifeWeather.ts';
export {
  type LifeSweep,
  type LivesWishes,
  lifePremises,
  type ScenarioLives,
  scenarioLives,
  type TrialLife,
} from './ageing/ScenarioLives.ts';
export { textOfCell } from './common/csvText.ts';
export {
  describeProblem,
  InputProblem,
  PROBLEM_CODES,
  type Problem,
  type ProblemCode,
} from './common/InputProblem.ts';
export type { DiaryFit } from './fitting/diaryFit.ts';
export { type DischargeReport, fitDischarge } from './fitting/fitDischarge.ts';
export { fitLog, type LogReport } from './fitting/fitLog.ts';
export { type FitReport, fitScenario } from './fitting/fitScenario.ts';
export { type ServiceFit, serviceLog } from './fitting/serviceLog.ts';
export { type LampParams, lampParams } from './lamp/params.ts';
export { type LampFits, type SettledLamp, settleLamp } from './lamp/settleLamp.ts';
export { type NightCause, type NightOutcome, type NightRow, nightLedger } from './night/nightLedger.ts';
export { describeScenario, type ScenarioData, scenarioData } from './output/describeScenario.ts';
export { dischargeText } from './output/dischargeText.ts';
export type { Figure } from './output/figures/Figure.ts';
export { lifeFigures } from './output/figures/lifeFigures.ts';
export { type RunFigures, runFigures } from './output/figures/runFigures.ts';
export { standaloneSvg } from './output/figures/standaloneSvg.ts';
export { fitText } from './output/fitText.ts';
export { hoursCsv } from './output/hoursCsv.ts';
export { jarCardText } from './output/jarCardText.ts';
export { lifeCsv } from './output/lifeCsv.ts';
export { type LivesOf, lifeJson } from './output/lifeJson.ts';
export { lifeText } from './output/lifeText.ts';
export { logFitText } from './output/logFitText.ts';
export { nightsCsv } from './output/nightsCsv.ts';
export { comparePage } from './output/page/comparePage.ts';
export { lifePage } from './output/page/lifePage.ts';
export { reportPage } from './output/page/reportPage.ts';
export { sizePage } from './output/page/sizePage.ts';
export { type Program, program } from './output/program.ts';
export { sensitivityText } from './output/sensitivityText.ts';
export { sizeJson } from './output/sizeJson.ts';
export { sizeText } from './output/sizeText.ts';
export { summaryJson } from './output/summaryJson.ts';
export { terminalRun } from './output/terminalRun.ts';
export { writeLife } from './output/writeLife.ts';
export { type WriteOptions, type WrittenRun, writeRun } from './output/writeRun.ts';
export { loadScenario } from './scenario/loadScenario.ts';
export { type ParseOptions, parseScenario } from './scenario/parseScenario.ts';
export type { Scenario } from './scenario/Scenario.ts';
export { scenarioJsonSchema } from './scenario/scenarioJsonSchema.ts';
export type { Chosen, Design } from './sizing/Design.ts';
export { type DesignSpace, designSpace, presentDesign } from './sizing/DesignSpace.ts';
export { designAt } from './sizing/designAt.ts';
export { designScenario } from './sizing/designScenario.ts';
export type { FindWord, Found } from './sizing/find/Found.ts';
export { find } from './sizing/find/find.ts';
export { type LampPlaces, lampPlaces, type PlacedLamp } from './sizing/lampPlaces.ts';
export type { Nearest, Outcome, Recommended, SizedDesign, SizingAnswer } from './sizing/SizedDesign.ts';
export { type ShoppingList, shoppingList } from './sizing/shoppingList.ts';
export { type SizingOptions, sizeLamp } from './sizing/sizeLamp.ts';
export { type Sizing, type SizingWishes, sizeScenario } from './sizing/sizeScenario.ts';
export { readSpotFiles } from './spot/readSpotFiles.ts';
export type { SpotFiles } from './spot/SpotFiles.ts';
export { type SpotPlace, spotPlace } from './spot/SpotPlace.ts';
export { type SkyCalendar, skyCalendar } from './spot/sky/SkyCalendar.ts';
export { type OpenSky, openSky } from './spot/sky/skyColumns.ts';
export { skyPicture } from './spot/skyPicture.ts';
export { lightInSpot, type SpotLight, spotLight } from './spot/spotLight.ts';
export { spotLimits } from './spot/spotLimits.ts';
export { bareSpot, openSpot, type ReadFile, type SpotParams, spotParams } from './spot/spotParams.ts';
export { energyStatistics } from './statistics/energyStatistics.ts';
export { monthStatistics } from './statistics/monthStatistics.ts';
export { verdictOf } from './statistics/overWinters.ts';
export type {
  EnergyStatistics,
  Fortnight,
  MonthStatistics,
  NightStatistics,
  Spell,
  TrialStatistics,
  Verdict,
  WinterStatistics,
} from './statistics/TrialStatistics.ts';
export {
  type Chance,
  type OverSample,
  type WinterOdds,
  wilson,
  winterOdds,
} from './statistics/WinterOdds.ts';
export { winterStatistics } from './statistics/winterStatistics.ts';
export { type NightCalendar, nightCalendar } from './sun/NightCalendar.ts';
export type { Site } from './sun/Site.ts';
export { solarPosition } from './sun/solarPosition.ts';
export {
  fileSource,
  type NamedBytes,
  readTextFile,
  type TableSource,
} from './tables/TableSource.ts';
export { COMPARED_BY, type Comparison } from './trial/Comparison.ts';
export { CAUTIONS } from './trial/cautions.ts';
export { compareRuns } from './trial/compareRuns.ts';
export { namedTrials, type TrialNames } from './trial/namedTrials.ts';
export { type PartEnds, partEnds } from './trial/partEnds.ts';
export { type RunOptions, runAll, runOf, type TrialsOptions, trialsOf } from './trial/runAll.ts';
export { runNights, runTrial, type TrialTerms } from './trial/runTrial.ts';
export { type Sensitivity, type SensitivityOptions, sensitivity } from './trial/sensitivity.ts';
export { spotSkies } from './trial/spotSkies.ts';
export type { Change, HourlyTrial, NightTrial, RunResult, Trial } from './trial/Trial.ts';
export {
  type ImportOptions,
  importWeather,
  type UnderstoodWeather,
  type WeatherReport,
} from './weather/importWeather.ts';
export { WEATHER_MARKS, type WeatherOrigin, type WeatherRecord } from './weather/WeatherRecord.ts';
export {
  type NightStretch,
  simulateNights,
  simulateYear,
  type YearNights,
  type YearOptions,
  type YearResult,
} from './year/simulateYear.ts';
export { YEAR_COLUMNS, type YearColumns } from './year/YearColumns.ts';
