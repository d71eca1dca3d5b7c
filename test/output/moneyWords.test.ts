import { describe, expect, it } from 'vitest';
import { lampPrice } from '../../sim/lamp/partsList.ts';
import type { LampSection } from '../../sim/lamp/schema.ts';
import { changeLines } from '../../sim/output/changeLines.ts';
import { compareJson } from '../../sim/output/compareJson.ts';
import { addsWords, moneyCells, priceSentence } from '../../sim/output/moneyWords.ts';
import { reportPage } from '../../sim/output/page/reportPage.ts';
import { summaryJson } from '../../sim/output/summaryJson.ts';
import { terminalCompare } from '../../sim/output/terminalCompare.ts';
import { terminalRun } from '../../sim/output/terminalRun.ts';
import { paint } from '../../sim/output/textTable.ts';
import type { Scenario } from '../../sim/scenario/Scenario.ts';
import { lampMoney } from '../../sim/trial/lampMoney.ts';
import { scenarioDifferences } from '../../sim/trial/scenarioDifferences.ts';
import type { Change } from '../../sim/trial/Trial.ts';
import { smallCompared, smallComparison } from './smallComparison.ts';
import { smallRun, smallTrial } from './smallRun.ts';

const PROGRAM = { version: '1.2.3', nodeMajor: 20 };
const { scenario: BARE } = smallRun();
const [LAMP] = BARE.lamps;
const PRICED = {
  ...LAMP!.section,
  cell: { ...LAMP!.section.cell, price: 3 },
  diode: { ...LAMP!.section.diode, price: 0.25 },
  capacitor: { ...LAMP!.section.capacitor, price: 4 },
  driver: { ...LAMP!.section.driver, price: 2 },
  led: { ...LAMP!.section.led, price: 0.75 },
};
const runOf = (section: LampSection, currency?: string, changes: Change[] = []) => {
  const run = smallRun([smallTrial({ changes })]);
  const scenario: Scenario = { ...run.scenario, currency, lamps: [{ ...LAMP!, section }] };
  return { ...run, scenario };
};
const flowing = (text: string) => text.replace(/\s+/g, ' ');
const CHANGE: Change = {
  change: 'a second capacitor in parallel',
  detail: '2 instead of 1',
  failedNightsBefore: 12,
  failedNights: 3,
  shortBefore_h: 30,
  short_h: 6,
  effect: 'helps',
  cost: 1.5,
};

describe('the money of a lamp', () => {
  it('is its price, and the light of a mean year for each unit', () => {
    const { scenario, trials } = runOf(PRICED, 'EUR');
    const found = lampMoney(scenario, trials[0]!);
    const given = trials[0]!.statistics.winters.map(({ lightGiven_lm_h }) => lightGiven_lm_h);
    const year_lm_h = given.reduce((sum, light) => sum + light, 0) / given.length;
    expect(found).toEqual({
      currency: 'EUR',
      price: 10,
      unpriced: [],
      lightForUnit_lm_h: expect.closeTo(year_lm_h / 10, 9),
    });
  });

  it('is never NaN: without a price, with all of it at hand, without a winter', () => {
    const { scenario, trials } = runOf(LAMP!.section);
    expect(lampMoney(scenario, trials[0]!)).toMatchObject({
      price: undefined,
      lightForUnit_lm_h: undefined,
      unpriced: ['solar cell', 'blocking diode', 'supercapacitor', 'driver', 'LED'],
    });
    const atHand = Object.fromEntries(
      Object.entries(PRICED).map(([part, keys]) => [part, { ...keys, in_drawer: 9 }]),
    ) as unknown as LampSection;
    expect(lampPrice(atHand)).toBe(0);
    const free = lampMoney(runOf(atHand).scenario, trials[0]!);
    expect(free).toMatchObject({ price: 0, lightForUnit_lm_h: undefined });
    expect(priceSentence(free)).toBe('Its parts cost nothing more.');
    const noWinter = { ...trials[0]!, statistics: { ...trials[0]!.statistics, winters: [] } };
    const known = lampMoney(runOf(PRICED).scenario, noWinter);
    expect(known).toMatchObject({ price: 10, lightForUnit_lm_h: undefined });
    expect(priceSentence(known)).toBe('Its parts cost 10.00.');
  });

  it('stands in what a run prints, writes and shows; nothing where no price is known', () => {
    const run = runOf(PRICED, 'EUR');
    const light = Math.round(lampMoney(run.scenario, run.trials[0]!).lightForUnit_lm_h!);
    const sentence = `Its parts cost 10.00 EUR: ${light} lumen-hours a year for each EUR.`;
    expect(flowing(terminalRun(run, { details: true }))).toContain(sentence);
    expect(flowing(terminalRun(run, {}))).toContain(
      `Parts (lumen-hours a year for each EUR): single 10.00 EUR (lawn ${light}).`,
    );
    const page = reportPage(run, new Map(), []);
    expect(page).toContain(`<dt>for its parts: ${light} lumen-hours a year for each EUR</dt>`);
    expect(page).toContain('id="money"');
    expect(JSON.parse(summaryJson(run, PROGRAM, {})).trials[0].money).toMatchObject({
      currency: 'EUR',
      price: 10,
      unpriced: [],
    });
    const bare = runOf(LAMP!.section);
    expect(terminalRun(bare, {})).not.toMatch(/cost|Parts|NaN/);
    expect(reportPage(bare, new Map(), [])).not.toContain('id="money"');
    expect(JSON.parse(summaryJson(bare, PROGRAM, {})).trials[0].money.price).toBeNull();
  });

  it('stands side by side in a comparison, and is left out where nothing has a price', () => {
    const comparison = smallComparison();
    const text = terminalCompare(comparison, { details: true });
    expect(text).toMatch(/^ {2}price of the parts +12\.50 EUR/m);
    expect(text).toMatch(/^ {2}lumen-hours a year for each EUR +774/m);
    expect(terminalCompare(comparison, {})).toMatch(/ price\n.* 12\.50 EUR$/m);
    expect(JSON.parse(compareJson(comparison, PROGRAM)).trials[0].money).toEqual({
      currency: 'EUR',
      price: 12.5,
      unpriced: [],
      light_for_unit_lm_h: 774.32,
    });
    const money = { currency: undefined, price: undefined, unpriced: ['jar'], lightForUnit_lm_h: undefined };
    const trials = [smallCompared({ money })];
    const unknown = smallComparison({ trials, decisive: [0], tables: [{ name: 'single', trials: [0] }] });
    expect(terminalCompare(unknown, {})).not.toMatch(/price|NaN/);
  });

  it('is for each 1.00 in a table of no currency, or of two', () => {
    const money = (currency?: string) => ({
      money: { currency, price: 10, unpriced: [], lightForUnit_lm_h: 400 },
    });
    const light = (...shown: ReturnType<typeof money>[]) => moneyCells(shown)[1]!.heading;
    expect(light(money('EUR'), money('EUR'))).toBe('lumen-hours a year for each EUR');
    expect(light(money('EUR'), money('USD'))).toBe('lumen-hours a year for each 1.00');
    expect(light(money())).toBe('lumen-hours a year for each 1.00');
  });

  it('of two currencies is loudly said not to be converted', () => {
    const [one, other] = [runOf(PRICED, 'EUR'), runOf(PRICED, 'USD')];
    expect(scenarioDifferences([one, other]).differences.join()).toContain('DIFFERENT CURRENCIES');
    expect(scenarioDifferences([one, one]).differences).toEqual([]);
  });
});

describe('a single change', () => {
  const text = (change: Change, currency?: string) =>
    flowing(changeLines([change], { currency }, 1, paint()).join(' '));

  it('says what it adds and mends, in the word of the scenario if it has one', () => {
    expect(text(CHANGE, 'EUR')).toContain('(2 instead of 1; adds 1.50 EUR and mends 9 nights)');
    expect(text({ ...CHANGE, failedNights: 11 })).toContain('; adds 1.50 and mends 1 night)');
    expect(text({ ...CHANGE, failedNights: 12, effect: 'no-better' })).toContain(
      '(2 instead of 1; adds 1.50)',
    );
  });

  it('of spot or schedule, or without a price, says nothing of money', () => {
    expect(addsWords({ ...CHANGE, cost: 0 }, 'EUR')).toBe('');
    expect(addsWords({ ...CHANGE, cost: undefined }, 'EUR')).toBe('');
  });
});
