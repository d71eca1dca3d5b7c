import { Kept } from '../../common/Kept.ts';
import type { SpotFiles } from '../../spot/SpotFiles.ts';
import { type SpotParams, spotParams } from '../../spot/spotParams.ts';
import { changes } from '../changes.ts';
import type { TrialTerms } from '../runTrial.ts';
import { SpotLights } from '../SpotLights.ts';
import type { Change, HourlyTrial, TimedTrial } from '../Trial.ts';
import { timedTrial, wholeTrial } from '../wholeTrial.ts';
import type { Knobs, LiveRun, LiveSpot, Refused, Turn } from './LiveRun.ts';
import { type TurnedTrial, trialKnobs, turnedTrial } from './turnedTrial.ts';
import { unlessRefused } from './unlessRefused.ts';

/** Lights that are kept, and places: of a year some 1 MB each. */
const MOST_LIGHTS = 24;
/** Trials that are kept: of a year 2.5 MB each. */
const MOST_TRIALS = 8;

/** What a trial takes. */
interface Grounds {
  turned: TurnedTrial;
  terms: TrialTerms;
}

/** A trial as it was run. */
interface RanTrial extends Grounds {
  trial: HourlyTrial;
}

/**
 * The trials of a run, run again as they were or with some values turned: to the same numbers as the command line gives
 * for a scenario with these values. For many turns one after the other: of the lights made on the way some are kept.
 */
export class LiveTrials {
  private readonly run: LiveRun;
  private readonly lights: SpotLights;
  private readonly recent = new Kept<RanTrial>(MOST_TRIALS);
  private readonly recentGrounds = new Kept<Grounds>(MOST_TRIALS);

  constructor(run: LiveRun) {
    this.run = run;
    this.lights = new SpotLights(run.site, run.weather, filesByMapping(run.spots), undefined, MOST_LIGHTS);
  }

  /** What may be turned of a trial. */
  knobs(spot: string, lamp: string): Knobs {
    return trialKnobs(this.run, spot, lamp);
  }

  /** What a trial rests on, with some values turned. */
  turned(spot: string, lamp: string, turns: readonly Turn[] = []): TurnedTrial | Refused {
    return unlessRefused(() => this.grounds(spot, lamp, turns).turned);
  }

  /** A trial, without what single changes would do. */
  trial(spot: string, lamp: string, turns: readonly Turn[] = []): HourlyTrial | Refused {
    return unlessRefused(() => this.ran(spot, lamp, turns).trial);
  }

  /** What of the same trial follows a hand: its nights and the times of its hours. */
  timed(spot: string, lamp: string, turns: readonly Turn[] = []): TimedTrial | Refused {
    return unlessRefused(() => timedTrial(this.trialOf(this.grounds(spot, lamp, turns))));
  }

  /** What single changes would do to it, best first; none where it keeps its promise. */
  changes(spot: string, lamp: string, turns: readonly Turn[] = []): Change[] | Refused {
    return unlessRefused(() => {
      const { turned, terms, trial } = this.ran(spot, lamp, turns);
      if (trial.statistics.verdict !== 'broken') return [];
      const { stated } = turned;
      const elsewhere = this.run.spots.filter(({ name }) => name !== spot);
      return changes(trial, { stated, terms, elsewhere, lightOf: (other) => this.lights.of(other) });
    });
  }

  private ran(spot: string, lamp: string, turns: readonly Turn[]): RanTrial {
    return this.recent.of([spot, lamp, turns], () => {
      const grounds = this.grounds(spot, lamp, turns);
      return { ...grounds, trial: wholeTrial(this.trialOf(grounds)) };
    });
  }

  private grounds(spot: string, lamp: string, turns: readonly Turn[]): Grounds {
    return this.recentGrounds.of([spot, lamp, turns], () => {
      const turned = turnedTrial(this.run, { spot, lamp, turns });
      const { site, start, seed } = this.run;
      return { turned, terms: { spot, lamp, site, promise: turned.stated.promise, start, seed } };
    });
  }

  private trialOf({ turned: { stated, lamp, spot: params }, terms }: Grounds) {
    return { lamp, spot: { section: stated.spot, params }, lights: this.lights, terms };
  }
}

/** What the files of any spot say, by how it names them: a lamp is tried in other spots too. */
function filesByMapping(spots: readonly LiveSpot[]): (spot: SpotParams) => SpotFiles {
  const known = new Map<string, unknown>();
  for (const { section, files } of spots) {
    const params = spotParams(section, () => {});
    for (const part of PARTS_OF_FILES) known.set(JSON.stringify([part, params?.[part]]), files[part]);
  }
  return (spot) =>
    Object.fromEntries(PARTS_OF_FILES.map((part) => [part, known.get(JSON.stringify([part, spot[part]]))]));
}

const PARTS_OF_FILES = [
  'horizon',
  'shading',
  'measured',
  'loggedLight',
] as const satisfies (keyof SpotFiles)[];
