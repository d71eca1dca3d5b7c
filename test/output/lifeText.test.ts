import { describe, expect, test } from 'vitest';
import { bandWords } from '../../sim/output/bandWords.ts';
import { lifeText } from '../../sim/output/lifeText.ts';
import { shortNumber } from '../../sim/output/words.ts';
import { smallLives, smallSweep, smallTrialLife } from './smallLives.ts';

/** The text with each run of blanks and line breaks as one blank. */
const flowing = (text: string) => text.replace(/\s+/g, ' ');

const text = lifeText(smallLives(), [], { details: true });
const said = flowing(text);

describe('the life of a lamp on the terminal', () => {
  test('says in which winter the promise first breaks, the middle factor and between which all lie', () => {
    expect(said).toContain('double on lawn: the promise first breaks in winter 15 (12 to 21).');
    expect(bandWords({ low: 12, middle: 15, high: 21 }, String)).toBe('15 (12 to 21)');
    expect(bandWords({ low: 3, middle: 3, high: 3 }, String, 'V')).toBe('3 V');
    // The ends with as many digits as the middle one.
    expect(bandWords({ low: 75.52, middle: 76.31, high: 112.4 }, shortNumber)).toBe('76.3 (75.5 to 112)');
  });

  test('says what ends it, and what each part that a factor names does and costs when it is new', () => {
    expect(said).toContain('What ends it: the capacitor (high: the LED).');
    expect(said).toContain(
      'Low, middle: a new capacitor (9.60 EUR) before winter 12, 15 keeps it until 20, 23.',
    );
    expect(said).toContain('High: a new LED (0.60 EUR) before winter 21 keeps it until 29.');
  });

  test('says what still fails where no new part keeps that winter', () => {
    const trial = smallTrialLife([12, 12, 12], { renewal: [] });
    const ends = trial.ends.map(
      (end) =>
        end && { ...end, withNew: [{ part: 'led' as const, failedNights: 3, keeps: false, breaks: 12 }] },
    );
    expect(flowing(lifeText(smallLives([{ ...trial, ends }]), [], { details: true }))).toContain(
      'with a new LED that winter still has 3 failed nights.',
    );
  });

  test('says where all parts wear together', () => {
    const trial = smallTrialLife();
    const ends = trial.ends.map((end) => end && { ...end, together: true });
    expect(flowing(lifeText(smallLives([{ ...trial, ends }]), [], { details: true }))).toContain(
      'What ends it: all wear together, the capacitor most (high: the LED).',
    );
  });

  test('says from where on it is an extrapolation beyond the rating', () => {
    expect(said).toContain(
      "! Past the capacitor's rating, an extrapolation: from winter 24 (low), 40 (middle).",
    );
    const trial = smallTrialLife();
    const bands = trial.bands.map((life) => ({ ...life, pastRating: undefined, beyondRating_h: 120 }));
    const told = flowing(lifeText(smallLives([{ ...trial, bands }]), [], { details: true }));
    expect(told).not.toContain('Past the');
    expect(told).toContain('! CAPACITOR BEYOND ITS RATED VOLTS OR DEGREES for 120 h of the first year');
  });

  test('a lid that is only to be cleaned is not bought', () => {
    const renewal = [
      { law: 'middle' as const, part: 'cover' as const, winter: 5, cost: 0, breaks: undefined },
    ];
    expect(
      flowing(lifeText(smallLives([smallTrialLife([5, 5, 5], { renewal })]), [], { details: true })),
    ).toContain('A clean lid before winter 5 keeps it until beyond 40.');
  });

  test('gives light and what a kilolumen-hour costs beside the cheap lamp, and the seal', () => {
    const [, middle] = smallTrialLife().totals;
    expect(said).toContain(`Light until it breaks: ${middle!.untilBreak_klm_h.toFixed(0)} klm h (`);
    expect(said).toContain(`a klm h costs ${middle!.cost_per_klm_h!.toFixed(3)} EUR (`);
    expect(said).toContain('with parts for 38.20 EUR.');
    expect(said).toContain(
      'A cheap lamp for 5.00 EUR, new every 2 winters: a klm h costs 0.214 EUR (468 klm h for 100.00 in all 40 winters).',
    );
    expect(said).toContain('Seal: jars still dry, 86 of 100 in winter 15, 67 of 100 in winter 40.');
  });

  test('tells no cost without a price, and of which lamps', () => {
    const free = flowing(
      lifeText(
        smallLives([
          smallTrialLife([12, 15, 21], {
            price: undefined,
            totals: smallTrialLife().totals.map((total) => ({ ...total, cost_per_klm_h: undefined })),
            cheapLamp: undefined,
          }),
        ]),
        [],
        { details: true },
      ),
    );
    expect(free).not.toContain('a klm h costs');
    expect(free).toContain('What light costs is not told of double: a part has no price.');
  });

  test('has a small table of winters with bands, of the first winter one number', () => {
    expect(text).toMatch(/^ {2}1 +100 +0 +11\.7$/m);
    expect(text).toMatch(/^ {2}20 +84 \(74 to 97\) +3 \(0 to 5\) +7\.4 \(6\.5 to 8\.5\)$/m);
  });

  test('of several winters of weather counts how many of a hundred break the promise', () => {
    expect(lifeText(smallLives([smallTrialLife()], { winters: 12 }), [], { details: true })).toMatch(
      /^ {2}20 .* 100 \(0 to 100\)$/m,
    );
  });

  test('is about ten lines a lamp, none wider than 100 columns', () => {
    const lines = text.split('\n');
    for (const line of lines) expect(line.length).toBeLessThanOrEqual(100);
    const from = lines.findIndex((line) => line.startsWith('double on lawn'));
    const to = lines.findIndex((line, k) => k > from && /^ +capacitance/.test(line));
    expect(to - from).toBeLessThanOrEqual(12);
  });

  test.each([
    [[undefined, undefined, undefined], 'double on lawn keeps its promise through all 40 winters.'],
    [
      [33, undefined, undefined],
      'double on lawn keeps its promise through all 40 winters; by the low factor it first breaks in winter 33.',
    ],
    [[30, 35, undefined], 'the promise first breaks in winter 35 (30 to beyond 40).'],
    [[1, 1, 1], 'double on lawn breaks its promise when new: 1 failed night of the first winter.'],
  ])('says how the promise stands the years: %j', (breaks, words) => {
    const told = flowing(lifeText(smallLives([smallTrialLife(breaks)]), [], { details: true }));
    expect(told).toContain(words);
    expect(told).not.toMatch(/NaN|undefined|Infinity/);
  });

  test('of one winter, and of a thousand, too', () => {
    expect(
      flowing(
        lifeText(smallLives([smallTrialLife([undefined, undefined, undefined], {}, 1)]), [], {
          details: true,
        }),
      ),
    ).toContain('keeps its promise through its one winter.');
    const thousand = lifeText(smallLives([smallTrialLife([12, 15, 21], {}, 1000)]), [], { details: true });
    expect(thousand).toMatch(/^ {2}1000 /m);
    expect(thousand).not.toMatch(/NaN|undefined|Infinity/);
  });

  test('tells facts of the trade with what each factor says, flags, and what was assumed at the end', () => {
    const flags = ['double on lawn: 120 h a year above the rated voltage: an extrapolation'];
    const told = flowing(lifeText(smallLives([smallTrialLife()], { flags }), [], { details: true }));
    expect(told).toContain(`! ${flags[0]}`);
    expect(told).toContain(
      '- From 2.7 to 2.2 V a bit more than twice the life: low 3.7 times; middle 5.7 times; high 32 times.',
    );
    expect(told.indexOf('Assumed: - the lid is cleaned each spring')).toBeGreaterThan(
      told.indexOf('Facts of the trade'),
    );
  });

  test('says first that it is in part', () => {
    const partial = { completeTrials: 1, allTrials: 4 };
    expect(flowing(lifeText(smallLives([smallTrialLife()], { partial }), [], { details: true }))).toContain(
      'IN PART: interrupted when 1 of 4 trials were complete',
    );
  });
});

describe('a sweep on the terminal', () => {
  const sweep = smallSweep();
  const lines = lifeText(smallLives(), [sweep], { details: true }).split('\n');

  test('has a row a value, the best marked, and says why a value cannot be', () => {
    expect(lines.find((line) => line.startsWith('  1.8 V'))).toMatch(/7\.20 +4 +22 \(17 to 28\)/);
    expect(lines.filter((line) => / best /.test(line))).toHaveLength(1);
    expect(
      lines.find((line) => line.startsWith(`  ${sweep.variants[sweep.best!]!.label} best`)),
    ).toBeDefined();
    expect(lines).toContain('  3 V cannot be: its capacitors are rated for 2.7 V.');
  });

  test('says where most light is until the promise breaks, and where most is in the first winter', () => {
    expect(flowing(lines.join('\n'))).toMatch(
      /Most light until the promise breaks at 2\.4 V, .* \(the middle factor decides\); most light in the first winter at 2\.6 V/,
    );
    const none = { ...sweep, best: undefined };
    expect(lifeText(smallLives(), [none], { details: true })).toContain(
      'No value keeps the promise for a winter: none is best.',
    );
  });
});
