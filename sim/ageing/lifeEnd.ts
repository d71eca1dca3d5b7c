import type { LampWear, WornPart } from './LampWear.ts';
import type { LifeRun } from './LifeRun.ts';
import { firstBroken, isBroken, type LampLife } from './lampLife.ts';

/** The parts in the order in which one would make them new. */
const WORN_PARTS: readonly WornPart[] = ['cover', 'capacitor', 'led', 'cell'];

/** What one part made new does, before the first winter that breaks the promise without. */
export interface RenewedPart {
  part: WornPart;
  /** Of that winter, all other parts as old as they are. */
  failedNights: number;
  /** Whether that winter keeps the promise then. */
  keeps: boolean;
  /** The first winter that breaks it then; undefined where none does. */
  breaks: number | undefined;
}

/** What ends a promise, and what a new part would do. */
export interface LifeEnd {
  /** The first winter that breaks the promise. */
  winter: number;
  /** The part that keeps it longest first; of those that keep it as long, or not at all, that with fewest failed nights. None of a first winter, in which all are new. */
  withNew: RenewedPart[];
  /** The first of them; undefined where none leaves fewer failed nights. */
  by: WornPart | undefined;
  /** Whether all wear together: whichever part is made new, the promise is kept, and about as long. */
  together: boolean;
  /** That part made new before that winter. */
  renewed: Pick<RenewedPart, 'keeps' | 'breaks'> | undefined;
}

/** Winters by which parts made new may keep a promise longer than each other, and still be said to wear together. */
const ALIKE = 1;

/**
 * What ends a lamp's promise: the part that keeps it longest when made new.
 *
 * in: run; life, as it gives it; worn, the lamp before each winter
 * out: undefined where the promise is kept through all its winters
 * throws: as `runTrial`
 */
export function lifeEnd(
  run: LifeRun,
  { breaks: winter, winters }: LampLife,
  worn: readonly LampWear[],
): LifeEnd | undefined {
  if (winter === undefined) return undefined;
  if (winter === 1) return { winter, withNew: [], by: undefined, together: false, renewed: undefined };
  const { failedNights: before } = winters[winter - 1]!;
  const withNew = WORN_PARTS.map((part) => madeNew(run, worn[winter - 1]!, winter, part));
  withNew.sort((one, other) => lastsTo(other) - lastsTo(one) || one.failedNights - other.failedNights);
  const [best, last] = [withNew[0]!, withNew.at(-1)!];
  const helps = best.keeps || best.failedNights < before;
  return {
    winter,
    withNew,
    by: helps ? best.part : undefined,
    together: last.keeps && lastsTo(best) - lastsTo(last) <= ALIKE,
    renewed: helps ? { keeps: best.keeps, breaks: best.breaks } : undefined,
  };
}

/** So that what never breaks stays comparable. */
function lastsTo({ breaks }: RenewedPart): number {
  return breaks ?? Number.MAX_SAFE_INTEGER;
}

function madeNew(run: LifeRun, worn: LampWear, winter: number, part: WornPart): RenewedPart {
  const lamp = worn.copy();
  lamp.renew(part);
  const renewed = run.winter(winter, lamp.age());
  const { failedNights } = renewed;
  if (isBroken(renewed)) return { part, failedNights, keeps: false, breaks: winter };
  for (const stretch of run.stretches(lamp, winter)) {
    const breaks = firstBroken(run, stretch);
    if (breaks !== undefined) return { part, failedNights, keeps: true, breaks };
  }
  return { part, failedNights, keeps: true, breaks: undefined };
}
