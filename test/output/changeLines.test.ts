import { describe, expect, it } from 'vitest';
import { spreadLines } from '../../sim/output/changeLines.ts';
import { summaryJson } from '../../sim/output/summaryJson.ts';
import { terminalRun } from '../../sim/output/terminalRun.ts';
import { paint } from '../../sim/output/textTable.ts';
import type { OutcomeSpread } from '../../sim/trial/Trial.ts';
import { smallRun, smallTrial } from './smallRun.ts';

const LEAKAGE = { key: 'capacitor.leakage_uA', rankCorrelation: 0.8125 };
const SPREAD: OutcomeSpread = {
  samples: 20,
  ran: 20,
  verdictStands: 17,
  failedNights: { lowest: 2, median: 9.5, highest: 31 },
  parameters: [LEAKAGE, { key: 'capacitor.delayed_share', rankCorrelation: Number.NaN }],
  mostly: LEAKAGE,
};
const NOTHING: OutcomeSpread = {
  samples: 0,
  ran: 0,
  verdictStands: 0,
  failedNights: { lowest: Number.NaN, median: Number.NaN, highest: Number.NaN },
  parameters: [],
};
const text = (spread: OutcomeSpread) => spreadLines(spread, paint()).join(' ').replace(/\s+/g, ' ').trim();

describe('spreadLines', () => {
  it('say how often the verdict stands, the failed nights and what matters most', () => {
    expect(text(SPREAD)).toBe(
      'Over what the readings leave open, the verdict stands in 17 of 20 sampled lamps, under the same weather; ' +
        'failed nights 2 at the lowest, 9.5 in the median, 31 at the highest. What matters most is the ' +
        "capacitor's leakage: the higher, the more short hours (rank correlation 0.81).",
    );
  });

  it('never speak of chances, and keep to 100 columns', () => {
    expect(text(SPREAD)).not.toMatch(/probab|chance|likely|percent|risk|winter/i);
    for (const line of spreadLines(SPREAD, paint())) expect(line.length).toBeLessThanOrEqual(100);
  });

  it('say so where there is nothing to spread, and nothing where it was not asked for', () => {
    expect(text(NOTHING)).toBe('Nothing to spread: no part of this lamp has readings that give an interval.');
    expect(spreadLines(undefined, paint())).toEqual([]);
  });

  it('say so where nothing changes, nothing stands out, or sampled lamps cannot be built', () => {
    const { mostly: _, ...open } = SPREAD;
    expect(text(open)).toContain('No single parameter stands out.');
    const same = { lowest: 4, median: 4, highest: 4 };
    const still = {
      ...open,
      failedNights: same,
      parameters: [{ key: LEAKAGE.key, rankCorrelation: Number.NaN }],
    };
    expect(text(still)).toContain('failed nights always 4. No parameter changes the short hours.');
    expect(text({ ...SPREAD, ran: 18 })).toContain('2 of 20 sampled lamps cannot be built');
    expect(text({ ...NOTHING, samples: 20 })).toBe(
      'Over what the readings leave open: 20 of 20 sampled lamps cannot be built: their parts do not go together.',
    );
  });

  it('stand under the verdict and in summary.json, only where asked for', () => {
    const program = { name: 'longnight', version: '0.0.0', nodeMajor: 20 };
    const [plain, asked] = [smallRun(), smallRun([smallTrial({ spread: SPREAD })])];
    expect(terminalRun(plain, {})).not.toContain('readings leave open');
    expect(terminalRun(asked, {})).toContain('  Over what the readings leave open, the verdict');
    expect(JSON.parse(summaryJson(plain, program, {})).trials[0]).not.toHaveProperty('spread');
    expect(JSON.parse(summaryJson(asked, program, {})).trials[0].spread).toEqual({
      samples: 20,
      ran: 20,
      verdict_stands: 17,
      failed_nights: { lowest: 2, median: 9.5, highest: 31 },
      matters_most: 'capacitor.leakage_uA',
      rank_correlations: [
        { parameter: 'capacitor.leakage_uA', with_short_hours: 0.8125 },
        { parameter: 'capacitor.delayed_share', with_short_hours: null },
      ],
    });
  });
});
