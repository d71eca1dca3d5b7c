import { expect } from 'vitest';
import { published } from '../../../sim/output/json.ts';
import type { Scenario } from '../../../sim/scenario/Scenario.ts';
import { designSpace } from '../../../sim/sizing/DesignSpace.ts';
import { designAt } from '../../../sim/sizing/designAt.ts';
import type { LikelyDesign } from '../../../sim/sizing/winters/LikelyLamp.ts';
import { MadeDesigns, type MadeDesignsFound } from '../../../sim/sizing/winters/MadeDesigns.ts';
import { type LikelySizing, sizeByWinters } from '../../../sim/sizing/winters/sizeByWinters.ts';
import type { MadeWinter } from '../../../sim/trial/MadeTrials.ts';
import { OddsJobs } from '../../../sim/trial/OddsJobs.ts';
import type { TrialOdds } from '../../../sim/trial/odds.ts';
import { type WinterBasis, winterMaker } from '../../../sim/trial/WinterMaker.ts';
import { changed, load } from '../../scenario/writeScenario.ts';

/**
 * A lamp of generic parts under a climate of months.
 *
 * in: choices, as YAML; distribution of its days, both unless given; more, of the sound scenario changed
 */
export function choosing(choices: string, distribution?: string, more: [string, string][] = []): Scenario {
  const file = [
    '  file: year.csv',
    '  stamp: { column: start_utc, zone: UTC, marks: start }',
    '  columns:',
    '    ghi: { column: ghi, unit: W/m2 }',
    '    air_temperature: { column: air, unit: degC }',
  ].join('\n');
  const climate = [
    '  climate:',
    '    clearness: [0.38, 0.38, 0.4, 0.42, 0.45, 0.45, 0.43, 0.43, 0.42, 0.4, 0.36, 0.36]',
    '    air_degC: [1, 1, 4, 8, 12, 16, 17, 17, 14, 10, 6, 3]',
    ...(distribution === undefined ? [] : [`    distribution: ${distribution}`]),
  ].join('\n');
  const jar = ['    schedule:', '    jar: { part: small-jar }\n    schedule:'] as const;
  const hours: [string, string][] = [
    ['hours: 6,', 'hours: 4,'],
    ['hours: 8', 'hours: 4'],
  ];
  return load(`${changed([file, climate], ...hours, jar, ...more)}choices: ${choices}\n`);
}

/** What winters of such a scenario are made from. */
export function climateOf({ site, seed, climate }: Scenario): WinterBasis {
  return { site, seed, climate: climate!.section };
}

export interface Judged {
  index: number;
  price: number;
  odds: TrialOdds;
}

/** The odds of every design by every winter that they rest on, bounds held against runs. */
export function wholeGrid(scenario: Scenario, basis: WinterBasis, winters: number): Judged[] {
  const space = designSpace(scenario, { spot: scenario.spots[0]!.name });
  const maker = winterMaker(basis);
  const designs = new MadeDesigns([space], basis);
  const indices = Array.from({ length: space.count }, (_, index) => index);
  const jobs = new OddsJobs(maker, { winters }, space.count);
  const found = jobs.jobs.map((job): MadeDesignsFound => {
    return designs.run({ wanted: 'odds', space: 0, job, designs: indices.map((index) => ({ index })) });
  });
  let sure = 0;
  for (let winter = 0; winter < winters; winter++) {
    const look = (wanted: 'bounds' | 'run') =>
      designs.run({ wanted, space: 0, way: maker.ways[0]!, winter, indices });
    const [bounds, runs] = [look('bounds'), look('run')];
    bounds.forEach((fails, k) => {
      if (fails !== true) return;
      sure++;
      expect(runs[k], `design ${k} in winter ${winter}`).toBe(true);
    });
  }
  expect(sure).toBeGreaterThan(0);
  return indices.map((index) => {
    const design = designAt(space, index);
    const made = found.map((each) => [each[index] as MadeWinter[]]);
    const trial = { spot: design.spot, lamp: space.present };
    return { index, price: design.price!, odds: jobs.of([trial], made, scenario.seed)!.trials[0]! };
  });
}

/** The same question answered from the whole grid: who is the cheapest, or where none is, the nearest. */
function among(all: readonly Judged[], share: number) {
  const failed = ({ odds }: Judged) => Math.round((1 - odds.keeps.share) * odds.winters);
  const first = (some: readonly Judged[], ...of: ((one: Judged) => number)[]) =>
    some.toSorted((a, b) => {
      const by = of.find((value) => value(a) !== value(b));
      return by === undefined ? a.index - b.index : by(a) - by(b);
    })[0];
  const price = (one: Judged) => one.price;
  const kept = all.filter(({ odds }) => odds.keeps.low >= share);
  const cheapest = first(
    kept,
    price,
    ({ odds }) => -odds.keeps.low,
    ({ odds }) => odds.failedNights.mean,
  );
  const some = all.filter((one) => failed(one) < one.odds.winters);
  return { cheapest, nearest: cheapest === undefined ? first(some, failed, price) : undefined };
}

// As summary.json holds odds: the last bits of a run hang on which winters its lamp went through before.
const told = (one: LikelyDesign | undefined) =>
  one && { index: one.design.index, odds: published(one.odds, 6) };
const known = (one: Judged | undefined) => one && { index: one.index, odds: published(one.odds, 6) };

/** An answer beside that of the whole grid. */
export async function besideGrid(
  scenario: Scenario,
  basis: WinterBasis,
  all: readonly Judged[],
  mustKeep: number,
): Promise<LikelySizing['answers'][number]> {
  const { winters } = all[0]!.odds;
  const sizing = await sizeByWinters(scenario, basis, { winters, mustKeep }, { threads: 0 });
  const [answer] = sizing.answers as [LikelySizing['answers'][number]];
  const { cheapest, nearest } = among(all, mustKeep);
  expect({ cheapest: told(answer.cheapest), nearest: told(answer.nearest) }).toEqual({
    cheapest: known(cheapest),
    nearest: known(nearest),
  });
  const { all: count, whole, ruledOut, dearer, cannotBe } = answer.designs;
  expect(whole + ruledOut + dearer + cannotBe.length).toBe(count);
  return answer;
}
