import { describe, expect, it } from 'vitest';
import { describeScenario, scenarioData } from '../../sim/output/describeScenario.ts';
import { changed, load } from '../scenario/writeScenario.ts';

const scenario = load(
  changed(
    ['{ part: medium-capacitor }', '{ part: medium-capacitor, capacitance_F: 400, rated_V: 2.2 }'],
    ['format: 1', 'format: 1\nname: a garden'],
  ),
);
const text = describeScenario(scenario);
const line = (key: string) => text.split('\n').find((row) => row.trim().startsWith(`${key} `));

describe('describeScenario', () => {
  it('keeps to the width it is given', () => {
    for (const width of [80, 100, 140]) {
      const widest = Math.max(
        ...describeScenario(scenario, { width })
          .split('\n')
          .map((row) => row.length),
      );
      expect(widest).toBeLessThanOrEqual(width);
    }
  });

  it('shows each value with its unit and where it came from', () => {
    expect(line('latitude_deg')).toMatch(/ 54 deg +line 4$/);
    expect(line('capacitance_F')).toMatch(/ 400 F +line 22$/);
    expect(line('esr_mohm')).toMatch(/ 7 mohm \(3 to 15\) +part medium-capacitor$/);
    expect(line('albedo')).toMatch(/ 0\.2 \(0\.1 to 0\.3\) +assumed: grass and soil without snow, common$/);
    expect(line('tolerance_h')).toMatch(/ 0\.25 h +assumed: a quarter of an hour$/);
  });

  it('keeps the order of the scenario and shows tables row by row', () => {
    const at = ['\nsite', '\nweather', '\nstart', '\npromise', '\nspots', '\nlamps', '\nAssumed'].map(
      (word) => text.indexOf(word),
    );
    expect(at).toEqual(at.toSorted((one, other) => one - other));
    expect(at).not.toContain(-1);
    expect(text).toContain('\n        current_mA 5, forward_V 2.7, efficacy_lm_W 140 (110 to 190)\n');
  });

  it('lists the generic parts, the assumptions, and what must be seen', () => {
    const flowing = text.replace(/\s+/g, ' ');
    expect(flowing).toContain(
      '- part small-cell (generic; the middle of what is sold, from memory) [single]',
    );
    for (const sentence of scenario.assumptions) expect(flowing).toContain(`- ${sentence}`);
    expect(flowing).toContain(
      'Please note ! single: Above the rated voltage: full sun drives the capacitor to',
    );
  });
});

it('asks of numbers that hardly anyone has, and shows a number as it was written', () => {
  const doubtful = load(
    changed(['    cell_tilt_deg: 10', '    cell_height_m: 15\n    cell_tilt_deg: 0.1 rad']),
  );
  const shown = describeScenario(doubtful);
  expect(shown).toContain(
    '\nPlease check: hardly anyone has such numbers\n  ? cell_height_m 15 m: the cell of a garden lamp is at most 3 m up. Did you mean 0.15 m, 15 cm?\n    [lawn]\n',
  );
  expect(shown).toMatch(/ cell_tilt_deg +5\.72957795131 deg +line 16: 0\.1 rad\n/);
  expect(scenarioData(doubtful).questions).toEqual(doubtful.questions);
  expect(text).not.toContain('Please check');
});

describe('scenarioData', () => {
  it('is plain JSON and names no place on the disk', () => {
    const data = scenarioData(scenario);
    expect(JSON.parse(JSON.stringify(data))).toEqual(data);
    expect(JSON.stringify(data)).not.toContain(scenario.folder);
    expect(data.flags[0]).toMatch(/^single: Above the rated voltage/);
  });
});
