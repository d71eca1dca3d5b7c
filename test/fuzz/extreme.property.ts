import fc from 'fast-check';
import { expect } from 'vitest';
import type { Property } from '../properties/Property.ts';
import { runToEnd } from './runToEnd.ts';
import { extremeScenario } from './scenarioExtremes.ts';

/** Scenarios with the least, the most and odd values of every key. */
export const EXTREME_FUZZ: Property[] = [
  {
    title: 'a scenario of extreme values is solved to its end or refused by line and key',
    runs: 160,
    check: (runs, seed = 20260104) => {
      fc.assert(
        fc.property(extremeScenario, ({ yaml }) => {
          expect(['ran', 'refused']).toContain(runToEnd(yaml));
        }),
        { numRuns: runs, seed },
      );
    },
  },
];
