import { pieces } from '../../common/pieces.ts';
import type { TrialOdds } from '../../trial/odds.ts';
import { type CannotBe, countedReasons } from '../DesignTrials.ts';
import { designAt } from '../designAt.ts';
import { isBetter, type LikelyAnswer, type LikelyDesign, type OpenDesign } from './LikelyLamp.ts';
import type { DesignNamed } from './MadeDesigns.ts';
import { MadeTallies, type WinterTest } from './MadeTallies.ts';
import { type LikelyQuestion, type MadePool, mostThatMayFail, weighDesigns } from './weighDesigns.ts';

type FlagsOf = (best: LikelyDesign) => readonly string[];

/** Designs of which one job finds bounds: neighbours, which share their cells. */
const BOUNDS_OF_A_JOB = 256;
/** Rounds of bounds go on while each rules out so great a share of what is left. */
const WORTH_A_ROUND = 0.05;
/** Designs that are run through the darkest winters before any of them through all. */
const SCREENED = 32;
/** Of those that are left so many, the cheapest, are run through all before the others. */
const GROUP = 6;

/** One search, from bounds in the darkest winters to the odds of the answer. */
export class LikelySearch {
  private readonly question: LikelyQuestion;
  private readonly pool: MadePool;
  private readonly tallies: MadeTallies;
  private readonly prices: readonly number[];
  private readonly weighed = new Map<number, LikelyDesign>();
  private readonly cannotBe = new Map<number, CannotBe>();
  private runs = 0;
  private present: LikelyDesign | undefined;
  private best: LikelyDesign | undefined;
  private poor: TrialOdds | null | undefined;
  private finished = false;

  constructor(question: LikelyQuestion, pool: MadePool) {
    const { space, tests } = question;
    this.question = question;
    this.pool = pool;
    this.tallies = new MadeTallies(tests);
    this.prices = Array.from({ length: space.count }, (_, index) => designAt(space, index).price!);
  }

  /** in: onSettled, told how many designs are known to be the answer, or not to be */
  async run(onSettled: (count: number) => void): Promise<void> {
    const told = () => onSettled(this.settled());
    const [test] = this.question.tests;
    await this.ruleOut(test.limit);
    told();
    for (let waiting = this.byPrice(); waiting.length > 0 && !this.pool.stopped; ) {
      const round = waiting.slice(0, SCREENED);
      await this.follow(round, test, test.limit, 2 * (test.limit + 1));
      for (let left = this.reaching(round); left.length > 0 && !this.pool.stopped; ) {
        await this.settle(left.slice(0, GROUP));
        left = this.reaching(left.slice(GROUP));
        told();
      }
      waiting = this.reaching(waiting.slice(SCREENED));
      told();
    }
    if (this.best === undefined && !this.pool.stopped) await this.findNearest();
    if (!this.pool.stopped) await this.weighBeside();
    this.finished = !this.pool.stopped;
    told();
  }

  /** in: flagsOf, what a maker must see of a design that is recommended */
  answer(flagsOf: FlagsOf): LikelyAnswer {
    const { question, best, weighed, cannotBe, tallies } = this;
    const { space, share } = question;
    const kept = best !== undefined && best.odds.keeps.low >= share;
    const recommended = best && {
      ...best,
      mayFail: mostThatMayFail(best.odds.keeps, share, question.winters),
      withPoorParts: this.poor,
      flags: flagsOf(best),
    };
    const names = new Set(space.spots.map(({ name }) => name));
    const settled = this.settled();
    const whole = [...weighed.keys()].filter((index) => index >= 0);
    const out = this.outOfReach();
    return {
      spot: names.size === 1 ? space.spots[0]!.name : undefined,
      designs: {
        all: space.count,
        cannotBe: countedReasons(cannotBe),
        whole: whole.length,
        ruledOut: out.length,
        withoutRun: out.filter((index) => !tallies.ran(index)).length,
        dearer: settled - whole.length - out.length - cannotBe.size,
      },
      runs: this.runs,
      present: this.present,
      cheapest: kept ? recommended : undefined,
      nearest: kept ? undefined : recommended,
      ...(this.finished ? {} : { partial: { settled, all: space.count, open: this.open() } }),
    };
  }

  /** Leaves out what bounds alone show to fail too many of the darkest winters. */
  private async ruleOut(limit: number): Promise<void> {
    const [test] = this.question.tests;
    for (let from = 0; from < test.order.length && !this.pool.stopped; from += limit + 1) {
      const waiting = this.valid().filter((index) => this.tallies.failed(index, test) <= limit);
      await this.look('bounds', test, test.order.slice(from, from + limit + 1), waiting, BOUNDS_OF_A_JOB);
      const out = waiting.filter((index) => this.tallies.failed(index, test) > limit);
      if (out.length < WORTH_A_ROUND * waiting.length) break;
    }
  }

  /** Runs designs through the darkest winters of a test, until more fail than may. */
  private async follow(
    indices: readonly number[],
    test: WinterTest,
    limit: number,
    upTo: number,
  ): Promise<void> {
    const winters = test.order.slice(0, upTo);
    const block = Math.max(8, (limit + 1) >> 1);
    let left = [...indices];
    for (let from = 0; from < winters.length && left.length > 0 && !this.pool.stopped; from += block) {
      left = left.filter((index) => !this.cannotBe.has(index) && this.tallies.failed(index, test) <= limit);
      await this.look('run', test, winters.slice(from, from + block), left, SCREENED / 2);
    }
  }

  private async look(
    wanted: 'bounds' | 'run',
    test: WinterTest,
    winters: readonly number[],
    indices: readonly number[],
    most: number,
  ): Promise<void> {
    const { tallies, question } = this;
    const jobs = winters.flatMap((winter) =>
      pieces(
        indices.filter((index) => tallies.isOpen(index, test, winter, wanted)),
        most,
      ).map((some) => ({ wanted, space: question.number, way: test.way, winter, indices: some })),
    );
    const found = await this.pool.run(jobs);
    jobs.forEach(({ winter, indices: some }, k) => {
      found[k]?.forEach((known, n) => {
        const index = some[n]!;
        if (typeof known === 'boolean') tallies.take(index, test, winter, wanted, known);
        else this.cannotBe.set(index, known as CannotBe);
      });
      if (wanted === 'run' && found[k] !== undefined) this.runs += some.length;
    });
  }

  /** Runs designs through all winters, those that may still do through all that odds rest on. */
  private async settle(group: readonly number[]): Promise<void> {
    for (const test of this.question.tests)
      await this.follow(this.reaching(group), test, test.limit, test.order.length);
    if (this.pool.stopped) return;
    const left = this.reaching(group);
    const weighed = await this.weigh(left.map((index) => ({ index })));
    for (const [k, one] of weighed.entries()) {
      if (one === undefined) continue;
      if ('why' in one) {
        this.cannotBe.set(left[k]!, one);
        continue;
      }
      this.checkCount(one);
      this.weighed.set(one.design.index, one);
      const reaches = one.odds.keeps.low >= this.question.share;
      if (reaches && (this.best === undefined || isBetter(one, this.best))) this.best = one;
    }
  }

  private checkCount({ design: { index }, failed }: LikelyDesign): void {
    const counted = this.tallies.failed(index, this.question.tests[0]);
    if (counted !== failed) throw new Error(`design ${index} fails ${failed} made winters, not ${counted}`);
  }

  private async weigh(designs: readonly DesignNamed[]): Promise<(LikelyDesign | CannotBe | undefined)[]> {
    const { found, runs } = await weighDesigns(this.question, this.pool, designs);
    this.runs += runs;
    return found;
  }

  /** Where none does: the one that fails fewest winters, by raising what may fail until one is found. */
  private async findNearest(): Promise<void> {
    const [test] = this.question.tests;
    const all = test.order.length;
    let found: number | undefined;
    for (let limit = test.limit; found === undefined && limit < all && !this.pool.stopped; ) {
      let most = limit;
      await this.ruleOut(most);
      const waiting = this.valid().filter((index) => this.tallies.failed(index, test) <= most);
      for (const round of pieces(this.sorted(waiting), SCREENED)) {
        await this.follow(round, test, most, all);
        for (const index of round) {
          if (this.pool.stopped || this.cannotBe.has(index) || this.tallies.failed(index, test) > most)
            continue;
          [found, most] = [index, this.tallies.failed(index, test) - 1];
        }
      }
      limit = limit === all - 1 ? all : Math.min(all - 1, 2 * limit + 1);
    }
    if (found === undefined || this.pool.stopped) return;
    const [nearest] = await this.weigh([{ index: found }]);
    if (nearest === undefined || 'why' in nearest) return;
    this.checkCount(nearest);
    this.weighed.set(found, nearest);
    this.best = nearest;
  }

  /** The present lamp, and the answer with poor parts. */
  private async weighBeside(): Promise<void> {
    const { best } = this;
    const poor: DesignNamed[] = best === undefined ? [] : [{ index: best.design.index, poor: true }];
    const [present, withPoor] = await this.weigh([{ index: -1 }, ...poor]);
    if (present !== undefined && !('why' in present)) this.present = present;
    if (withPoor !== undefined) this.poor = 'why' in withPoor ? null : withPoor.odds;
  }

  private open(): OpenDesign | undefined {
    const [test] = this.question.tests;
    const [index] = this.best === undefined ? this.byPrice() : [];
    if (index === undefined) return undefined;
    return {
      design: designAt(this.question.space, index),
      looked: this.tallies.looked(index, test),
      failed: this.tallies.failed(index, test),
    };
  }

  /** All that may be lamps, as far as is known. */
  private valid(): number[] {
    return [...this.prices.keys()].filter((index) => !this.cannotBe.has(index));
  }

  private outOfReach(): number[] {
    return this.valid().filter((index) => !this.weighed.has(index) && this.tallies.isOut(index));
  }

  /** Those that may still be the answer. */
  private reaching(indices: readonly number[]): number[] {
    const most = this.best?.design.price ?? Number.POSITIVE_INFINITY;
    return indices.filter(
      (index) =>
        !this.cannotBe.has(index) &&
        !this.weighed.has(index) &&
        this.prices[index]! <= most &&
        !this.tallies.isOut(index),
    );
  }

  private byPrice(): number[] {
    return this.sorted(this.reaching([...this.prices.keys()]));
  }

  private sorted(indices: readonly number[]): number[] {
    return indices.toSorted((a, b) => this.prices[a]! - this.prices[b]! || a - b);
  }

  /** Designs of which no more need be known. */
  private settled(): number {
    return this.prices.length - this.byPrice().length;
  }
}
