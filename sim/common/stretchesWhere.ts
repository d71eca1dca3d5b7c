/** Places in a row at which something holds: at both ends, and not at the places beside them. */
export interface Stretch {
  from: number;
  to: number;
}

/** What was found along a row of places. */
export interface Stretches {
  /** In the order of the row. */
  holding: Stretch[];
  /** The place that lacks least, 0 where it holds anywhere; of equals the first. */
  best: number;
  /** Places that were looked at. */
  looked: number;
}

/** Closer than this to a turn a row may turn again: there it is looked at more closely. */
const NEAR = [2, 4, 8];

/**
 * Where something holds along a row of places, which need not be one stretch: looked for on a grid, then from each place
 * of the grid that lacks less than those beside it downwards, then by halves between a place that holds and one that
 * does not, and at last around each turn.
 *
 * in: last, the places being 0 to it; stride of the grid: the whole row where it is known to hold on one side only, which
 *   is then found by halves alone; lackAt, how much it lacks at a place: 0 where it holds, more the further from it
 * out: pure numbers of places
 * valid: a stretch is missed where it lies within one stride, far from any turn, and shows beside it by no smaller lack
 * @example stretchesWhere(100, 100, (place) => (place < 37 ? 0 : 1)).holding; // => [{ from: 0, to: 36 }]
 */
export function stretchesWhere(last: number, stride: number, lackAt: (place: number) => number): Stretches {
  const known = new Map<number, number>();
  const at = (place: number) => {
    const lack = known.get(place) ?? lackAt(place);
    known.set(place, lack);
    return lack;
  };
  for (let place = 0; place < last; place += stride) at(place);
  at(last);
  if (stride < last) {
    descendFromDips(rising(known), at);
    halve(known, at);
    for (const [low, high] of turnsAmong(known))
      for (const reach of NEAR.filter((each) => each < stride))
        for (const place of [low - reach, high + reach]) if (place >= 0 && place <= last) at(place);
  }
  halve(known, at);
  const places = rising(known);
  const holding: Stretch[] = [];
  for (const [k, place] of places.entries()) {
    if (at(place) > 0) continue;
    const open = holding.at(-1);
    if (open !== undefined && places[k - 1] === open.to) open.to = place;
    else holding.push({ from: place, to: place });
  }
  const best = places.reduce((least, place) => (at(place) < at(least) ? place : least));
  return { holding, best, looked: known.size };
}

function rising(known: ReadonlyMap<number, number>): number[] {
  return [...known.keys()].sort((a, b) => a - b);
}

/** Neighbours among the places known of which one holds and the other does not. */
function turnsAmong(known: ReadonlyMap<number, number>): [number, number][] {
  const places = rising(known);
  return places.flatMap((high, k): [number, number][] => {
    const low = places[k - 1];
    return low !== undefined && (known.get(low) === 0) !== (known.get(high) === 0) ? [[low, high]] : [];
  });
}

/** Looks between them until none has a place between. */
function halve(known: ReadonlyMap<number, number>, at: (place: number) => number): void {
  for (;;) {
    const wide = turnsAmong(known).filter(([low, high]) => high - low > 1);
    if (wide.length === 0) return;
    for (const [low, high] of wide) at((low + high) >> 1);
  }
}

/** From every place that lacks less than one beside it, and no more than the other, to the least nearby. */
function descendFromDips(places: readonly number[], at: (place: number) => number): void {
  for (const [k, place] of places.entries()) {
    let [left, middle, right] = [places[k - 1] ?? place, place, places[k + 1] ?? place];
    const beside = [at(left), at(right)];
    const isDip = Math.min(...beside) >= at(place) && Math.max(...beside) > at(place);
    if (!isDip) continue;
    while (at(middle) > 0 && Math.max(middle - left, right - middle) > 1) {
      const between = middle - left > right - middle ? (left + middle) >> 1 : (middle + right + 1) >> 1;
      const isLower = at(between) < at(middle);
      if (between < middle)
        [left, middle, right] = isLower ? [left, between, middle] : [between, middle, right];
      else [left, middle, right] = isLower ? [middle, between, right] : [left, middle, between];
    }
  }
}
