import type { PromiseSection, ScheduleSection } from '../lamp/schedule/schema.ts';
import type { Scenario, ScenarioLamp } from '../scenario/Scenario.ts';
import type { SkyPicture } from '../spot/skyPicture.ts';
import type { CivilDay } from '../statistics/civilHours.ts';
import type { Site } from '../sun/Site.ts';
import { type LampMoney, lampMoney } from '../trial/lampMoney.ts';
import type { JudgedTrial } from '../trial/Trial.ts';

/** What the pictures and words of a trial need beside the trial: plain data, far less than a whole run. */
export interface BlockSetting {
  site: Site;
  promise: PromiseSection;
  currency: string | undefined;
  /** The civil dates of the record, with the hours of each. */
  days: readonly CivilDay[];
  /** The sky from the spot; undefined where its light was logged. */
  sky: SkyPicture | undefined;
  /** Of the trial's lamp; NaN where not known. */
  lamp: { cutoff_V: number; rated_V: number; area_m2: number };
  /** When the lamp tries to shine; undefined where it is not known. */
  schedule: ScheduleSection | undefined;
  /** Whether the winter has not happened, but is the typical one of made winters. */
  made: boolean;
  /** Of the weather, without its folder; undefined where light was logged. */
  weatherFile: string | undefined;
  money: LampMoney;
  /** The trials of the same lamp, this one among them, for light and capacitor in other spots. */
  beside: readonly Pick<JudgedTrial, 'spot' | 'statistics'>[];
}

/** What is taken from a run. */
interface SettingRun {
  scenario: Pick<Scenario, 'site' | 'promise' | 'currency'> & {
    lamps: readonly Pick<ScenarioLamp, 'name' | 'params' | 'section'>[];
  };
  trials: readonly Pick<JudgedTrial, 'spot' | 'lamp' | 'statistics'>[];
  weather: { options: Readonly<Record<string, string>> };
  record?: { origin: { file: string } } | undefined;
}

/** The setting of a trial of a run; days, the civil dates of its record; sky, that from its spot. */
export function blockSetting(
  { scenario, trials, weather, record }: SettingRun,
  trial: Pick<JudgedTrial, 'lamp' | 'statistics'>,
  days: BlockSetting['days'],
  sky: BlockSetting['sky'],
): BlockSetting {
  const lamp = scenario.lamps.find(({ name }) => name === trial.lamp);
  const params = lamp?.params;
  return {
    site: scenario.site,
    promise: scenario.promise,
    currency: scenario.currency,
    days,
    sky,
    lamp: {
      cutoff_V: params?.driver.cutoff_V ?? Number.NaN,
      rated_V: params?.capacitor.rated_V ?? Number.NaN,
      area_m2: params?.cell.area_m2 ?? Number.NaN,
    },
    schedule: lamp?.section.schedule,
    made: weather.options.shown !== undefined,
    weatherFile: record?.origin.file.split(/[\\/]/).at(-1),
    money: lampMoney(scenario, trial),
    beside: trials.filter(({ lamp }) => lamp === trial.lamp),
  };
}
