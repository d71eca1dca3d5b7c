import { expect, it } from 'vitest';
import type { CapacitorReading } from '../../sim/ageing/capacitorReadings.ts';
import { type JarCard, jarCard } from '../../sim/ageing/JarCard.ts';
import { properSigns } from '../../sim/output/figures/properSigns.ts';
import { jarCardText } from '../../sim/output/jarCardText.ts';
import { jarCardPart } from '../../sim/output/page/jarCard.ts';
import { demoTrial } from '../ageing/demoTrial.ts';

const { spot, lamp, light, terms } = await demoTrial('lawn', 'single');
const card = jarCard(lamp, spot, light, terms);
const reading: CapacitorReading = {
  at: 4,
  sinceDusk: false,
  month: 10,
  middle_ms: Date.UTC(2025, 9, 15, 20, 32),
  clearEvenings: 10,
  steps: [
    { capacitance: 1, volts: 1.9 },
    { capacitance: 0.85, volts: 1.8 },
    { capacitance: 0.7, volts: 1.6 },
    { capacitance: 0.5, volts: 1.2 },
  ],
  causes: [
    { what: 'a dull day before', moves_V: -0.1, asIfLost_percent: 15 },
    { what: 'dirt', moves_V: 0, asIfLost_percent: 0 },
  ],
  alone_percent: 7.4,
  sinceNew_percent: 2.2,
};
const stated: JarCard = {
  ...card,
  readings: { best: reading, mostTelling: 8, atDusk_V: 0.01 },
  expected: [{ winter: 5, low_V: 1.7, high_V: 1.86 }],
  renew: { volts: 1.55, capacitance: 0.68, winter: 12 },
};

const oneLine = (text: string) => text.replace(/\s+/g, ' ');

it('the card says what to do each year, when to read, and what a reading means, in at most 100 columns', () => {
  const text = jarCardText(stated);
  expect(Math.max(...text.split('\n').map((line) => line.length))).toBeLessThanOrEqual(100);
  const words = oneLine(text);
  expect(words).toContain('Each April - Brush and wash the cover over the cell');
  expect(words).toContain('Look at the seal');
  expect(words).toContain('Each October, one voltage');
  expect(words).toContain('4 hours after it came on (about 22:30 in the middle of the month)');
  expect(words).toContain('70 percent 1.60 V -0.30 V');
  expect(words).toContain('Below 1.60 V the capacitance is 70 percent or less.');
  expect(words).toContain('to 3 percent either way, the reading by itself to 8');
  expect(words).toContain('a dull day before like 15 percent less');
  expect(words).toContain('It does not see: dirt.');
  expect(words).toContain('30 percent less capacitance changes it by 0.01 V');
  expect(words).toContain('winter 5: 1.70 to 1.86 V');
  expect(words).toContain('At 1.55 V (68 percent, about winter 12) fit a new capacitor');
});

it('the card begins with care: the resistor that empties this capacitor, and what comes before it', () => {
  const words = oneLine(jarCardText(card));
  expect(words).toContain('6.8 ohm rated 5 W across the capacitor for about');
  expect(words).toContain('hundreds of amperes when shorted');
  expect(words).toContain('not for escape routes');
  expect(words.indexOf('Care first')).toBeLessThan(words.indexOf('one voltage'));
});

it('a lamp whose age no reading tells, and weather without an autumn, are said to be so', () => {
  const none = { best: undefined, mostTelling: 1.3, atDusk_V: 0.002 };
  const words = oneLine(jarCardText({ ...stated, readings: none, expected: [], renew: undefined }));
  expect(words).toContain("No single voltage in the dark tells this capacitor's age");
  expect(words).not.toContain('capacitance left');
  const unknown = { best: undefined, mostTelling: Number.NaN, atDusk_V: Number.NaN };
  const other = oneLine(jarCardText({ ...stated, readings: unknown, expected: [], renew: undefined }));
  expect(other).toContain('too few evenings before the dark weeks');
});

it('a fall since dusk is read twice, and grows as the capacitance goes', () => {
  const steps = reading.steps.map(({ capacitance, volts }) => ({ capacitance, volts: volts - 2.4 }));
  const best = { ...reading, sinceDusk: true, steps };
  const words = oneLine(jarCardText({ ...stated, readings: { ...stated.readings, best } }));
  expect(words).toContain('at dusk and again 4 hours after it came on');
  expect(words).toContain('fallen by');
  expect(words).toContain('Above 0.80 V the capacitance is 70 percent or less.');
});

it('a bank in series is read part by part, and a lamp above its rating is to be changed first', () => {
  const capacitor = { ...lamp.section.capacitor, series: 2 };
  const pair = { ...lamp, section: { ...lamp.section, capacitor } };
  const words = jarCardText(jarCard(pair, spot, light, terms));
  expect(oneLine(words)).toContain(
    'each of the 2 capacitors in series, which nothing balances: none above 2.70 V',
  );
  const low = { ...lamp.params, capacitor: { ...lamp.params.capacitor, rated_V: 1.5 } };
  const over = jarCardText(jarCard({ ...lamp, params: low }, spot, light, terms));
  expect(oneLine(over)).toContain('and it is rated 1.50 V: it can burst');
});

it('the page has the same words, and no name gets out of its place', () => {
  const markup = jarCardPart('card-1', { ...stated, lamp: '<b>x</b>' });
  expect(markup).not.toContain('<b>x');
  for (const words of [...stated.spring, ...stated.care.slice(0, 2), '1.60 V', 'Below 1.60 V'])
    expect(markup).toContain(properSigns(words));
  expect(markup).not.toMatch(/NaN|undefined|Infinity/);
});
