import { expect, it } from 'vitest';
import { findText } from '../../sim/output/findText.ts';
import type { Found } from '../../sim/sizing/find/Found.ts';

const FOUND: Found = {
  find: 'capacitance',
  spot: 'lawn',
  lamp: 'single',
  what: 'capacitance of one capacitor',
  key: 'capacitor.capacitance_F',
  unit: 'F',
  value: 546.8,
  end: 'least',
  stated: 360,
  step: { size: 1, unit: '%' },
  lookedFrom: 22.5,
  lookedTo: 5760,
  neighbour: 541.4,
  turns: [],
  nearest: undefined,
  preferred: [
    { series: 'E6', value: 680 },
    { series: 'E12', value: 560 },
  ],
  closedForm: undefined,
  notes: [],
  runs: 47,
};

const said = (changes: Partial<Found>) =>
  findText([{ ...FOUND, ...changes }])
    .replaceAll(/\n {2}/g, ' ')
    .trim();

it('says the value, what is beside it, what is stated, and the sizes to buy, the smaller first', () => {
  expect(said({})).toBe(
    'single on lawn: 546.8 F is the least capacitance of one capacitor with which every night is kept (not with 541.4 F, 360 F as stated); the next size to buy is 560 F (E12) or 680 F (E6).',
  );
  expect(said({ preferred: FOUND.preferred.map((each) => ({ ...each, value: 680 })) })).toContain(
    'the next size to buy is 680 F (E6 and E12).',
  );
  expect(said({ neighbour: undefined, preferred: [] })).toContain(
    '(the least that was tried, 360 F as stated).',
  );
});

it('says where keeping turns back', () => {
  expect(said({ turns: [604], preferred: [] })).toMatch(/; only up to 604 F\.$/);
  expect(said({ turns: [604, 700], preferred: [] })).toMatch(/; only up to 604 F, again from 700 F\.$/);
  expect(said({ turns: [604, 700, 810], preferred: [] })).toMatch(
    /up to 604 F, again from 700 F up to 810 F\.$/,
  );
});

it('says what comes nearest where nothing keeps', () => {
  const nearest = { value: 520.2, nights: 76, failedNights: 1, short_h: 0.7 };
  expect(said({ value: undefined, neighbour: undefined, preferred: [], nearest })).toBe(
    'single on lawn: no capacitance of one capacitor from 22.5 F to 5760 F keeps every night; nearest comes 520 F, with 1 failed night of 76.',
  );
  expect(said({ value: undefined, nearest: undefined })).toMatch(/, and no such lamp can be run\.$/);
});

it('says a share as it looks in the garden', () => {
  const shade = {
    find: 'shade',
    what: 'share of the light of this spot',
    unit: '1',
    stated: 1,
    preferred: [],
  } as const;
  expect(said({ ...shade, value: 0.6667, neighbour: 0.66 })).toContain(
    '0.6667 is the least share of the light of this spot with which every night is kept (not with 0.66): some two thirds of it, so that leaves, dirt or a hedge may take 33 percent at all hours.',
  );
  expect(said({ ...shade, value: 1.661, neighbour: 1.645 })).toMatch(/1\.66 times as much as it has/);
});

it('says hours in hours and minutes, lumens to the end, and the closed form', () => {
  const none = { preferred: [], end: 'greatest' } as const;
  expect(said({ ...none, find: 'promise', value: 4 + 5 / 6, neighbour: 5, stated: 6 })).toBe(
    'single on lawn: 4 h 50 min is the longest promise that is kept every night (not with 5 h, 6 h as stated).',
  );
  expect(
    said({ ...none, find: 'light', unit: 'lm', value: 0.4727, neighbour: 0.4775, stated: 0.65 }),
  ).toContain('0.4727 lm is what every night still has to the end of the promise (not with 0.4775 lm');
  const closedForm = { value: 158.82, from_V: 2.335 };
  expect(
    said({
      preferred: [],
      find: 'inductor',
      what: 'inductance',
      unit: 'uH',
      closedForm,
      notes: ['lit for 6 h of every night'],
    }),
  ).toMatch(
    /; lit for 6 h of every night; by closed form 159 uH in the dark from a full capacitor, 2\.3[34] V\.$/,
  );
});
