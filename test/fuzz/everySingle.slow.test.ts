import { expect, it } from 'vitest';
import { runToEnd } from './runToEnd.ts';
import { everySingle } from './scenarioExtremes.ts';

/** All of the 15 000 take three quarters of an hour; a prime, so that no key is passed over by its place. */
const EACH = 41;

it('keys of the scenario by themselves, at their extremes, are solved to the end or refused by line and key', () => {
  const failed: string[] = [];
  let tried = 0;
  for (const { yaml, what } of everySingle()) {
    if (tried++ % EACH > 0) continue;
    try {
      runToEnd(yaml);
    } catch (error) {
      failed.push(`${what}: ${String(error)}`);
    }
  }
  expect(failed).toEqual([]);
  expect(tried).toBeGreaterThan(1000);
}, 600_000);
