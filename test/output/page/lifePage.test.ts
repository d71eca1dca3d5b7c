import { expect, test } from 'vitest';
import { FIGURE_NOTES } from '../../../sim/output/page/figureNotes.ts';
import { lifePage } from '../../../sim/output/page/lifePage.ts';
import { smallLives, smallSweep, smallTrialLife } from '../smallLives.ts';
import { smallRun, smallTrial } from '../smallRun.ts';

const { scenario } = smallRun([smallTrial({ lamp: 'double' })]);
const lives = smallLives([smallTrialLife(), smallTrialLife([1, 1, 1], { spot: 'north' })]);
const html = lifePage({ lives, sweeps: [smallSweep()], scenario }, ['life.csv', 'life.json']);

test('the page of lives says of each trial what the terminal says, and draws it', () => {
  expect(html).toContain('the promise first breaks in winter 15 (12 to 21)');
  expect(html).toContain('What ends it: the capacitor (high: the LED).');
  expect(html).toContain('breaks its promise when new');
  expect(html).toContain('low, middle and high are run, none is picked');
  expect(html.match(/<figure /g)).toHaveLength(5);
});

test('every picture of it has its unit, its assumption and its source', () => {
  const figures = [...html.matchAll(/<figure class="figure figure-([\w-]+)"[\s\S]*?<\/figure>/g)];
  for (const [text, key] of figures) {
    expect(FIGURE_NOTES[key!], key).toBeDefined();
    expect(text).toMatch(
      /<dt>Unit<\/dt><dd>[^<]+[\s\S]*<dt>Assumption<\/dt><dd>[^<]+[\s\S]*<dt>Source<\/dt><dd>[^<]+/,
    );
  }
});

test('its grounds hold assumptions, facts of the trade, sources and cautions', () => {
  const grounds = html.slice(html.indexOf('id="grounds"'));
  for (const words of [
    'the lid is cleaned each spring',
    'From 2.7 to 2.2 V a bit more than twice the life: low 3.7 times',
    'Koetz',
    'A charged supercapacitor',
  ])
    expect(grounds).toContain(words);
});

test('it holds no markup of a hostile name', () => {
  const lamp = '</script><script>window.harmed = 1</script>';
  const spot = '<img src=x onerror="window.harmed = 2">';
  const named = { ...scenario, lamps: scenario.lamps.map((each) => ({ ...each, name: lamp })) };
  const hostile = lifePage(
    {
      lives: smallLives([smallTrialLife([12, 15, 21], { lamp, spot })], {
        flags: [lamp],
        assumptions: [spot],
      }),
      sweeps: [{ ...smallSweep(), lamp, spot }],
      scenario: named,
    },
    [],
  );
  expect(hostile).not.toContain('<script>window.harmed');
  expect(hostile).not.toContain('<img');
});

test('of many trials it draws some and says so', () => {
  const trials = Array.from({ length: 13 }, (_, k) => smallTrialLife([12, 15, 21], { spot: `spot ${k}` }));
  const many = lifePage({ lives: smallLives(trials), sweeps: [], scenario }, []);
  expect(many).toContain('Of these 13 trials the first 12 are drawn');
  expect(many.match(/<figure /g)).toHaveLength(24);
  expect(many.match(/the promise first breaks in winter 15/g)!.length).toBeGreaterThan(12);
});
