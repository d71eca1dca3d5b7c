import { describe, expect, it } from 'vitest';
import { randomStream } from '../../sim/common/random.ts';
import { type Stretch, stretchesWhere } from '../../sim/common/stretchesWhere.ts';

const LAST = 500;
const STRIDE = 16;

/** The stretches of a row by looking at every place. */
function everyPlace(last: number, lackAt: (place: number) => number): Stretch[] {
  const found: Stretch[] = [];
  for (let place = 0; place <= last; place++) {
    if (lackAt(place) > 0) continue;
    if (found.at(-1)?.to === place - 1) found.at(-1)!.to = place;
    else found.push({ from: place, to: place });
  }
  return found;
}

/** A row that lacks the more the further a place is from some stretches. */
function besides(stretches: readonly Stretch[]) {
  return (place: number) =>
    Math.min(...stretches.map(({ from, to }) => Math.max(0, from - place, place - to)), 1e6);
}

describe('stretchesWhere', () => {
  it('finds what looking at every place finds, of stretches and gaps as wide as the stride, wherever they lie', () => {
    const random = randomStream(1, 'stretches', 0);
    let several = 0;
    for (let row = 0; row < 300; row++) {
      const stretches: Stretch[] = [];
      for (let place = Math.floor(random.uniform() * 200); place < LAST; ) {
        const to = Math.min(LAST, place + STRIDE + Math.floor(random.uniform() * 100));
        stretches.push({ from: place, to });
        place = to + 1 + STRIDE + Math.floor(random.uniform() * 200);
      }
      const yesOrNo = (place: number) => (besides(stretches)(place) > 0 ? 1 : 0);
      const { holding, looked } = stretchesWhere(LAST, STRIDE, yesOrNo);
      expect(holding).toEqual(everyPlace(LAST, yesOrNo));
      // The grid, and some ten places for each turn.
      expect(looked).toBeLessThan(LAST / STRIDE + 2 + 2 * stretches.length * 11);
      several += Number(stretches.length > 1);
    }
    expect(several).toBeGreaterThan(100);
  });

  it('finds a stretch of a single place between those of the grid, by what lacks less on the way to it', () => {
    for (let place = 0; place <= LAST; place++) {
      const { holding } = stretchesWhere(LAST, STRIDE, besides([{ from: place, to: place }]));
      expect(holding).toEqual([{ from: place, to: place }]);
    }
  });

  it('names the place that lacks least where none holds', () => {
    for (let place = 0; place <= LAST; place += 7) {
      const { holding, best } = stretchesWhere(LAST, STRIDE, (each) => 1 + Math.abs(each - place));
      expect(holding).toEqual([]);
      expect(best).toBe(place);
    }
  });

  it('sees a turn that flickers', () => {
    // Holds from 200 on, but not from 203 to 209.
    const flickering = (place: number) => (place < 200 || (place > 202 && place < 210) ? 1 : 0);
    expect(stretchesWhere(LAST, STRIDE, flickering).holding).toEqual(everyPlace(LAST, flickering));
  });

  it('with the whole row as stride halves, and looks at no more', () => {
    for (let turn = 0; turn <= LAST; turn++) {
      const { holding, looked } = stretchesWhere(LAST, LAST, (place) => (place <= turn ? 0 : 1));
      expect(holding).toEqual([{ from: 0, to: turn }]);
      expect(looked).toBeLessThanOrEqual(2 + Math.ceil(Math.log2(LAST)));
    }
    expect(stretchesWhere(0, 1, () => 0).holding).toEqual([{ from: 0, to: 0 }]);
  });
});
