import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { InputProblem } from '../../sim/common/InputProblem.ts';
import { benchSheetText } from '../../sim/output/benchSheetText.ts';
import { describeScenario } from '../../sim/output/describeScenario.ts';
import { hoursCsv } from '../../sim/output/hoursCsv.ts';
import { nightsCsv } from '../../sim/output/nightsCsv.ts';
import { summaryJson } from '../../sim/output/summaryJson.ts';
import { terminalRun } from '../../sim/output/terminalRun.ts';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import type { Scenario } from '../../sim/scenario/Scenario.ts';
import { benchSheet } from '../../sim/trial/benchSheet.ts';
import { runOf, trialsOf } from '../../sim/trial/runAll.ts';
import type { HourlyTrial, RunResult } from '../../sim/trial/Trial.ts';
import { YEAR_COLUMNS } from '../../sim/year/YearColumns.ts';
import { inventedHours } from '../spot/inventedHours.ts';
import { FORTNIGHT } from './ordinaryScenarios.ts';
import { expectRefusal } from './refusal.ts';

const folder = mkdtempSync(join(tmpdir(), 'to-end-'));
process.on('exit', () => rmSync(folder, { recursive: true, force: true }));

/** What no maker should read: another program's words, or a value that never came to be. */
const NONSENSE = /\[object |\bundefined\b|\bNaN\b|\bInfinity\b/;
/** Joules that no sum of a fortnight reaches. */
const MOST_CHARGE_LOST = 1e-9;

/** What came of a scenario that was carried to its end. */
export type Outcome = 'ran' | 'refused';

/**
 * A scenario to the end of all that a run does with it, over a fortnight of weather: read, run with what single changes
 * would do, bench sheet, and every text that is written.
 *
 * throws: Error where it ends otherwise than with sound results, or with a refusal by line and key
 */
export function runToEnd(yaml: string): Outcome {
  const path = join(folder, 'garden.yaml');
  writeFileSync(path, yaml);
  try {
    const scenario = loadScenario(path, 'garden.yaml');
    const weather = weatherOver(scenario);
    const run = runOf(scenario, weather, [...trialsOf(scenario, weather)]);
    checkRun(run);
    return 'ran';
  } catch (error) {
    if (!(error instanceof InputProblem)) throw error;
    checkRefusal(error, yaml);
    return 'refused';
  }
}

/** The fortnight at the scenario's place; its air as the scenario says, where it says one temperature for all hours. */
function weatherOver({ site, weather }: Scenario) {
  if (weather === undefined) return undefined;
  const record = inventedHours(site, FORTNIGHT.start_ms, FORTNIGHT.hours, 3);
  const constant_degC = weather.section.columns?.air_temperature?.constant_degC;
  if (constant_degC !== undefined) record.air_degC.fill(constant_degC);
  return record;
}

function checkRun(run: RunResult<HourlyTrial>): void {
  const { scenario, trials } = run;
  for (const { year, nights } of trials) {
    for (const name of YEAR_COLUMNS) {
      const at = year.columns[name].findIndex((value) => !Number.isFinite(value));
      if (at >= 0) throw new Error(`${name} is ${year.columns[name][at]} in hour ${at}`);
    }
    if (!(year.chargeResidual <= MOST_CHARGE_LOST))
      throw new Error(`charge is off by ${year.chargeResidual}`);
    if (!(year.energyResidual >= 0)) throw new Error(`energy is off by ${year.energyResidual}`);
    for (const { promised_h, lit_h, dim_h, out_h } of nights) {
      const gap_h = Math.abs(promised_h - lit_h - dim_h - out_h);
      if (!(gap_h < 1e-4)) throw new Error(`a night of ${promised_h} h is off by ${gap_h} h`);
    }
  }
  const sheets = scenario.lamps.map((lamp) => benchSheet(lamp, scenario.spots, scenario.currency));
  const { timeZone } = scenario.site;
  const texts = {
    terminal: terminalRun(run, {}),
    check: describeScenario(scenario),
    bench: benchSheetText(sheets),
    nights: nightsCsv(trials, timeZone),
    hours: Buffer.concat([...hoursCsv(trials, timeZone)]).toString(),
    summary: summaryJson(run, { version: '0', nodeMajor: 20 } as never, {}),
  };
  for (const [name, text] of Object.entries(texts)) {
    const found = NONSENSE.exec(text);
    if (found !== null)
      throw new Error(`${name} says "${text.slice(Math.max(0, found.index - 80), found.index + 40)}"`);
  }
}

/** A refusal names the file's line and the key, or another file, and says what can be understood. */
function checkRefusal(refusal: InputProblem, yaml: string): void {
  expectRefusal(refusal, yaml);
  for (const { code, file, line, field, got } of refusal.problems) {
    const ofDocument = code.startsWith('YAML') || (line === 1 && field === undefined);
    const placed =
      file === 'garden.yaml' ? line !== undefined && (field !== undefined || ofDocument) : file !== undefined;
    if (!placed) throw new Error(`a refusal without its place: ${code} ${file} ${line} ${field} ${got}`);
  }
}
