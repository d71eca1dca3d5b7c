import { expect, it } from 'vitest';
import { choiceRange } from '../../sim/scenario/choiceRange.ts';

const FARADS = { type: 'number', unit: 'F' } as const;
const values = (text: string, node: Parameters<typeof choiceRange>[1] = FARADS) =>
  choiceRange(text, node)?.values;
const problem = (text: string) => choiceRange(text, FARADS)?.problem;

it('choiceRange holds the preferred numbers between its ends, both included where they are preferred', () => {
  expect(values('100..1000 by E6')).toEqual([100, 150, 220, 330, 470, 680, 1000]);
  expect(values('90..500 by E3')).toEqual([100, 220, 470]);
  expect(values(' 1..1 by e24 ')).toEqual([1]);
  expect(values('0.33..0.68 by E12')).toEqual([0.33, 0.39, 0.47, 0.56, 0.68]);
});

it('choiceRange goes in equal steps from its first value, without a last digit too many', () => {
  expect(values('100..300 by 50')).toEqual([100, 150, 200, 250, 300]);
  expect(values('0.1..0.7 by 0.2')).toEqual([0.1, 0.3, 0.5, 0.7]);
  expect(values('1..4.5 by 1', { type: 'integer' })).toEqual([1, 2, 3, 4]);
  expect(values('-20..20 by 20', { type: 'number', unit: 'deg' })).toEqual([-20, 0, 20]);
  expect(values('5..8 by 10')).toEqual([5]);
});

it('choiceRange reads units on its ends and its step', () => {
  const henries = { type: 'number', unit: 'uH' } as const;
  expect(values('330 uH..1 mH by E6', henries)).toEqual([330, 470, 680, 1000]);
  expect(values('0.1 mH .. 300 uH by 0.1mH', henries)).toEqual([100, 200, 300]);
});

it('choiceRange is nothing where no range is written, or no number is wanted', () => {
  expect(choiceRange('100', FARADS)).toBeUndefined();
  expect(choiceRange('1..2 by 1', { type: 'string' })).toBeUndefined();
});

it.each([
  ['110..140 by E6', 'SCENARIO_OUT_OF_RANGE', 'the nearest of E6 are 100 and 150.'],
  ['1010..1040 by E24', 'SCENARIO_OUT_OF_RANGE', 'the nearest of E24 are 1000 and 1100.'],
  ['1000..100 by E6', 'SCENARIO_CONFLICT', 'write 100..1000 by E6.'],
  ['0..100 by E6', 'SCENARIO_OUT_OF_RANGE', 'begin above 0, or take equal steps.'],
  ['100..500', 'SCENARIO_WRONG_TYPE', 'write 100..500 by E6, or 100..500 by 100.'],
  ['100..500 by E7', 'SCENARIO_WRONG_TYPE', 'write 100..500 by E6, or 100..500 by 100.'],
  ['100..500 by 0', 'SCENARIO_WRONG_TYPE', 'write 100..500 by E6, or 100..500 by 100.'],
  ['0..1000 by 0.01', 'SCENARIO_OUT_OF_RANGE', 'take a larger step, as in 0..1000 by 100.'],
  ['ten..20 by 1', 'SCENARIO_WRONG_TYPE', 'write two numbers, as in 100..1000 by E6.'],
])('choiceRange refuses %s and says what to write', (text, code, fix) => {
  expect(problem(text)).toMatchObject({ code, fix });
  expect(problem(text)?.got).toContain(`"${text}"`);
});

it('choiceRange says which end is in a unit that its key cannot take', () => {
  expect(problem('100..2 V by 1')).toMatchObject({
    code: 'SCENARIO_WRONG_UNIT',
    got: '"2 V", a voltage, in "100..2 V by 1"',
  });
});
