import { significant } from '../common/Estimate.ts';
import { InputProblem } from '../common/InputProblem.ts';
import { driverLaw } from '../lamp/driver/step.ts';
import type { SettledSection } from '../lamp/schema.ts';
import type { Scenario } from '../scenario/Scenario.ts';
import { spotLight } from '../spot/spotLight.ts';
import { decodeText } from '../tables/decodeText.ts';
import type { NamedBytes } from '../tables/TableSource.ts';
import { CAUTIONS } from '../trial/cautions.ts';
import { loadWeather } from '../trial/loadWeather.ts';
import { scenarioSpotFiles } from '../trial/scenarioLights.ts';
import { type DiaryFit, diaryFit } from './diaryFit.ts';
import { readCapacitorLog } from './readCapacitorLog.ts';
import { readDiary } from './readDiary.ts';
import { chosen } from './scenarioWithReadings.ts';
import { type ServiceFit, serviceLog } from './serviceLog.ts';

/** Which lamp in which spot a log belongs to; needed where the scenario has several. */
export interface LogOf {
  lamp?: string | undefined;
  spot?: string | undefined;
}

/** Keys to write into a scenario after a log: by part of the lamp, and of the spot. */
export interface LogKeys {
  lamp: Record<string, Record<string, unknown>>;
  spot: Record<string, unknown>;
}

/** What a log gave, or a diary, or both, and whose they were. */
export interface LogReport {
  scenario: string;
  lamp: string;
  spot: string;
  /** Names of the files. */
  logs: string[];
  /** To write into the scenario. */
  keys: LogKeys;
  timeZone: string;
  /** Of the voltages, where there are any. */
  fit?: ServiceFit;
  /** Of the diary, with what the voltages say, where there is one. */
  diary?: DiaryFit;
  cautions: readonly string[];
}

/**
 * What a log of a lamp in service says, or a diary of when it went out, or both, the lamp, its spot and the weather of
 * those days being a scenario's.
 *
 * in: scenario; files, a log of voltages, a diary, or one of each; of, the lamp and the spot they belong to
 * out: the fits with the names they are of
 * throws: USAGE where lamp or spot are not told or not known, or with two files of a kind; FILE_*, WEATHER_*,
 *   FIT_UNDETERMINED
 */
export async function fitLog(
  scenario: Scenario,
  files: readonly NamedBytes[],
  of: LogOf,
): Promise<LogReport> {
  const lamp = chosen('lamp', scenario.lamps, of.lamp);
  const spot = chosen('spot', scenario.spots, of.spot);
  const { site, promise } = scenario;
  const { voltages, written } = byKind(files);
  const log = voltages && readCapacitorLog(voltages, lamp.params.capacitor.rated_V);
  const seen = written && readDiary(written, site.timeZone);
  const weather = await loadWeather(scenario, { wholeRecord: true });
  const light = spotLight(weather, site, spot.params, scenarioSpotFiles(scenario, spot.params));
  const service = { lamp: lamp.params, light, site, promise };
  const fit = log && serviceLog(service, log);
  const diary = seen && diaryFit(service, seen, fit);
  return {
    scenario: scenario.name,
    lamp: lamp.name,
    spot: spot.name,
    logs: files.map(({ name }) => name),
    keys: logKeys(lamp.settled, spot.section.shading?.factor ?? 1, diary ?? fit!),
    timeZone: site.timeZone,
    ...(fit && { fit }),
    ...(diary && { diary }),
    cautions: CAUTIONS,
  };
}

/** The heading of a log has at least one of its columns; a diary has none of them. */
function byKind(files: readonly NamedBytes[]): { voltages?: NamedBytes; written?: NamedBytes } {
  const isLog = (file: NamedBytes) => LOG_HEADING.test(decodeText(file).slice(0, 10_000));
  const [voltages, ...moreVoltages] = files.filter(isLog);
  const [written, ...moreWritten] = files.filter((file) => !isLog(file));
  const more = moreVoltages[0] ?? moreWritten[0];
  if (more === undefined) return { ...(voltages && { voltages }), ...(written && { written }) };
  throw new InputProblem({
    code: 'USAGE',
    file: 'command line',
    got: `--log ${more.name}, a second ${more === moreVoltages[0] ? 'log of voltages' : 'diary'}`,
    expected: 'one log of voltages, one diary, or one of each',
    fix: 'put the rows of both into one file.',
  });
}

const LOG_HEADING = /^[^\n\d]*\b(?:time_utc|capacitor_V)\b/im;

/**
 * The scenario's keys that carry what a log or a diary gave.
 *
 * in: lamp, its readings settled; factor, of the spot's shading; found, estimates; what is open has no key
 * out: keys; a light share above 1 has none, since nothing adds light
 */
function logKeys({ capacitor, driver }: SettledSection, factor: number, found: Found): LogKeys {
  const times = (key: string) => {
    const estimate = found.open?.includes(key) ? undefined : found.estimates.find((each) => each.key === key);
    return estimate === undefined ? 1 : estimate.value / (estimate.datasheet ?? 1);
  };
  const has = (key: string) => times(key) !== 1;
  const [leakage, capacitance, draw] = [times('leakage_uA'), times('capacitance'), times('draw')];
  const share = factor * times('light_share');
  const lamp: LogKeys['lamp'] = {};
  if (capacitor.raw === undefined) {
    const leakage_uA = digits((capacitor.leakage_uA ?? 0) * leakage);
    const capacitance_F = digits((capacitor.capacitance_F ?? 0) * capacitance);
    if (has('leakage_uA') || has('capacitance'))
      lamp.capacitor = {
        ...(has('capacitance') && { capacitance_F }),
        ...(has('leakage_uA') && { leakage_uA }),
      };
  } else if (has('capacitance') || (capacitor.raw.leakage_ohm !== undefined && leakage > 0))
    lamp.capacitor = { raw: rawTimes(capacitor.raw, capacitance, leakage) };
  if (draw !== 1) lamp.driver = driverLaw(driver).times(draw).keys(digits);
  return { lamp, spot: share > 1 ? {} : { shading: { factor: digits(share) } } };
}

/** What `logKeys` reads of a fit. */
type Found = Pick<ServiceFit, 'estimates'> & Partial<Pick<DiaryFit, 'open'>>;
type RawCapacitor = NonNullable<SettledSection['capacitor']['raw']>;

function rawTimes(raw: RawCapacitor, capacitance: number, leakage: number): RawCapacitor {
  const { leakage_ohm, delayed_branches } = raw;
  return {
    ...raw,
    capacitance_F: digits(raw.capacitance_F * capacitance),
    rise_F_V: digits(raw.rise_F_V * capacitance),
    delayed_branches: delayed_branches.map((branch) => ({
      resistance_ohm: digits(branch.resistance_ohm / capacitance),
      capacitance_F: digits(branch.capacitance_F * capacitance),
    })),
    ...(leakage_ohm !== undefined && leakage > 0 && { leakage_ohm: digits(leakage_ohm / leakage) }),
  };
}

const digits = (value: number) => significant(value, 4);
