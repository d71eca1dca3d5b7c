import { describe, expect, test } from 'vitest';
import { comparePage } from '../../../sim/output/page/comparePage.ts';
import { reportPage } from '../../../sim/output/page/reportPage.ts';
import { nightStatistics } from '../../../sim/statistics/overWinters.ts';
import { compareRuns } from '../../../sim/trial/compareRuns.ts';
import { demoPage } from '../../browser/pages.ts';

// The demo with two more winters beside its own, in statistics alone.
const { run, html: single } = await demoPage();
const trials = run.trials.map((trial) => {
  const [winter] = trial.statistics.winters;
  const others = ['2023/24', '2024/25'].map((name) => ({
    ...winter!,
    winter: name,
    failedNights: 0,
    short_h: 0,
  }));
  return { ...trial, statistics: { ...trial.statistics, ...nightStatistics([...others, winter!]) } };
});
const several = { ...run, trials };

describe('a page of several winters', () => {
  const html = reportPage(several, new Map(), []);

  test('begins each trial with what they come to as a sample, then tells of the worst', () => {
    expect(html).toContain(
      'no failed night in a typical winter, 9 in the worst of 3; keeps its promise in 2 of 3 winters',
    );
    expect(html).toMatch(/<dt>failed in a typical winter, the median<\/dt><dd><b>0<\/b>/);
    expect(html).toMatch(
      /<dt>winters kept, as far as these tell \(Wilson, 90 percent\)<\/dt><dd><b>25 to 93<\/b> of 100/,
    );
    expect(html).toContain('<h4>The worst winter, 2025 joined</h4>');
    expect(html).toContain('9 in the worst of 3, which is drawn; kept in 2 winters');
    expect(single).not.toContain('typical winter');
  });

  test('has the winters as rows and their failed nights as bars, once a trial; one winter has neither', () => {
    for (const key of ['winters', 'winter-counts']) {
      expect(html.split(`data-figure="${key}"`)).toHaveLength(trials.length + 1);
      expect(single).not.toContain(`data-figure="${key}"`);
    }
  });

  test('sets them side by side in a comparison', () => {
    const page = comparePage(compareRuns([several], 'spot'), [several], []);
    for (const heading of [
      'failed nights, typical winter',
      'worst winter in ten',
      'winters kept',
      'failed nights of all winters',
    ])
      expect(page).toContain(`>${heading}</th>`);
    const one = comparePage(compareRuns([run], 'spot'), [run], []);
    expect(one).not.toContain('typical winter');
    expect(one).toContain('>failed nights</th>');
  });
});
