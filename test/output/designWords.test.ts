import { beforeAll, expect, it } from 'vitest';
import { changedWords, chosenWords, designWords, keyColumn, openKeys } from '../../sim/output/designWords.ts';
import type { SpaceAnswer } from '../../sim/sizing/sizeScenario.ts';
import { smallSizing } from '../sizing/smallSizing.ts';

const CHOICES = `choices:
  cell: { parallel: 2 }
  capacitor: { capacitance_F: 100, limiter: [none, { at_V: 2.6 }] }
`;

let answer: SpaceAnswer;
beforeAll(async () => {
  [answer] = (await smallSizing({ spot: 'bright' }, CHOICES)).answers as [SpaceAnswer];
});

it('chosenWords says parts, counts, values with units, and what is taken away', () => {
  expect(chosenWords({ key: 'driver.inductance_uH', value: 470, unit: 'uH' })).toBe('inductor 470 uH');
  expect(chosenWords({ key: 'cell.part', value: 'good-cell' })).toBe('cell good-cell');
  expect(chosenWords({ key: 'led.count', value: 2 })).toBe('2 LEDs');
  expect(chosenWords({ key: 'capacitor.limiter', value: { at_V: 2.6 } })).toBe('capacitor limiter at 2.6 V');
  expect(chosenWords({ key: 'capacitor.limiter', value: null })).toBe('capacitor limiter none');
  expect(chosenWords({ key: 'schedule.hours', value: 8 })).toBe('schedule 8 h');
});

it('changedWords names what differs, with what stands there now', () => {
  const { design } = answer.sized.at(-1)!;
  const words = changedWords(design, answer.space);
  expect(words).toContain('2 cells in parallel (now 1)');
  expect(words).toContain('capacitor 100 F (now 360 F)');
  expect(designWords(answer.present!.design, answer.space)).toBe('one as it is');
  expect(openKeys(answer.space)).toEqual(['capacitor.limiter']);
});

it('a section with values of its own has no part, and is no absent one', async () => {
  const choices =
    'choices: { cell: { part: [small-cell, good-cell] }, capacitor: { limiter: [none, { at_V: 2.6 }] } }\n';
  const own =
    'cell: { short_circuit_mA: 180, open_circuit_V: 3, best_current_mA: 165, best_voltage_V: 2.45, cells_in_series: 5, price: 4.2 }';
  const [{ present, sized, space }] = (await smallSizing({ spot: 'bright' }, choices, own)).answers as [
    SpaceAnswer,
  ];
  const words = changedWords(sized.find(({ design }) => design.changed.length === 2)!.design, space);
  expect(words[0]).toMatch(/^cell (small|good)-cell \(now its own\)$/);
  expect(words[1]).toBe('capacitor limiter at 2.6 V (now none)');
  expect(keyColumn('cell.part', space).cell(present!.design)).toBe('its own');
  expect(keyColumn('capacitor.limiter', space).cell(present!.design)).toBe('-');
});
