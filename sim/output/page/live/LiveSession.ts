import { Kept } from '../../../common/Kept.ts';
import type { SpotPlace } from '../../../spot/SpotPlace.ts';
import { type SkyPicture, skyPicture } from '../../../spot/skyPicture.ts';
import { civilHours } from '../../../statistics/civilHours.ts';
import type { LiveRun, Refused } from '../../../trial/live/LiveRun.ts';
import { LiveTrials } from '../../../trial/live/LiveTrials.ts';
import { turnedScenario } from '../../../trial/live/turnedScenario.ts';
import { hasSurroundings } from '../../../trial/spotSkies.ts';
import type { HourlyTrial, JudgedTrial } from '../../../trial/Trial.ts';
import { type BlockSetting, blockSetting } from '../../BlockSetting.ts';
import { nightFigure } from '../../figures/trialFigures.ts';
import { answerBlock } from '../answerBlock.ts';
import { closerHours } from '../closerHours.ts';
import { figureSight } from '../figurePart.ts';
import { TRIAL_BLOCKS, type TrialBlock, trialBlocks } from '../trialBlocks.ts';
import { trialPart } from '../trialPart.ts';
import type { Answers, Tried } from './asks.ts';
import { glance } from './glance.ts';

/** The block that follows the hand. */
const AT_HAND = 'answer' satisfies TrialBlock;
/** Those that come first when it pauses. */
const AT_PAUSE: readonly TrialBlock[] = ['notes', 'nights', 'energy'];
/** Those that come when it rests. */
const AT_REST = TRIAL_BLOCKS.filter((block) => block !== AT_HAND && !AT_PAUSE.includes(block));

/** Answers to the hand that are kept, since they may be made ahead of it: 45 kB each. */
const MOST_AT_HAND = 8;

/** What a lamp's name bears wherever a tried one is named. */
const TRIED = '(tried, not the file’s)';

/** A trial as it was run, and what its blocks need beside it. */
interface Made<Ran = HourlyTrial> {
  trial: Ran;
  setting: BlockSetting;
}

/** Answers what a page asks of its run. */
export class LiveSession {
  private readonly run: LiveRun;
  private readonly trials: LiveTrials;
  private readonly skies = new WeakMap<SpotPlace, SkyPicture | undefined>();
  private readonly atHand = new Kept<Answers['hand'] | Refused>(MOST_AT_HAND);
  private days: BlockSetting['days'] | undefined;
  private readonly answers: { [Kind in keyof Answers]: (tried: Tried) => Answers[Kind] | Refused } = {
    hand: (tried) => this.atHand.of([tried], () => this.hand(tried)),
    pause: (tried) => this.pause(tried),
    rest: (tried) => this.rest(tried),
    part: (tried) => this.part(tried),
    hours: (tried) => this.hours(tried),
    scenario: (tried) => this.scenario(tried),
  };

  constructor(run: LiveRun) {
    this.run = run;
    this.trials = new LiveTrials(run);
  }

  /** in: kind, of the question; tried, the trial that it is about */
  answer<Kind extends keyof Answers>(kind: Kind, tried: Tried): Answers[Kind] | Refused {
    return this.answers[kind](tried);
  }

  private hand(tried: Tried): Answers['hand'] | Refused {
    const { spot, lamp } = this.names(tried.place);
    const made = this.inSetting(tried, this.trials.timed(spot, lamp, tried.turns));
    if ('refused' in made) return made;
    const { trial, setting } = made;
    const { words, markup } = glance(trial, setting.site.latitude_deg);
    return {
      answer: answerBlock(idOf(tried), trial, setting),
      nights: figureSight(nightFigure(idOf(tried), trial, setting.site)),
      glance: markup,
      outcome: words,
    };
  }

  private pause(tried: Tried): Answers['pause'] | Refused {
    const made = this.made(tried);
    return 'refused' in made ? made : blocksOf(tried, made, AT_PAUSE);
  }

  private rest(tried: Tried): Answers['rest'] | Refused {
    const made = this.whole(tried);
    return 'refused' in made ? made : blocksOf(tried, made, AT_REST);
  }

  private part(tried: Tried): string | Refused {
    const made = this.whole(tried);
    return 'refused' in made
      ? made
      : trialPart({ id: idOf(tried), ...made }, this.trials.knobs(made.trial.spot, made.trial.lamp));
  }

  private hours(tried: Tried): Answers['hours'] | Refused {
    const made = this.made(tried);
    return 'refused' in made ? made : closerHours(made.trial, made.setting);
  }

  private scenario({ place, turns }: Tried): Answers['scenario'] | Refused {
    const { spot, lamp } = this.names(place);
    const yaml = turnedScenario(this.run, spot, lamp, turns);
    return typeof yaml === 'string' ? { yaml, file: `${this.run.name}-tried.yaml` } : yaml;
  }

  /** A trial with what would mend it, beside the same lamp in the other spots. */
  private whole(tried: Tried): Made | Refused {
    const { spot, lamp } = this.names(tried.place);
    const others = this.run.spots.flatMap(({ name }) => {
      if (name === spot) return [];
      const trial = this.trials.trial(
        name,
        lamp,
        tried.turns.filter(({ of }) => of !== 'spot'),
      );
      return 'refused' in trial ? [] : [trial];
    });
    const made = this.made(tried, others);
    if ('refused' in made) return made;
    const changes = this.trials.changes(spot, lamp, tried.turns);
    return 'refused' in changes ? changes : { ...made, trial: { ...made.trial, changes } };
  }

  private made(tried: Tried, others: readonly HourlyTrial[] = []): Made | Refused {
    const { spot, lamp } = this.names(tried.place);
    return this.inSetting(tried, this.trials.trial(spot, lamp, tried.turns), others);
  }

  private inSetting<Ran extends JudgedTrial>(
    tried: Tried,
    trial: Ran | Refused,
    others: readonly HourlyTrial[] = [],
  ): Made<Ran> | Refused {
    if ('refused' in trial) return trial;
    const { spot, lamp } = this.names(tried.place);
    const turned = this.trials.turned(spot, lamp, tried.turns);
    if ('refused' in turned) return turned;
    const { light } = trial;
    const {
      stated,
      lamp: { params },
    } = turned;
    const { site, currency, weather } = this.run;
    this.days ??= civilHours(light.start_ms, light.count, site.timeZone);
    const lamps = [{ name: lamp, section: stated.lamp, params }];
    const setting = blockSetting(
      {
        scenario: { site, currency, promise: stated.promise, lamps },
        trials: [trial, ...others],
        weather: { options: weather?.origin.options ?? {} },
        record: weather,
      },
      trial,
      this.days,
      hasSurroundings(turned.spot) && light.place ? this.skyOf(light.place) : undefined,
    );
    return { trial: tried.turns.length === 0 ? trial : { ...trial, lamp: `${lamp} ${TRIED}` }, setting };
  }

  /** The sky from a place; most turns leave it as it is. */
  private skyOf(place: SpotPlace): SkyPicture | undefined {
    if (!this.skies.has(place)) this.skies.set(place, skyPicture(place));
    return this.skies.get(place);
  }

  /** Spot and lamp of a trial; in a run the lamps of the first spot come first. */
  private names(place: number): { spot: string; lamp: string } {
    const { spots, lamps } = this.run;
    const spot = spots[Math.floor((place - 1) / lamps.length)]!;
    return { spot: spot.name, lamp: lamps[(place - 1) % lamps.length]!.name };
  }
}

function blocksOf(tried: Tried, { trial, setting }: Made, only: readonly TrialBlock[]) {
  return trialBlocks(idOf(tried), trial, setting, only);
}

/** A trial's own id on the page. */
function idOf({ place }: Tried): string {
  return `trial-${place}`;
}
