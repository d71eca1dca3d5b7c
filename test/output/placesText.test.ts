import { expect, it } from 'vitest';
import { placesText } from '../../sim/output/placesText.ts';
import type { LampPlaces, PlacedLamp } from '../../sim/sizing/lampPlaces.ts';
import { smallRun } from './smallRun.ts';

const place = (spot: string, lamp: string, failedNights: number): PlacedLamp => ({
  spot,
  lamp,
  nights: 365,
  failedNights,
  short_h: 2 * failedNights,
});

it('placesText says which lamp goes where, what is left over, and each lamp in each spot', () => {
  const { scenario } = smallRun();
  const spot = { ...scenario.spots[0]!, name: 'lawn' };
  const lamp = { ...scenario.lamps[0]!, name: 'old' };
  const trials = [place('lawn', 'old', 3), place('lawn', 'new', 0)];
  const places: LampPlaces = {
    method: 'Tried all',
    places: [trials[1]!],
    drawer: ['old'],
    empty: [],
    kept: 1,
    failedNights: 0,
    short_h: 0,
    trials,
  };
  const garden = { ...scenario, spots: [spot], lamps: [lamp, { ...lamp, name: 'new' }] };
  const text = placesText(places, garden, undefined, {});
  expect(text).toContain('which of 2 lamps goes into which of 1 spot\n');
  expect(text).toMatch(/lawn\s+new\s+kept\s+0\s+365\s+0\.0/);
  expect(text).toContain('Left in the drawer: old.\nTried all.\n');
  expect(text).toMatch(/old\s+3 \(6\.0\)\n\s+new\s+0 \(0\.0\)/);
});
