import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { drawnTrials } from '../../../../sim/output/figures/drawnTrials.ts';
import { closerHours } from '../../../../sim/output/page/closerHours.ts';
import { LiveSession } from '../../../../sim/output/page/live/LiveSession.ts';
import { packedPlain } from '../../../../sim/output/page/packedPlain.ts';
import { trialBlocks } from '../../../../sim/output/page/trialBlocks.ts';
import { trialPart } from '../../../../sim/output/page/trialPart.ts';
import { unpackedPlain } from '../../../../sim/output/page/unpackedPlain.ts';
import { loadScenario } from '../../../../sim/scenario/loadScenario.ts';
import type { LiveRun } from '../../../../sim/trial/live/LiveRun.ts';
import { liveRunOf } from '../../../../sim/trial/live/liveRunOf.ts';
import { trialKnobs } from '../../../../sim/trial/live/turnedTrial.ts';
import { runAll } from '../../../../sim/trial/runAll.ts';
import { spotSkies } from '../../../../sim/trial/spotSkies.ts';

const file = fileURLToPath(new URL('../../../../scenarios/invented-garden.yaml', import.meta.url));
const run = await runAll(loadScenario(file, 'scenarios/invented-garden.yaml'));
const { trials: drawn } = drawnTrials(run, spotSkies(run));
const live = (await unpackedPlain(packedPlain(liveRunOf(run)))) as LiveRun;
const session = new LiveSession(live);
/** Single on the north side: the one that fails. */
const place = 3;
const { id, trial, setting } = drawn[place - 1]!;
const more = { key: 'capacitor.capacitance_F', of: 'lamp', value: 560 } as const;

/** What a session answers where it refuses nothing. */
function answered<Answer>(answer: Answer | { refused: string }): Answer {
  if (typeof answer === 'object' && answer !== null && 'refused' in answer) throw new Error(answer.refused);
  return answer as Answer;
}

describe('LiveSession, from the run as a page carries it', () => {
  test('with nothing turned makes the blocks that the page was written with, to the letter', () => {
    const tried = { place, turns: [] };
    const written = new Map(trialBlocks(id, trial, setting).map(({ block, markup }) => [block, markup]));
    const hand = answered(session.answer('hand', tried));
    const later = (['pause', 'rest'] as const).flatMap((kind) => answered(session.answer(kind, tried)));
    const made = [{ block: 'answer' as const, markup: hand.answer }, ...later];
    expect(made.map(({ block }) => block).sort()).toEqual([...written.keys()].sort());
    for (const { block, markup } of made) expect(markup, block).toBe(written.get(block));
    const seen = written.get('nights')!.match(/<figcaption>.*?<\/figcaption>|<svg .*?<\/svg>/gs)!;
    expect(seen).toHaveLength(3);
    expect(hand.nights).toBe(seen.join(''));
  });

  test('makes the whole part of a trial that a page was written without', () => {
    const part = answered(session.answer('part', { place, turns: [] }));
    expect(part).toBe(trialPart({ id, trial, setting }, trialKnobs(live, trial.spot, trial.lamp)));
  });

  test('gives the hours of the closer look to the bit', () => {
    expect(answered(session.answer('hours', { place, turns: [] }))).toEqual(closerHours(trial, setting));
  });

  test('names a lamp with something turned as tried wherever it stands, and what it comes to', () => {
    const { answer, nights, glance, outcome } = answered(session.answer('hand', { place, turns: [more] }));
    const paused = answered(session.answer('pause', { place, turns: [more] }));
    expect(paused.map(({ block }) => block)).toEqual(['notes', 'nights', 'energy']);
    const all = [
      ...paused,
      { block: 'answer', markup: answer },
      { block: 'what is seen of the nights', markup: nights },
    ];
    for (const { block, markup } of all)
      if (block !== 'notes') expect(markup, block).toContain('(tried, not the file’s)');
    const before = trial.statistics.winters[0]!.failedNights;
    const after = Number(/(\d+) of 365 nights failed/.exec(outcome)![1]);
    expect(after).toBeLessThan(before);
    expect(glance).toContain(`${after} of 365 nights failed`);
    expect(glance).toContain('class="picture strip"');
  });

  test('refuses what cannot be in words, and gives a scenario of what can', () => {
    const none = session.answer('hand', { place, turns: [{ ...more, value: -1 }] });
    expect(none).toHaveProperty('refused', expect.stringMatching(/capacitance_F/));
    const { yaml, file: name } = answered(session.answer('scenario', { place, turns: [more] }));
    expect(yaml).toContain('560');
    expect(name).toBe('invented-garden-tried.yaml');
  });
});
