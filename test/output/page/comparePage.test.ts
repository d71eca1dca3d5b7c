import { expect, test } from 'vitest';
import { comparePage } from '../../../sim/output/page/comparePage.ts';
import { smallCompared, smallComparison, smallSpot } from '../smallComparison.ts';
import { smallRun, smallTrial } from '../smallRun.ts';

const runs = [smallRun([smallTrial(), smallTrial({ spot: 'north-of-the-house' })])];
const plain = (html: string) => html.replace(/[\u2068\u2069]/g, '').replace(/<\/?bdi[^>]*>/g, '');

test('the page of a comparison answers first, then shows the nights, and its tables after them', () => {
  const page = plain(comparePage(smallComparison(), runs, []));
  const places = [
    'id="compared-answer"',
    'id="compared-nights-compared"',
    '<table',
    'id="compared-light"',
    'id="spot-limits"',
    'id="sky-1-sky"',
  ];
  const found = places.map((place) => page.indexOf(place));
  expect(found.every((at) => at > 0)).toBe(true);
  expect(found).toEqual([...found].sort((a, b) => a - b));
  expect(page).toContain('One of these 2 keeps its promise.');
});

test('each sky is headed by its spot', () => {
  const spots = [smallSpot(), smallSpot({ spot: 'north <b>' })];
  const page = plain(comparePage(smallComparison({ spots }), runs, []));
  expect(page).toContain('<h3 id="sky-1-sky-heading">The sky from lawn</h3>');
  expect(page).toContain('<h3 id="sky-2-sky-heading">The sky from north &lt;b&gt;</h3>');
});

test('money and lumen-hours stand in the tables, and years where there are several', () => {
  const page = plain(comparePage(smallComparison(), runs, []));
  expect(page).toContain('price of the parts');
  expect(page).toContain('lumen-hours a year for each EUR');
  expect(page).toContain('6, 29 December to 3 January<');
  const several = smallComparison({
    trials: [smallCompared({ winters: 12 })],
    decisive: [0],
    tables: [{ name: 'single', trials: [0] }],
  });
  const dated = plain(comparePage(several, runs, []));
  expect(dated).toContain('6, 29 December 2025 to 3 January 2026<');
  expect(dated).toContain('17 to 30 December 2025<');
});
