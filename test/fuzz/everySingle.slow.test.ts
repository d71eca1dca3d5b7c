import { expect, it } from 'vitest';
import { runToEnd } from './runToEnd.ts';
import { everySingle } from './scenarioExtremes.ts';

it('every key of the scenario by itself, at its extremes, is solved to the end or refused by line and key', () => {
  const failed: string[] = [];
  let tried = 0;
  for (const { yaml, what } of everySingle()) {
    tried++;
    try {
      runToEnd(yaml);
    } catch (error) {
      failed.push(`${what}: ${String(error)}`);
    }
  }
  expect(failed).toEqual([]);
  expect(tried).toBeGreaterThan(1000);
}, 1_800_000);
