import { significant } from '../common/Estimate.ts';
import { driverLaw } from '../lamp/driver/step.ts';
import type { SettledSection } from '../lamp/schema.ts';
import type { Scenario } from '../scenario/Scenario.ts';
import { readScenarioFile } from '../scenario/scenarioFile.ts';
import { spotLight } from '../spot/spotLight.ts';
import type { NamedBytes } from '../tables/TableSource.ts';
import { CAUTIONS } from '../trial/cautions.ts';
import { loadWeather } from '../trial/loadWeather.ts';
import { readCapacitorLog } from './readCapacitorLog.ts';
import { chosen } from './scenarioWithReadings.ts';
import { type ServiceFit, serviceLog } from './serviceLog.ts';

/** Which lamp in which spot a log belongs to; needed where the scenario has several. */
export interface LogOf {
  lamp?: string | undefined;
  spot?: string | undefined;
}

/** Keys to write into a scenario after a log: by part of the lamp, and of the spot. */
interface LogKeys {
  lamp: Record<string, Record<string, unknown>>;
  spot: Record<string, unknown>;
}

/** What a log gave, and whose it was. */
export interface LogReport {
  scenario: string;
  lamp: string;
  spot: string;
  log: string;
  /** To write into the scenario. */
  keys: LogKeys;
  timeZone: string;
  fit: ServiceFit;
  cautions: readonly string[];
}

/**
 * What a log of a lamp in service says, the lamp, its spot and the weather of those days being a scenario's.
 *
 * in: scenario; file, the log; of, the lamp and the spot it belongs to
 * out: the fit with the names it is of
 * throws: USAGE where lamp or spot are not told or not known; FILE_*, WEATHER_*, FIT_UNDETERMINED
 */
export async function fitLog(scenario: Scenario, file: NamedBytes, of: LogOf): Promise<LogReport> {
  const lamp = chosen('lamp', scenario.lamps, of.lamp);
  const spot = chosen('spot', scenario.spots, of.spot);
  const log = readCapacitorLog(file, lamp.params.capacitor.rated_V);
  const weather = await loadWeather(scenario, { wholeRecord: true });
  const light = spotLight(
    weather,
    scenario.site,
    spot.params,
    (name) => readScenarioFile(scenario, name).bytes,
  );
  const fit = serviceLog({ lamp: lamp.params, light, site: scenario.site, promise: scenario.promise }, log);
  return {
    scenario: scenario.name,
    lamp: lamp.name,
    spot: spot.name,
    log: file.name,
    keys: logKeys(lamp.settled, spot.section.shading?.factor ?? 1, fit),
    timeZone: scenario.site.timeZone,
    fit,
    cautions: CAUTIONS,
  };
}

/**
 * The scenario's keys that carry what a log gave.
 *
 * in: lamp, its readings settled; factor, of the spot's shading; fit
 * out: keys; a light share above 1 has none, since nothing adds light
 */
function logKeys({ capacitor, driver }: SettledSection, factor: number, fit: ServiceFit): LogKeys {
  const times = (key: string) => {
    const estimate = fit.estimates.find((each) => each.key === key);
    return estimate === undefined ? 1 : estimate.value / (estimate.datasheet ?? 1);
  };
  const leakage = times('leakage_uA');
  const share = factor * times('light_share');
  const draw = times('draw');
  const lamp: LogKeys['lamp'] = {};
  if (capacitor.raw === undefined)
    lamp.capacitor = { leakage_uA: digits((capacitor.leakage_uA ?? 0) * leakage) };
  else if (capacitor.raw.leakage_ohm !== undefined && leakage > 0) {
    lamp.capacitor = { raw: { ...capacitor.raw, leakage_ohm: digits(capacitor.raw.leakage_ohm / leakage) } };
  }
  if (draw !== 1) lamp.driver = driverLaw(driver).times(draw).keys(digits);
  return { lamp, spot: share > 1 ? {} : { shading: { factor: digits(share) } } };
}

const digits = (value: number) => significant(value, 4);
