import type { NightRow } from '../night/nightLedger.ts';
import type { Scenario } from '../scenario/Scenario.ts';
import type { SpotLight } from '../spot/spotLight.ts';
import type { NightStatistics, TrialStatistics } from '../statistics/TrialStatistics.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';
import type { YearNights, YearResult, YearTimes } from '../year/simulateYear.ts';
import type { ScenarioOdds } from './OddsJobs.ts';

/** The nights of one lamp in one spot under one weather record. */
export interface NightTrial {
  spot: string;
  lamp: string;
  light: SpotLight;
  year: Omit<YearNights, 'nights'>;
  nights: NightRow[];
  statistics: NightStatistics;
}

/** The same judged: by winter and by month, and what snow did. */
export interface JudgedTrial extends NightTrial {
  statistics: NightStatistics & Pick<TrialStatistics, 'months'>;
  /** What snow on the lid did; only where some lay there and a night failed. */
  snow?: SnowBlame | undefined;
}

/** A judged trial with the times of its hours, by which its nights can be drawn. */
export interface TimedTrial extends JudgedTrial {
  year: Omit<YearTimes, 'nights'>;
}

/** One lamp in one spot under one weather record: the unit of every result. */
export interface Trial extends JudgedTrial {
  statistics: TrialStatistics;
  /** Sentences a maker must see: capacitor above its rated voltage, hours beyond the boost's formula, a year that does not close, ... */
  flags: string[];
  /** What single changes would do, where the promise is broken; best first. */
  changes: Change[];
  /** The outcome over what the readings of the lamp leave open; only where it was asked for. */
  spread?: OutcomeSpread;
}

/** A trial with its hours: 2.5 MB a year, so that of many trials only some keep them. */
export interface HourlyTrial extends Trial {
  year: YearResult;
}

/** Failed nights, over whole winters or the parts where none is whole. */
export interface SnowBlame {
  failedNights: number;
  /** Of these: kept where the snow is brushed off the lid. */
  bySnow: number;
  /** All that fail with it brushed off. */
  brushedFailedNights: number;
}

/** A whole run: every lamp of a scenario in every spot, under one weather record. */
export interface RunResult<Ran extends Trial = Trial> {
  scenario: Scenario;
  /** Of a run that was interrupted: how many of its trials there are, and of how many. */
  partial?: { completeTrials: number; allTrials: number };
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
  record?: WeatherRecord | undefined;
  /** Spots in the order of the scenario, the lamps within each. */
  trials: Ran[];
  /** What made winters say, where they were asked for. */
  odds?: ScenarioOdds | undefined;
  assumptions: string[];
  cautions: string[];
}

/** One single change to a trial that failed, and what the whole record run again with it came to. */
export interface Change {
  /** What is changed, in few words: 'a second capacitor in parallel'. */
  change: string;
  /** Before and after, with units. */
  detail: string;
  failedNightsBefore: number;
  failedNights: number;
  shortBefore_h: number;
  short_h: number;
  /** No night fails; fewer do or a tenth less is short; neither; more fail or a tenth more is short. */
  effect: 'mends' | 'helps' | 'no-better' | 'worse';
  /** What the parts of the change cost, where prices are given, in the scenario's currency. */
  cost: number | undefined;
}

/** How closely the short hours follow one parameter over the samples. */
export interface FollowedParameter {
  /** Part and key of the scenario: 'capacitor.leakage_uA'. */
  key: string;
  /** Spearman's, -1 to 1: above 0 where more of it means more short hours; NaN where the short hours never change. */
  rankCorrelation: number;
}

/** What a trial gives over what the bench readings of its lamp leave open: of the parts, never of the weather. */
export interface OutcomeSpread {
  /** Draws asked for; 0 where no part has readings that give an interval. */
  samples: number;
  /** Draws that make a lamp which can be run; the counts below are over these. */
  ran: number;
  verdictStands: number;
  /** Over whole winters, or the parts where none is whole. */
  failedNights: { lowest: number; median: number; highest: number };
  /** Closest first. */
  parameters: FollowedParameter[];
  /** The first of them, where chance among so many would rarely show as much. */
  mostly?: FollowedParameter;
}
