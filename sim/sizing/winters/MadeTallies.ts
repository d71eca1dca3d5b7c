import type { WinterWay } from '../../trial/WinterMaker.ts';

/** Made winters of one way, and how many of them a lamp may fail. */
export interface WinterTest {
  way: WinterWay;
  /** Their indices, the darkest first. */
  order: readonly number[];
  limit: number;
}

const SEEN = { open: 0, openByBounds: 1, fails: 2, kept: 3 } as const;

/** What is known of one design in the winters of one test. */
interface Tally {
  /** By winter. */
  seen: Uint8Array;
  failed: number;
  looked: number;
}

/** Which designs are known to fail which made winters. */
export class MadeTallies {
  private readonly tallies: ReadonlyMap<WinterTest, Map<number, Tally>>;
  private readonly wereRun = new Set<number>();

  constructor(tests: readonly WinterTest[]) {
    this.tallies = new Map(tests.map((test) => [test, new Map()]));
  }

  /** Winters of a test that a design fails, as far as is known. */
  failed(index: number, test: WinterTest): number {
    return this.tallies.get(test)!.get(index)?.failed ?? 0;
  }

  /** Whether a design fails more winters of a test than may. */
  isOut(index: number): boolean {
    return [...this.tallies.keys()].some((test) => this.failed(index, test) > test.limit);
  }

  /** Winters of a test that were looked at. */
  looked(index: number, test: WinterTest): number {
    return this.tallies.get(test)!.get(index)?.looked ?? 0;
  }

  /** Whether a design was run in any winter. */
  ran(index: number): boolean {
    return this.wereRun.has(index);
  }

  /** Whether bounds, or a run, can still tell something. */
  isOpen(index: number, test: WinterTest, winter: number, wanted: 'bounds' | 'run'): boolean {
    const seen = this.tallies.get(test)!.get(index)?.seen[winter] ?? SEEN.open;
    return wanted === 'bounds' ? seen === SEEN.open : seen < SEEN.fails;
  }

  /** in: fails, by a run; by bounds true where it is sure, else nothing is known */
  take(index: number, test: WinterTest, winter: number, wanted: 'bounds' | 'run', fails: boolean): void {
    const of = this.tallies.get(test)!;
    const tally = of.get(index) ?? { seen: new Uint8Array(test.order.length), failed: 0, looked: 0 };
    of.set(index, tally);
    if (tally.seen[winter] === SEEN.open) tally.looked++;
    if (wanted === 'run') this.wereRun.add(index);
    if (fails) tally.failed++;
    tally.seen[winter] = fails ? SEEN.fails : wanted === 'run' ? SEEN.kept : SEEN.openByBounds;
  }
}
