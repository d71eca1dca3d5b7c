import { describe, expect, it } from 'vitest';
import { InputProblem, type Problem } from '../../../sim/common/InputProblem.ts';
import { horizonProfile } from '../../../sim/spot/shade/horizonProfile.ts';
import { horizonDome } from '../domes.ts';

const read = (text: string) => horizonProfile({ name: 'house.csv', bytes: new TextEncoder().encode(text) });

function problemsOf(text: string): readonly Problem[] {
  try {
    read(text);
  } catch (error) {
    if (error instanceof InputProblem) return error.problems;
    throw error;
  }
  return [];
}

const elevationAt = (text: string, bearing_deg: number) => {
  const dome = horizonDome(read(text));
  let elevation_deg = 0;
  while (elevation_deg < 90 && dome.transmittance(bearing_deg, elevation_deg) === 0) elevation_deg += 0.25;
  return elevation_deg;
};

describe('horizonProfile', () => {
  it('reads any delimiter and passes over lines above the headings', () => {
    const profile = read('garden, from the lamp\n\nbearing_deg;elevation_deg\n0;10\n120;"20"\n240;30\n');
    expect([...profile.elevation_deg]).toEqual([10, 20, 30]);
  });

  it('reads rows that start anywhere and pass north once, sorted by bearing', () => {
    const profile = read('elevation_deg,bearing_deg,note\n10,200,a\n20,300,b\n30,10,c\n40,100,d\n');
    expect([...profile.bearing_deg]).toEqual([10, 100, 200, 300]);
    expect([...profile.elevation_deg]).toEqual([30, 40, 10, 20]);
  });

  it('draws straight lines between rows, also across north', () => {
    const text = 'bearing_deg,elevation_deg\n20,10\n180,0\n340,30\n';
    expect(elevationAt(text, 0)).toBe(20);
    expect(elevationAt(text, 360)).toBe(20);
    expect(elevationAt(text, 10)).toBe(15);
    expect(elevationAt(text, 350)).toBe(25);
    expect(elevationAt(text, 100)).toBe(5);
  });

  it('takes a last row at 360 that repeats the first at 0 as the closing of the round', () => {
    expect([...read('bearing_deg,elevation_deg\n0,5\n120,6\n240,7\n360,5\n').bearing_deg]).toEqual([
      0, 120, 240,
    ]);
    expect(problemsOf('bearing_deg,elevation_deg\n0,5\n120,6\n240,7\n360,9\n')).toMatchObject([
      { code: 'SPOT_PROFILE', line: 5, got: '9 at bearing 360' },
    ]);
  });

  it('reports everything that cannot be in one go, each with its line', () => {
    const problems = problemsOf('bearing_deg,elevation_deg\n0,10\n400,10\n90,95\n120,ten\n180,-5\n270,\n');
    expect(problems.map(({ code, line, field, got }) => [code, line, field, got])).toEqual([
      ['SPOT_PROFILE', 3, 'bearing_deg', '400'],
      ['SPOT_PROFILE', 4, 'elevation_deg', '95'],
      ['SPOT_PROFILE', 5, 'elevation_deg', 'ten'],
      ['SPOT_PROFILE', 6, 'elevation_deg', '-5'],
      ['SPOT_PROFILE', 7, 'elevation_deg', 'nothing'],
    ]);
    expect(problems[0]!.fix).toContain('subtract 360');
  });

  it.each([
    ['0,0\n90,0\n80,0\n270,0', 4, '80 after 90'],
    ['0,0\n90,0\n90,20\n270,0', 4, '90 after 90'],
    ['200,0\n300,0\n10,0\n250,0', 5, '250 after 10'],
  ])('refuses a profile that goes backwards', (rows, line, got) => {
    expect(problemsOf(`bearing_deg,elevation_deg\n${rows}\n`)).toMatchObject([
      { code: 'SPOT_PROFILE', line, field: 'bearing_deg', got },
    ]);
  });

  it('refuses too few rows, an empty file and a heading it does not know', () => {
    expect(problemsOf('bearing_deg,elevation_deg\n0,10\n180,10\n')).toMatchObject([{ got: '2 rows' }]);
    expect(problemsOf('')).toMatchObject([{ got: 'an empty file' }, { got: 'an empty file' }]);
    expect(problemsOf('bearing_deg,elevation\n0,10\n')).toMatchObject([
      { line: 1, field: 'elevation_deg', fix: 'rename "elevation" to elevation_deg.' },
    ]);
  });
});

it('of thousands of rows that are no points it lists ten and counts the others', () => {
  const rows = Array.from({ length: 5000 }, (_, k) => `${k / 20},x`);
  const problems = problemsOf(`bearing_deg,elevation_deg\n${rows.join('\n')}\n`);
  expect(problems).toHaveLength(10);
  expect(problems.at(-1)).toMatchObject({ code: 'SPOT_PROFILE', line: 11, more: 4990 });
});
