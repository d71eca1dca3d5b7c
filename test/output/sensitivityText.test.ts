import { describe, expect, it } from 'vitest';
import { sensitivityText } from '../../sim/output/sensitivityText.ts';
import type { MovedBy, Sensitivity } from '../../sim/trial/sensitivity.ts';

const CAPACITANCE: MovedBy = {
  key: 'capacitor.capacitance_F',
  from: 'part',
  values: {
    worse: { capacitance_F: 320 },
    assumed: { capacitance_F: 360 },
    better: { capacitance_F: 400 },
  },
  failedNights: { worse: 12, assumed: 4, better: 1 },
  short_h: { worse: 20.25, assumed: 6.5, better: 0.4 },
  trials: [
    { spot: 'lawn', lamp: 'single', failedNights: { worse: 7, assumed: 4, better: 1 } },
    { spot: 'lawn', lamp: 'double', failedNights: { worse: 5, assumed: 0, better: null } },
  ],
  know: {
    what: 'discharge',
    how: 'a resistor, a stopwatch',
    shows: { unit: 'min', worse: 25.3, assumed: 28.4, better: 31.6 },
  },
};
const DIRT: MovedBy = {
  ...CAPACITANCE,
  key: 'cover.dirt_loss',
  from: 'default',
  values: { worse: { dirt_loss: 0.1 }, assumed: { dirt_loss: 0 }, better: { dirt_loss: 0 } },
  failedNights: { worse: 5, assumed: 4, better: 4 },
  know: { what: 'what dirt takes', how: 'wipe it' },
};
const DRIVER: MovedBy = {
  ...DIRT,
  key: 'driver.efficiency',
  values: {
    worse: { efficiency: [0.6, 0.7].map((efficiency, k) => ({ capacitor_V: 1 + k, efficiency })) },
    assumed: { efficiency: 0.8 },
    better: { efficiency: [0.7, 0.8].map((efficiency, k) => ({ capacitor_V: 1 + k, efficiency })) },
  },
};
const SKYLINE: MovedBy = {
  ...DIRT,
  key: 'skyline_deg',
  from: 'judged',
  values: { worse: { skyline_deg: 5 }, assumed: { skyline_deg: 0 }, better: { skyline_deg: -5 } },
};
const STILL: MovedBy = {
  ...DIRT,
  key: 'capacitor.esr_mohm',
  failedNights: { worse: 4, assumed: 4, better: 4 },
  short_h: { worse: 6.5, assumed: 6.5, better: 6.5 },
};

const TRIALS = [
  { spot: 'lawn', lamp: 'single', nights: 365, failedNights: 4, short_h: 6.5 },
  { spot: 'lawn', lamp: 'double', nights: 365, failedNights: 0, short_h: 0 },
];
const textOf = (assumptions: MovedBy[], trials: Sensitivity['trials'] = TRIALS) =>
  sensitivityText({ scenario: 'invented', trials, assumptions });

describe('the sensitivity as text', () => {
  it('says how things stand, what moves them, by trial, and how to know it', () => {
    const text = textOf([CAPACITANCE]);
    expect(text.replace(/\s+/g, ' ')).toContain('4 failed nights (short 6.50 h) of 730.');
    expect(text).toMatch(/^ {2}1 the capacitor's capacitance +12 +4 +1$/m);
    expect(text).toContain(
      "\n1 The capacitor's capacitance (capacitor.capacitance_F, from a generic part)\n",
    );
    expect(text).toContain(
      '12 failed nights at 320 F, 4 at 360 F as assumed, 1 at 400 F; short 20.3, 6.50, 0.400 h',
    );
    expect(text).toContain('single on lawn 7, 4, 1; double on lawn 5, 0, cannot be');
    expect(text).toContain('to know it: discharge (a resistor, a stopwatch)');
    expect(text).toContain('it shows 25.3 min at 320 F, 28.4 min at 360 F, 31.6 min at 400 F');
  });

  it('leaves out an end that is what is assumed, and the trials where there is one', () => {
    const text = textOf([DIRT], TRIALS.slice(0, 1));
    expect(text).toContain('hangs on (single on lawn)');
    expect(text).toContain('\n  5 failed nights at 0.1, 4 at 0 as assumed; short');
    expect(text).not.toContain('double on lawn');
  });

  it('tells a table by its middle row, and an angle that was judged by how far it is off', () => {
    expect(textOf([DRIVER])).toContain('5 failed nights at 0.7 (2 V), 4 at 0.8 as assumed');
    expect(textOf([SKYLINE])).toContain('5 failed nights at +5 deg, 4 as stated, 4 at -5 deg');
  });

  it('tells five at most, and none that moves nothing', () => {
    const six = textOf([
      CAPACITANCE,
      DIRT,
      DRIVER,
      SKYLINE,
      { ...DIRT, key: 'albedo' },
      { ...DIRT, key: 'sky_model' },
    ]);
    expect(six).toContain('\n5 What the ground reflects');
    expect(six).not.toContain('\n6 ');
    expect(six).toContain('The other 1 move less; --json has them all.');
    expect(textOf([STILL])).toContain('None of them by itself moves a failed night or a short hour.');
  });

  it('keeps to 100 columns', () => {
    const lines = textOf([CAPACITANCE, DIRT, DRIVER, SKYLINE]).split('\n');
    expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(100);
  });
});
