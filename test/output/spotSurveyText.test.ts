import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { benchSheetText } from '../../sim/output/benchSheetText.ts';
import { wordsMarkup } from '../../sim/output/figures/element.ts';
import { spotPart } from '../../sim/output/page/spotPart.ts';
import { skylineWords, spotSurveyText } from '../../sim/output/spotSurveyText.ts';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import { benchSheet } from '../../sim/trial/benchSheet.ts';
import { type SpotSheet, spotSurvey } from '../../sim/trial/spotSurvey.ts';
import { runMain } from '../cli/runMain.ts';

const file = fileURLToPath(new URL('../../scenarios/hedge-and-apple-tree.yaml', import.meta.url));
const scenario = loadScenario(file);
const survey = spotSurvey(scenario);
const lines = spotSurveyText(survey).split('\n');
const under = (spot: string) => {
  const from = lines.findIndex((line) => line.startsWith(`Sheet for the spot ${spot}`));
  const next = lines.findIndex((line, k) => k > from && line.startsWith('Sheet for'));
  return lines.slice(from, next < 0 ? undefined : next).join('\n');
};

it('the steps stand once, then a sheet a spot with what is stated and blanks to write into', () => {
  expect(lines.filter((line) => /^ {2}1 Stand where/.test(line))).toHaveLength(1);
  expect(lines.filter((line) => line.startsWith('Sheet for the spot'))).toHaveLength(5);
  expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(100);
  expect(under('behind-the-hedge')).toMatch(/^ {2}hedge +180 +1\.2 +9\.0 +1\.6 +0\.05 \/ 0\.25 +_+ +_+$/m);
  expect(under('behind-the-hedge')).toMatch(/^ +0 +0 +_{6} +180 +50 +hedge +_{6}$/m);
  expect(under('under-the-apple-tree')).toMatch(/170 +12, 68 to 90 +fence, apple-tree +_+/);
  expect(under('lawn')).toContain('The scenario states nothing around it.');
  expect(under('lawn')).toMatch(/^ +0 +_{6} +_{12} +180 +_{6} +_{12}$/m);
  expect(under('lawn')).toMatch(/trees \(ring one\) green bare {2}declination _+ {2}one pace/);
});

it('names as long as may be, and a sky in many pieces, stay within the terminal', () => {
  const name = `x${'y'.repeat(63)}`;
  const stated = [10, 30, 50, 70].map((from_deg) => ({ from_deg, to_deg: from_deg + 9, name }));
  const sheet: SpotSheet = {
    ...survey.sheets[1]!,
    obstacles: [{ ...survey.sheets[1]!.obstacles[0]!, name }],
    skyline: survey.sheets[1]!.skyline.map(({ bearing_deg }) => ({ bearing_deg, stated })),
  };
  const text = spotSurveyText({ ...survey, sheets: [sheet] });
  expect(Math.max(...text.split('\n').map((line) => line.length))).toBeLessThanOrEqual(100);
  // In one block of 36 rows.
  expect(text.match(/10 to 19, 30 to 39, 50 to 59, 70 to 79/g)).toHaveLength(36);
  expect(spotSurveyText({ ...survey, sheets: [] })).toBe('');
  expect(skylineWords({ bearing_deg: 0 })).toBe('');
});

it('check --bench prints it beside the bench sheet, with --json the same as data', async () => {
  const { stdout } = await runMain(['check', file, '--bench']);
  const sheets = scenario.lamps.map((lamp) => benchSheet(lamp, scenario.spots, scenario.currency));
  expect(stdout).toBe(`${benchSheetText(sheets)}\n${lines.join('\n')}`);
  const asJson = JSON.parse((await runMain(['check', file, '--bench', '--json'])).stdout);
  expect(asJson.survey.sheets).toEqual(JSON.parse(JSON.stringify(survey.sheets)));
  const logged = await runMain(['check', file.replace('hedge-and-apple-tree', 'raw-parameters'), '--bench']);
  expect(logged.stdout).not.toContain('To survey');
});

it('the page has it too, its names harmless', () => {
  const sheet = { ...survey.sheets[2]!, spot: '<img src=x>' };
  const markup = spotPart('survey-1', sheet, survey);
  expect(markup).not.toContain('<img');
  // 36 bearings, two obstacles, four spare rows, three headings.
  expect(markup.match(/<tr>/g)).toHaveLength(36 + 2 + 4 + 3);
  for (const step of survey.steps) expect(markup).toContain(wordsMarkup(step.slice(0, 40)));
  expect(markup).toContain('12, 68 to 90');
  expect(markup).not.toMatch(/NaN|undefined|Infinity/);
});
