import { InputProblem } from '../common/InputProblem.ts';
import type { Scenario, ScenarioLamp, ScenarioSource } from '../scenario/Scenario.ts';
import type { SpotLight } from '../spot/spotLight.ts';
import { placedIn } from '../trial/runAll.ts';
import type { YearStart } from '../year/simulateYear.ts';
import { type LifeLaw, lawNamed } from './capacitorWear.ts';
import { type ChangedLamp, changedLamp } from './changedLamp.ts';
import { LifeRun } from './LifeRun.ts';
import { lifeOf } from './lampLife.ts';
import { lifeEnd } from './lifeEnd.ts';
import type { EndedLife } from './trialLife.ts';

/** What all lives of a scenario are run with; can be handed to another thread. */
export interface LifePremises {
  /** Of each spot by its name: a record, or made winters, of which the first is what wears the lamp. */
  lights: ReadonlyMap<string, readonly [SpotLight, ...SpotLight[]]>;
  start: YearStart;
  years: number;
  /** Whether the cover is cleaned each spring. */
  cleaned: boolean;
  exact: boolean;
}

/** All that another thread needs to run lives: it makes the scenario by itself. */
export interface LifeSetup {
  source: ScenarioSource;
  premises: LifePremises;
}

/** One lamp in one spot through the years by one law. */
export interface LifeJob {
  spot: string;
  lamp: string;
  law: LifeLaw['name'];
  /** The lamp with one value changed; what ends it is not asked then. */
  changed?: ChangedLamp;
}

/** What came of it. */
export type LawLife = EndedLife | { cannotBe: string };

/** Runs lives of a scenario: all that a thread keeps from job to job. */
export class LifeTrials {
  private readonly scenario: Scenario;
  private readonly premises: LifePremises;

  constructor(scenario: Scenario, premises: LifePremises) {
    this.scenario = scenario;
    this.premises = premises;
  }

  /**
   * in: job
   * out: the life; of a changed lamp the reason where no such lamp can be
   * throws: InputProblem as `runTrial`, of a lamp that is not changed
   */
  run({ changed, ...job }: LifeJob): LawLife {
    const lamp = this.scenario.lamps.find(({ name }) => name === job.lamp)!;
    if (changed === undefined) return placedIn(this.scenario, () => this.life(lamp, job));
    const other = changedLamp(lamp, changed, this.premises.start);
    if ('cannotBe' in other) return other;
    try {
      return this.life(other.lamp, job, false);
    } catch (error) {
      if (error instanceof InputProblem) return { cannotBe: error.problems[0]!.got };
      throw error;
    }
  }

  private life(lamp: ScenarioLamp, { spot: name, law }: Omit<LifeJob, 'changed'>, ends = true): LawLife {
    const { site, promise, seed, spots } = this.scenario;
    const { lights, ...terms } = this.premises;
    const spot = spots.find((each) => each.name === name)!;
    const run = new LifeRun(lamp, spot, lights.get(name)!, {
      ...terms,
      spot: name,
      lamp: lamp.name,
      site,
      promise,
      seed,
      law: lawNamed(law),
    });
    const { life, worn } = lifeOf(run, lamp);
    return { life, end: ends ? lifeEnd(run, life, worn) : undefined };
  }
}
