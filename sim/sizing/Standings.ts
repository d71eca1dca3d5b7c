/** What is known of a design: what it came to, or the best that it can still come to. */
export interface Standing {
  index: number;
  price: number;
  /** Keys that differ from the present lamp. */
  changed: number;
  winters: number;
  keptWinters: number;
  failedNights: number;
  short_h: number;
  light_lm_h: number;
}

/** What is asked of designs. */
export interface SizingTerms {
  /** Most money for the brightest. */
  budget?: number | undefined;
  /** Share of winters that must be kept; every one unless stated. */
  mustKeep?: number | undefined;
}

/** The designs that are the answer among those known so far. */
export interface Best {
  front: readonly Standing[];
  cheapest?: Standing | undefined;
  brightest?: Standing | undefined;
  leastChange?: Standing | undefined;
  /** The cheapest with at least twice the light of the cheapest. */
  twice?: Standing | undefined;
  /** Where none keeps the promise. */
  nearest?: Standing | undefined;
}

type Order = (one: Standing, other: Standing) => number;

const inOrder =
  (...orders: Order[]): Order =>
  (one, other) =>
    orders.reduce((found, order) => found || order(one, other), 0);
const byPrice: Order = (one, other) => one.price - other.price;
const byLight: Order = (one, other) => other.light_lm_h - one.light_lm_h;
const byFailed: Order = (one, other) => one.failedNights - other.failedNights;
const byShort: Order = (one, other) => one.short_h - other.short_h;
const byChanges: Order = (one, other) => one.changed - other.changed;
const byIndex: Order = (one, other) => one.index - other.index;

/** Less money, then more light, then the one before. */
export const CHEAPEST = inOrder(byPrice, byLight, byIndex);
const BRIGHTEST = inOrder(byLight, byPrice, byIndex);
const LEAST_CHANGE = inOrder(byChanges, byPrice, byIndex);
const NEAREST = inOrder(byFailed, byShort, byPrice, byIndex);
const ALONG_FRONT = inOrder(byPrice, byFailed, byLight, byIndex);

/** Winters are counted, a share of them is not. */
const ROUNDING = 1e-9;

/**
 * Which of many designs are the answer, one after the other being known; and which of the others cannot be, by bounds of
 * what they come to.
 */
export class Standings {
  private readonly terms: SizingTerms;
  private best: Best = { front: [] };

  constructor(terms: SizingTerms) {
    this.terms = terms;
  }

  state(): Best {
    return this.best;
  }

  /** A design of which all is known. */
  add(standing: Standing): void {
    const { front, ...best } = this.best;
    this.best = {
      ...best,
      front: front.some((other) => beats(other, standing)) ? front : onFront(front, standing),
    };
    if (!this.keeps(standing)) {
      if (best.cheapest === undefined && isBefore(NEAREST, standing, best.nearest))
        this.best.nearest = standing;
      return;
    }
    this.best.nearest = undefined;
    for (const [name, order] of ORDERS) {
      if (this.isMeant(name, standing) && isBefore(order, standing, this.best[name]))
        this.best[name] = standing;
    }
    const { cheapest, twice } = this.best;
    // The cheapest may have become another.
    if (twice !== undefined && !isTwice(twice, cheapest)) this.best.twice = undefined;
  }

  /** Whether a design may be part of the answer that is no worse than this one in anything. */
  mayAnswer(atBest: Standing): boolean {
    const { front, nearest } = this.best;
    if (!front.some((other) => beats(other, atBest))) return true;
    if (!this.keeps(atBest)) return nearest !== undefined && isBefore(NEAREST, atBest, nearest);
    return ORDERS.some(
      ([name, order]) => this.isMeant(name, atBest) && isBefore(order, atBest, this.best[name]),
    );
  }

  private keeps({ keptWinters, winters }: Standing): boolean {
    return keptWinters >= (this.terms.mustKeep ?? 1) * winters - ROUNDING;
  }

  private isMeant(name: (typeof ORDERS)[number][0], standing: Standing): boolean {
    if (name === 'brightest') return this.terms.budget !== undefined && standing.price <= this.terms.budget;
    return name !== 'twice' || isTwice(standing, this.best.cheapest);
  }
}

const ORDERS = [
  ['cheapest', CHEAPEST],
  ['brightest', BRIGHTEST],
  ['leastChange', LEAST_CHANGE],
  ['twice', CHEAPEST],
] as const;

function isBefore(order: Order, one: Standing, other: Standing | undefined): boolean {
  return other === undefined || order(one, other) < 0;
}

function isTwice(one: Standing, cheapest: Standing | undefined): boolean {
  return cheapest !== undefined && one.light_lm_h >= 2 * cheapest.light_lm_h;
}

/** Whether a design is no worse in price, failed nights and light, and better in one of them or the one before. */
function beats(one: Standing, other: Standing): boolean {
  return (
    one.price <= other.price &&
    one.failedNights <= other.failedNights &&
    one.light_lm_h >= other.light_lm_h &&
    ALONG_FRONT(one, other) < 0
  );
}

function onFront(front: readonly Standing[], standing: Standing): Standing[] {
  return [...front.filter((other) => !beats(standing, other)), standing].sort(ALONG_FRONT);
}
