import { expect, it } from 'vitest';
import { InputProblem } from '../../sim/common/InputProblem.ts';
import { designSpace } from '../../sim/sizing/DesignSpace.ts';
import { refuseUnpriced } from '../../sim/sizing/refuseUnpriced.ts';
import { changed, load, placeOf } from '../scenario/writeScenario.ts';

/** A lamp whose capacitor is no part of the library. */
const capacitor = (price: string) =>
  changed([
    'capacitor: { part: medium-capacitor }',
    `capacitor: { capacitance_F: 360, rated_V: 2.7, leakage_uA: 700${price} }`,
  ]);

function problemsOf(text: string) {
  const space = designSpace(load(text));
  try {
    refuseUnpriced(space);
  } catch (error) {
    if (error instanceof InputProblem) return error.problems;
    throw error;
  }
  return [];
}

it('refuseUnpriced names the part that lacks a price, and where to write it', () => {
  const text = `${capacitor('')}choices: { cell: { parallel: [1, 2] } }\n`;
  expect(problemsOf(text)).toMatchObject([
    {
      code: 'SCENARIO_MISSING_KEY',
      field: 'lamps.single.capacitor',
      got: 'no price of supercapacitor',
      fix: 'add price: to it in lamps.single.capacitor, or in_drawer: where it is at hand.',
    },
  ]);
  const chosen = `${capacitor('')}choices: { capacitor: { esr_mohm: [5, 10] } }\n`;
  expect(problemsOf(chosen)).toMatchObject([
    {
      field: 'choices.capacitor.esr_mohm',
      ...placeOf(chosen, 'esr_mohm'),
      got: 'no price of supercapacitor',
    },
  ]);
});

it('refuseUnpriced asks for a price by the farad where the capacitance is free', () => {
  const choices = 'choices: { capacitor: { capacitance_F: 100..470 by E6 } }\n';
  expect(problemsOf(`${capacitor(', price: 8')}${choices}`)).toMatchObject([
    { field: 'choices.capacitor.capacitance_F', got: 'one price, 8, for 5 capacitances' },
  ]);
  expect(problemsOf(`${capacitor(', price_per_F: 0.02')}${choices}`)).toEqual([]);
});

it('refuseUnpriced lets pass what has a price, or lies in the drawer', () => {
  const choices =
    'choices: { capacitor: { parallel: [1, 2], limiter: [none, { at_V: 2.6, price: 0.4 }] } }\n';
  expect(problemsOf(`${capacitor(', price: 8')}${choices}`)).toEqual([]);
  expect(problemsOf(`${capacitor(', in_drawer: 2')}${choices}`)).toEqual([]);
  expect(problemsOf(`${capacitor(', in_drawer: 1')}${choices}`)).toMatchObject([
    { got: 'no price of supercapacitors' },
  ]);
});

it('refuseUnpriced names a part once, however many of it a lamp may have', () => {
  const choices = 'choices: { capacitor: { parallel: [1, 2] } }\n';
  expect(problemsOf(`${capacitor('')}${choices}`)).toHaveLength(1);
});
