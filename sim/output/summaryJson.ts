import { type LampMoney, lampMoney } from '../trial/lampMoney.ts';
import type { RunResult, Trial } from '../trial/Trial.ts';
import { jsonText, published } from './json.ts';
import type { Program } from './program.ts';

/**
 * The text of summary.json, schema 1: the answers of a run, without clock or absolute path, keys in a fixed order.
 *
 * in: run; program, what made it; files, SHA-256 (hexadecimal) of each file written beside it, by name
 * out: JSON text, two spaces of indent, ending in LF
 */
export function summaryJson(
  run: RunResult,
  program: Program,
  files: Readonly<Record<string, string>>,
): string {
  const { scenario, weather } = run;
  return jsonText(program, {
    ...(run.partial === undefined ? {} : { partial: published(run.partial) }),
    seed: scenario.seed,
    scenario: { name: scenario.name, sha256: scenario.sha256, resolved: scenario.resolved },
    weather,
    assumptions: run.assumptions,
    questions: scenario.questions,
    cautions: run.cautions,
    ...(run.odds === undefined ? {} : { odds: published(run.odds, 6) }),
    trials: run.trials.map((trial) => trialSummary(trial, lampMoney(scenario, trial))),
    files,
  });
}

function trialSummary(
  { spot, lamp, statistics, year, light, flags, changes, spread }: Trial,
  money: LampMoney,
) {
  const { verdict, winters, odds, months, energy } = statistics;
  const energies = Object.entries(energy).map(([name, joule]) => [name.replace(/_J$/, ''), joule]);
  return {
    spot,
    lamp,
    verdict,
    ...(odds === undefined ? {} : { odds: published(odds) }),
    winters: published(winters),
    months: published(months),
    energy_J: published(Object.fromEntries(energies)),
    capacitor: published({
      start_V: year.startCapacitor_V,
      end_V: year.endCapacitor_V,
      repeatedYears: year.passes,
    }),
    hours: published({ beamCapped: light.cappedHours, beyondBoostFormula: year.beyondFormula_s / 3600 }),
    money: published(money),
    flags,
    changes: published(changes),
    ...(spread === undefined ? {} : { spread: spreadSummary(spread) }),
  };
}

/** Over what the readings of the lamp leave open; never a probability of winters. */
function spreadSummary({ parameters, mostly, ...counts }: NonNullable<Trial['spread']>) {
  return {
    ...(published(counts) as object),
    matters_most: mostly?.key ?? null,
    rank_correlations: parameters.map(({ key, rankCorrelation }) =>
      published({ parameter: key, withShortHours: rankCorrelation }),
    ),
  };
}
