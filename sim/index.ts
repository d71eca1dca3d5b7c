// The public functions. Their flow: weather, spot, lamp, year, night, statistics, scenario, trial, fitting, sizing, output.

export type { LampAge } from './ageing/agedLamp.ts';
export {
  type CapacitorReading,
  type CapacitorReadings,
  capacitorReadings,
  type OtherCause,
  type ReadingStep,
  type ReadingTime,
} from './ageing/capacitorReadings.ts';
export { LIFE_LAWS, type LifeLaw } from './ageing/capacitorWear.ts';
export { type CardLife, type ExpectedReading, type JarCard, jarCard } from './ageing/JarCard.ts';
export type { WornPart } from './ageing/LampWear.ts';
export type { LifeTerms, LifeWinter } from './ageing/LifeRun.ts';
export type { LifePremises } from './ageing/LifeTrials.ts';
export { type LampLife, lampLife } from './ageing/lampLife.ts';
export type { CheapChoice } from './ageing/lifeCost.ts';
export type { LifeEnd, RenewedPart } from './ageing/lifeEnd.ts';
export { lifeSweeps, type SweepWish } from './ageing/lifeSweep.ts';
export { type LifeWeather, madeLife, recordedLife } from './ageing/lifeWeather.ts';
export {
  type CheapLamp,
  type LawName,
  type LifeFact,
  type LifeRenewal,
  type LifeSweep,
  type LifeTotal,
  type LifeVariant,
  type LivesWishes,
  lifePremises,
  type ScenarioLives,
  scenarioLives,
  type TrialLife,
} from './ageing/ScenarioLives.ts';
export type { SpreadName } from './climate/meansClimate.ts';
export type { ClimateSection, DistributionName } from './climate/schema.ts';
export type { Bench, Prior, Reading } from './common/Bench.ts';
export { textOfCell } from './common/csvText.ts';
export type { Estimate, FittedReading, PartFit } from './common/Estimate.ts';
export type { ReadingsFit } from './common/fitReadings.ts';
export {
  describeProblem,
  InputProblem,
  PROBLEM_CODES,
  type Problem,
  type ProblemCode,
  type Report,
  type ValueProblem,
} from './common/InputProblem.ts';
export type { LeastSquaresFit } from './common/leastSquares.ts';
export type { LeastValues, Unknown } from './common/leastValues.ts';
export type { DiaryFit, DiaryNightFit } from './fitting/diaryFit.ts';
export type { DiaryNight } from './fitting/diaryNights.ts';
export type { DischargeFacts, StatedFacts } from './fitting/dischargeFacts.ts';
export { type DischargeReport, fitDischarge } from './fitting/fitDischarge.ts';
export { fitLog, type LogKeys, type LogOf, type LogReport } from './fitting/fitLog.ts';
export { type FitReport, fitScenario, type LampReport, type PartReport } from './fitting/fitScenario.ts';
export type { NextReading } from './fitting/nextReading.ts';
export type { CapacitorLog } from './fitting/readCapacitorLog.ts';
export type { DiaryRow, Seen } from './fitting/readDiary.ts';
export type { Service } from './fitting/serviceDays.ts';
export { type ServiceFit, type ServiceHour, serviceLog } from './fitting/serviceLog.ts';
export type { BenchCapacitor } from './lamp/capacitor/benchCapacitor.ts';
export type { DelayedBranch } from './lamp/capacitor/delayedCharge.ts';
export type { CapacitorChange, CapacitorParams, SeriesGrowth } from './lamp/capacitor/params.ts';
export type { CapacitorFit, CapacitorKeys } from './lamp/capacitor/readings.ts';
export type { CapacitorSection } from './lamp/capacitor/schema.ts';
export type { BenchCell } from './lamp/cell/benchCell.ts';
export type { CellParams } from './lamp/cell/params.ts';
export type { CellFit } from './lamp/cell/readings.ts';
export type { SingleDiode } from './lamp/cell/SingleDiode.ts';
export { checkLamp } from './lamp/checkLamp.ts';
export type { DiodeParams } from './lamp/diode/params.ts';
export type { DiodeFit } from './lamp/diode/readings.ts';
export type { DriverParams } from './lamp/driver/params.ts';
export type { DriverLaw, DriverSetting, Inductor, Rounding } from './lamp/driver/step.ts';
export type { JarParams } from './lamp/jar/params.ts';
export type { LedParams } from './lamp/led/params.ts';
export type { LoadTable } from './lamp/loadTable.ts';
export { type LampParams, lampParams, type PartParams } from './lamp/params.ts';
export type { PartLine, PartName } from './lamp/partsList.ts';
export type { PromiseSection, ScheduleSection } from './lamp/schedule/schema.ts';
export type { LampSection, SettledSection } from './lamp/schema.ts';
export { type LampFits, type SettledLamp, settleLamp } from './lamp/settleLamp.ts';
export {
  type LedgerTerms,
  type LedgerYear,
  type NightCause,
  type NightOutcome,
  type NightRow,
  nightLedger,
} from './night/nightLedger.ts';
export type { BlockSetting } from './output/BlockSetting.ts';
export { benchSheetText } from './output/benchSheetText.ts';
export {
  type DescribeOptions,
  describeScenario,
  type ScenarioData,
  scenarioData,
} from './output/describeScenario.ts';
export { dischargeText } from './output/dischargeText.ts';
export type { DrawnTrial } from './output/figures/drawnTrials.ts';
export type { Box } from './output/figures/element.ts';
export type { Figure, FigureReader, FigureTable, Narrow, TableColumn } from './output/figures/Figure.ts';
export { type LifeFigures, lifeFigures } from './output/figures/lifeFigures.ts';
export { type RunFigures, runFigures } from './output/figures/runFigures.ts';
export type { SendPicture } from './output/figures/sendPicture.ts';
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
export { spotSurveyText } from './output/spotSurveyText.ts';
export { summaryJson } from './output/summaryJson.ts';
export { terminalRun } from './output/terminalRun.ts';
export type { Look } from './output/textTable.ts';
export type { WrittenResult } from './output/writeFiles.ts';
export { writeLife } from './output/writeLife.ts';
export { type WriteOptions, type WrittenRun, writeRun } from './output/writeRun.ts';
export { loadScenario } from './scenario/loadScenario.ts';
export type { PartShelf, ShelfPart } from './scenario/PartShelf.ts';
export { type ParseOptions, parseScenario } from './scenario/parseScenario.ts';
export type { Part, PartKind, PartSpan } from './scenario/parts.ts';
export type {
  Choice,
  Choices,
  Json,
  Origin,
  Scenario,
  ScenarioLamp,
  ScenarioSource,
  ScenarioSpot,
} from './scenario/Scenario.ts';
export type { SchemaNode } from './scenario/SchemaNode.ts';
export type { ScenarioClimate } from './scenario/scenarioClimate.ts';
export { scenarioJsonSchema } from './scenario/scenarioJsonSchema.ts';
export type { KeyValues, UncertainValue } from './scenario/uncertainValues.ts';
export type { Chosen, Design, PartVariant, SpotVariant } from './sizing/Design.ts';
export { type DesignSpace, designSpace, presentDesign } from './sizing/DesignSpace.ts';
export type { CannotBeCounted } from './sizing/DesignTrials.ts';
export { designAt, type SearchedSpace } from './sizing/designAt.ts';
export { type DesignFile, designScenario } from './sizing/designScenario.ts';
export type { FindStep, FindWord, Found } from './sizing/find/Found.ts';
export { type FindOptions, find } from './sizing/find/find.ts';
export { type LampPlaces, lampPlaces, type PlacedLamp } from './sizing/lampPlaces.ts';
export type { CachePlace } from './sizing/OutcomeCache.ts';
export type {
  Nearest,
  Outcome,
  Recommended,
  SizedDesign,
  SizingAnswer,
  SizingStep,
} from './sizing/SizedDesign.ts';
export type { SizingTerms } from './sizing/Standings.ts';
export { type ShoppingLine, type ShoppingList, shoppingList } from './sizing/shoppingList.ts';
export { type SizingOptions, sizeLamp } from './sizing/sizeLamp.ts';
export {
  type Batch,
  type Sizing,
  type SizingWishes,
  type SpaceAnswer,
  sizeScenario,
} from './sizing/sizeScenario.ts';
export type { LikelyAnswer, LikelyDesign, LikelyLamp, OpenDesign } from './sizing/winters/LikelyLamp.ts';
export { type LikelySizing, type LikelyWishes, sizeByWinters } from './sizing/winters/sizeByWinters.ts';
export type { CellFront } from './spot/cover/cellFront.ts';
export type { CellPassage } from './spot/cover/cellPassage.ts';
export type { CoverParams, Glass } from './spot/cover/coverParams.ts';
export type { SnowLying } from './spot/cover/snowLying.ts';
export type { PlacedLog } from './spot/measured/placedLog.ts';
export type { MeasuredShares } from './spot/measured/sharesFromLog.ts';
export type { DiffuseFactors, PlaneFactors, PlaneScene, SkyTerms, TakenLight } from './spot/planeFactors.ts';
export type { PlaneLight } from './spot/planeLight.ts';
export { readSpotFiles } from './spot/readSpotFiles.ts';
export type { LightLog, LoggedHours, ShadingTrace, SpotFiles } from './spot/SpotFiles.ts';
export { type SpotPlace, type SpotScene, spotPlace } from './spot/SpotPlace.ts';
export type { SpotSection } from './spot/schema.ts';
export type { Plane } from './spot/shade/beamOnPlane.ts';
export type { BeamSight } from './spot/shade/beamSight.ts';
export type { HorizonProfile } from './spot/shade/horizonScreen.ts';
export type { LitFace } from './spot/shade/litFaces.ts';
export type { BoxObstacle, Leaves, Obstacle, ObstacleBase, TreeObstacle } from './spot/shade/Obstacle.ts';
export type { Screen, SkyDome, Span } from './spot/shade/SkyDome.ts';
export type { ObstacleSection } from './spot/shade/schema.ts';
export type { SeasonDomes, Surroundings } from './spot/shade/seasonDomes.ts';
export { type SkyCalendar, skyCalendar } from './spot/sky/SkyCalendar.ts';
export { type OpenSky, openSky, type SkyColumns } from './spot/sky/skyColumns.ts';
export type { SkyModel, SkyParts } from './spot/sky/skyModels.ts';
export { type OutlinePoint, type SkyPicture, type SunPoint, skyPicture } from './spot/skyPicture.ts';
export { lightInSpot, type SpotLight, type SpotSnow, spotLight } from './spot/spotLight.ts';
export { type SpotLimits, spotLimits } from './spot/spotLimits.ts';
export {
  bareSpot,
  type LoggedLight,
  type MeasuredLight,
  openSpot,
  type ReadFile,
  type Shading,
  type SpotParams,
  spotParams,
} from './spot/spotParams.ts';
export type { BatchShares } from './statistics/batchShares.ts';
export type { CivilDay } from './statistics/civilHours.ts';
export { energyStatistics } from './statistics/energyStatistics.ts';
export { monthStatistics } from './statistics/monthStatistics.ts';
export { verdictOf } from './statistics/overWinters.ts';
export type {
  EnergyColumn,
  EnergyStatistics,
  Fortnight,
  MonthStatistics,
  NightStatistics,
  ShortHours,
  Spell,
  TrialStatistics,
  Verdict,
  WinterExtent,
  WinterStatistics,
  WinterTotals,
} from './statistics/TrialStatistics.ts';
export {
  type Chance,
  type CountedWinter,
  type OverSample,
  type WinterOdds,
  wilson,
  winterOdds,
} from './statistics/WinterOdds.ts';
export { winterStatistics } from './statistics/winterStatistics.ts';
export { type NightCalendar, nightCalendar } from './sun/NightCalendar.ts';
export type { Site } from './sun/Site.ts';
export type { SunTrack } from './sun/SunTrack.ts';
export { type SolarPosition, solarPosition } from './sun/solarPosition.ts';
export type { SunColumns } from './sun/sunColumns.ts';
export type { Encoding } from './tables/decodeText.ts';
export type { Delimiter } from './tables/rowSplitter.ts';
export type { StampPart } from './tables/stampReader.ts';
export { fileSource, type NamedBytes, readTextFile, type TableSource } from './tables/TableSource.ts';
export type { UnitName } from './tables/units.ts';
export type { Discharge } from './trial/benchCare.ts';
export type { BenchCheck } from './trial/benchChecks.ts';
export {
  type BenchPart,
  type BenchSheet,
  type BenchWire,
  type BuildSheet,
  benchSheet,
  type SheetHead,
  type WithheldSheet,
} from './trial/benchSheet.ts';
export {
  COMPARED_BY,
  type CommonAxes,
  type ComparedBy,
  type ComparedMonth,
  type ComparedScenario,
  type ComparedSpot,
  type ComparedTable,
  type ComparedTrial,
  type Comparison,
  type LampInSpot,
  type LimitedBy,
} from './trial/Comparison.ts';
export { CAUTIONS, type Covers } from './trial/cautions.ts';
export type { ChargeClaim, ClaimMonth } from './trial/chargeClaim.ts';
export { type ComparedRuns, comparedRuns, compareRuns, comparisonOf } from './trial/compareRuns.ts';
export type { WayToKnow } from './trial/howToKnow.ts';
export type { JobsOptions, WorkOptions } from './trial/jobPool.ts';
export type { LeanOutcome, Premises } from './trial/LeanTrials.ts';
export type { LampBatch } from './trial/lampBatch.ts';
export type { LampMoney } from './trial/lampMoney.ts';
export type { LoadResistor } from './trial/loadResistor.ts';
export { loadWeather, type WeatherFile, type WeatherWishes } from './trial/loadWeather.ts';
export type { LightMonth } from './trial/monthlyLight.ts';
export { namedTrials, type TrialNames } from './trial/namedTrials.ts';
export type { OddsWishes, ScenarioOdds } from './trial/OddsJobs.ts';
export type { TrialOdds, WinterFigures } from './trial/odds.ts';
export type { OverRating } from './trial/overRating.ts';
export { type PartEnds, partEnds } from './trial/partEnds.ts';
export { type RunOptions, runAll, runOf, type TrialsOptions, trialsOf } from './trial/runAll.ts';
export { runNights, runTrial, type TrialTerms } from './trial/runTrial.ts';
export type { SpotLights } from './trial/SpotLights.ts';
export { scenarioOdds } from './trial/scenarioOdds.ts';
export { type MovedBy, type Sensitivity, type SensitivityOptions, sensitivity } from './trial/sensitivity.ts';
export { spotSkies } from './trial/spotSkies.ts';
export {
  type SkylineRow,
  type SkylineStretch,
  type SpotSheet,
  type SpotSurvey,
  type StatedObstacle,
  spotSurvey,
} from './trial/spotSurvey.ts';
export { spreader } from './trial/spread.ts';
export type {
  Change,
  FollowedParameter,
  HourlyTrial,
  JudgedTrial,
  NightTrial,
  OutcomeSpread,
  RunResult,
  SnowBlame,
  Trial,
} from './trial/Trial.ts';
export type { AtEnds, TrialAssumption } from './trial/trialAssumptions.ts';
export type { WinterBasis, WinterWay } from './trial/WinterMaker.ts';
export type { Place, PlaceSlip, SiteReading } from './weather/clock/checkSiteBySun.ts';
export type { ClockReading } from './weather/clock/estimateClockOffset.ts';
export type { ClockSegment } from './weather/clock/findSegments.ts';
export type { ClockTrust, ResolvedClock } from './weather/clock/resolveClock.ts';
export type { StampReading as LikelyStampReading } from './weather/clock/stampReadings.ts';
export type { NightSide } from './weather/clock/stoppedHours.ts';
export type { ClockEvidence, Explanation, SunClockCheck } from './weather/clock/sunClockCheck.ts';
export type { FilledColumns, MonthFill } from './weather/gaps/fillGaps.ts';
export type { UsableStretch } from './weather/gaps/usableStretch.ts';
export { importWeather, type UnderstoodWeather, type WeatherReport } from './weather/importWeather.ts';
export type { QualityReport } from './weather/quality/examineQuality.ts';
export type { Finding, FindingEffect, FindingKind } from './weather/quality/Finding.ts';
export type { Month, SunLight } from './weather/quality/SunLight.ts';
export type { Stretch } from './weather/quality/stretchesOf.ts';
export type { NativeSeries } from './weather/read/NativeSeries.ts';
export type { ImportOptions } from './weather/readWithClock.ts';
export type {
  ColumnChoice,
  DetectedFormat,
  Doubt,
  LabelClaim,
  Layout,
  QuantityName,
  SiteClaim,
  StampLabel,
  StampReading,
  WideDays,
  ZoneClaim,
} from './weather/recognise/DetectedFormat.ts';
export type { RecogniseOptions } from './weather/recognise/recognise.ts';
export type { WeatherValue } from './weather/schema.ts';
export {
  type HourlyColumns,
  WEATHER_MARKS,
  type WeatherOrigin,
  type WeatherRecord,
} from './weather/WeatherRecord.ts';
export type { EnergyClosure } from './year/energyClosure.ts';
export type { NightTotals, ShortCause } from './year/NightTotals.ts';
export {
  type NightStretch,
  simulateNights,
  simulateYear,
  type YearNights,
  type YearOptions,
  type YearResult,
  type YearStart,
  type YearTimes,
} from './year/simulateYear.ts';
export { type TimeColumns, YEAR_COLUMNS, type YearColumns } from './year/YearColumns.ts';
