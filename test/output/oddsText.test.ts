import { describe, expect, test } from 'vitest';
import { doubtSentence } from '../../sim/output/oddsText.ts';
import { oddsPart } from '../../sim/output/page/oddsPart.ts';
import type { MadeWinter } from '../../sim/trial/MadeTrials.ts';
import type { ScenarioOdds } from '../../sim/trial/OddsJobs.ts';
import { oddsOf, type TrialOdds } from '../../sim/trial/odds.ts';

const winter = (failedNights: number): MadeWinter => ({
  nights: 365,
  failedNights,
  short_h: failedNights,
  out_h: 0,
  longestSpell: failedNights,
  smallestReserve_J: 1,
  lightGiven_lm_h: 100,
  failed: [],
});

/** A trial of so many winters, half of them kept; other, the share that the second way keeps. */
function trial(winters: number, other?: number): TrialOdds {
  const made = Array.from({ length: winters }, (_, k) => winter(k % 2));
  const secondOpinion =
    other === undefined ? undefined : ({ way: 'hollands-huget', keeps: other, failedNights: 3 } as const);
  return { ...oddsOf(made, [], 10, 365), spot: 'lawn', lamp: 'one', secondOpinion };
}

const oddsWith = (way: ScenarioOdds['way'], of: TrialOdds): ScenarioOdds => {
  return { basis: '', learnedWinters: 10, way, typicalWinter: 0, trials: [of] };
};
const said = (way: ScenarioOdds['way'], of: TrialOdds) => doubtSentence(of, oddsWith(way, of));

describe('the doubt of a trial', () => {
  test('asks for more winters only where they help', () => {
    expect(said('days-alike', trial(10))).toContain('10 made winters leave too much to chance, make more');
    expect(said('bendt', trial(10))).toContain('10 made winters leave too much to chance, make more');
    expect(said('bendt', trial(10, 0))).not.toContain('make more');
    expect(said('bendt', trial(10, 0))).toContain('more made winters do not settle which is right');
    const alike = Array.from({ length: 16 }, () => Array.from({ length: 24 }, (_, k) => winter(k % 2)));
    const made = Array.from({ length: 400 }, (_, k) => winter(k % 2));
    const ofFour = { ...trial(400), ...oddsOf(made, alike, 4, 365) };
    expect(said('days-alike', ofFour)).toContain('not enough winters on file');
    expect(said('learned', trial(4000))).toBe(
      '? one on lawn: not enough winters behind the months (10) to decide.',
    );
  });

  test('tells of two ways that differ', () => {
    expect(said('days-alike', trial(10, 0))).toContain('the two ways of making winters differ');
    expect(said('days-alike', trial(10, 0.5))).not.toContain('differ');
  });
});

test('the page has the second way beside the first, and marks a doubt once', () => {
  const page = oddsPart(oddsWith('days-alike', trial(10, 0)), false);
  expect(page).toContain('other way: keeps, mean');
  expect(page).toContain('>0, 3.0<');
  expect(page).toContain('doubt about the winters on file included');
  expect(page).not.toContain('? one on lawn');
});
