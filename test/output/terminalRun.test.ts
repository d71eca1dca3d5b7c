import { describe, expect, test } from 'vitest';
import { terminalRun } from '../../sim/output/terminalRun.ts';
import { nightStatistics } from '../../sim/statistics/overWinters.ts';
import type { Trial } from '../../sim/trial/Trial.ts';
import {
  brokenStatistics,
  darkNight,
  nightsFrom,
  smallMonth,
  smallNight,
  smallRun,
  smallStatistics,
  smallTrial,
} from './smallRun.ts';

/** A year's nights: five all but dark before Christmas, one a little dark and two dim around the 1st of December, none promised on 1 October. */
function winterNights(): Trial['nights'] {
  return nightsFrom('2025-07-01', 365, (night) => {
    if (night >= '2025-12-18' && night <= '2025-12-22') return darkNight(night, 5.25);
    if (night === '2025-11-30') return darkNight(night, 1);
    if (night === '2025-12-01') return darkNight(night, 2, 2);
    if (night === '2025-12-02') return darkNight(night, 4, 4);
    if (night === '2025-10-01') return smallNight(night, { outcome: 'nothing-promised', promised_h: 0 });
    return smallNight(night);
  });
}

const lawn = smallTrial({ nights: nightsFrom('2025-07-01', 365, (night) => smallNight(night)) });
const north = smallTrial({ spot: 'north-side', nights: winterNights(), statistics: brokenStatistics() });

/** The text with each run of blanks and line breaks as one blank: sentences may be broken anywhere. */
function flowing(text: string): string {
  return text.replace(/\s+/g, ' ');
}

const ESCAPE = String.fromCharCode(27);

describe('the verdict on the terminal', () => {
  test('says in a plain sentence that a promise is kept, and how close it was', () => {
    const text = flowing(terminalRun(smallRun([lawn]), false));
    expect(text).toContain('single on lawn keeps its promise every night (365 of 365).');
    expect(text).toContain('45 J above the cut-off, after the night of 21 December');
  });

  test('says on how many nights a promise is broken, the longest spell, the worst night and its cause', () => {
    const text = flowing(terminalRun(smallRun([lawn, north]), false));
    expect(text).toContain(
      'single on north-side breaks its promise on 23 of 365 nights: dim on 3, out on 20.',
    );
    expect(text).toContain(
      'Short by 61.2 h of the 2190 h promised, 10.5 h dim and 50.7 h out (still empty from the night before on 2, ' +
        'ran empty on 18).',
    );
    expect(text).toContain('Failed 5 nights in a row, 18 to 22 December, then 3 nights to recover.');
    // 19:10 UTC is 20:10 in Berlin in winter.
    expect(text).toContain(
      'Worst night 21 December: short from 20:10, 5.3 h, 1.0 h dim and 4.3 h out; the capacitor ran empty.',
    );
    expect(text).toContain('Darkest fortnight 12 to 25 December: 11 of 14 nights failed, 40.1 h short.');
  });

  test('of nights that are only dim says neither out nor why', () => {
    const [winter] = brokenStatistics().winters;
    const dim = { failedOut: 0, short_h: 10.5, out_h: 0, causes: { 'too-dim': 23 } };
    const worstNight = { night: '2025-12-21', short_h: 2, dim_h: 2, out_h: 0, cause: 'too-dim' };
    const statistics = { ...brokenStatistics(), winters: [{ ...winter!, ...dim, worstNight }] };
    const nights = nightsFrom('2025-07-01', 365, (night) => darkNight(night, 2, 2));
    const text = flowing(terminalRun(smallRun([smallTrial({ nights, statistics })]), false));
    expect(text).toContain('breaks its promise on 23 of 365 nights: dim on 23, out on none.');
    expect(text).toContain('Short by 10.5 h of the 2190 h promised, all of it dim. Failed');
    expect(text).toContain('Worst night 21 December: short from 20:10, 2.0 h, all of it dim.');
  });

  test('says why a spot is worse: its light in December beside that of the brightest spot of the same lamp', () => {
    const text = flowing(terminalRun(smallRun([lawn, north]), false));
    expect(text).toContain('In December the cell gets 61 Wh/m2 a day, 29 percent of the 210 on lawn');
    expect(text).toContain('stands at 1.31 V at dusk on average, on lawn at 2.05 V');
  });

  test('asks at its head of numbers that hardly anyone has', () => {
    const run = smallRun();
    const questions = ['capacitor.capacitance_F 3.5 F: ... Did you mean 350 F? [single]'];
    const text = terminalRun({ ...run, scenario: { ...run.scenario, questions } }, false);
    expect(text.split('\n').slice(4, 6)).toEqual([
      `? ${questions[0]}`,
      '1 value assumed, not stated: see "longnight check".',
    ]);
    expect(terminalRun(run, false)).not.toMatch(/^\?/m);
  });

  test('puts the sentences first, then the strip, then the tables, then the cautions', () => {
    const text = terminalRun(smallRun([lawn, north]), false);
    const places = ['keeps its promise', 'one character a night', 'by month', 'hundreds of amperes'].map(
      (part) => text.indexOf(part),
    );
    expect(places.every((place) => place > 0)).toBe(true);
    expect([...places].sort((one, other) => one - other)).toEqual(places);
  });

  test('names the threshold wherever it says lit, and shows the hours above a half and a fifth', () => {
    const text = terminalRun(smallRun([north]), false);
    expect(flowing(text)).toContain('at least 0.5 lm (that is what "lit" means below)');
    const [above = '', below = ''] = text
      .split('\n')
      .slice(text.split('\n').findIndex((l) => l.includes('lit h')));
    expect(above).toMatch(/lit h +h over +h over/);
    expect(below).toMatch(/>=0\.5 lm +1\/2 +1\/5/);
  });

  test('gives a row a month with failed nights, dim, out and lit hours, light on the cell and capacitor voltages', () => {
    const row = terminalRun(smallRun([north]), false)
      .split('\n')
      .find((line) => line.trim().startsWith('2025-12'));
    expect(row!.trim().split(/ +/)).toEqual([
      '2025-12',
      '31',
      '19',
      '8.2',
      '42.0',
      '135.8',
      '124.0',
      '180.0',
      '61',
      '350',
      '1.31',
      '1.40',
      '1.20',
    ]);
  });

  test('draws one character a night, told apart without colour, from October to March', () => {
    const lines = terminalRun(smallRun([north]), false).split('\n');
    const strip = (month: string) => lines.find((line) => line.startsWith(`  ${month}  `))!.slice(7);
    expect(strip('Oct')).toBe(`-${'·'.repeat(30)}`);
    expect(strip('Nov')).toBe(`${'·'.repeat(29)}▄`);
    expect(strip('Dec')).toBe(`░▒${'·'.repeat(15)}${'█'.repeat(5)}${'·'.repeat(9)}`);
    expect(strip('Feb')).toHaveLength(28);
    const months = lines
      .filter((line) => /^ {2}[A-Z][a-z]{2} {2}[·░▄█-]/.test(line))
      .map((line) => line.slice(2, 5));
    expect(months).toEqual(['Oct', 'Nov', 'Dec', 'Jan', 'Feb', 'Mar']);
    const legend = lines
      .slice(
        0,
        lines.findIndex((line) => line.startsWith('  Oct')),
      )
      .join(' ');
    for (const glyph of ['·', '░', '▒', '▄', '█', '-']) expect(legend).toContain(`  ${glyph} `);
  });

  test('draws April to September south of the equator and compares spots in June', () => {
    const southern = smallTrial({
      nights: nightsFrom('2025-01-01', 365, (night) => smallNight(night, { winter: '2025' })),
      statistics: smallStatistics({ winter: '2025' }, [
        smallMonth('2025-06', { lightOnCell_Wh_m2_day: 150 }),
        smallMonth('2025-12', { lightOnCell_Wh_m2_day: 4000 }),
      ]),
    });
    const text = terminalRun(smallRun([southern], -42), false);
    expect(flowing(text)).toContain('In June the cell gets 150 Wh/m2 a day');
    const months = text.split('\n').filter((line) => /^ {2}[A-Z][a-z]{2} {2}[·▄█-]/.test(line));
    expect(months.map((line) => line.slice(2, 5))).toEqual(['Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep']);
  });

  test('gives no verdict without a whole winter, nor where nothing is promised', () => {
    const part = smallStatistics({ complete: false, nights: 14, failedNights: 3, failedOut: 1, short_h: 4 });
    const partly = smallTrial({ statistics: { ...part, verdict: 'no-whole-winter' } });
    expect(flowing(terminalRun(smallRun([partly]), false))).toContain(
      'single on lawn: no verdict, the record holds no whole winter, nor the dark months of one. In the part there is, 3 of 14 nights failed: dim on 2, out on 1.',
    );
    const white = { ...smallStatistics({ nights: 0, smallestReserve_J: Number.NaN }, []) };
    const nothing = smallTrial({ nights: [], statistics: { ...white, verdict: 'nothing-promised' } });
    const text = terminalRun(smallRun([nothing]), false);
    expect(text).toContain('no night in this record in which anything is promised');
    expect(text).not.toContain('NaN');
  });

  describe('of several winters', () => {
    const [winter] = brokenStatistics().winters;
    const calm = { ...smallStatistics().winters[0]!, winter: '2024/25' };
    const stub = { ...calm, winter: '2023/24', complete: false, extent: 'part' as const, nights: 0 };
    const months = Array.from({ length: 24 }, (_, k) =>
      smallMonth(`20${24 + Math.floor(k / 12)}-${String(1 + (k % 12)).padStart(2, '0')}`),
    );
    const statistics = {
      ...brokenStatistics(),
      ...nightStatistics([stub, calm, winter!]),
      months,
    };
    const several = smallRun([smallTrial({ nights: winterNights(), statistics })]);

    test('tells what is typical and worst, and the chance that a winter is kept, then of the worst with years', () => {
      const text = flowing(terminalRun(several, false));
      expect(text).toContain(
        'single on lawn: about 11 or 12 failed nights in a typical winter, 23 in the worst of 2; keeps its promise in 1 of 2 winters, so in 12 to 88 of a hundred (Wilson, 90 percent).',
      );
      expect(text).toContain('Worst winter 2025/26, 23 of 365 nights: dim on 3, out on 20.');
      expect(text).not.toContain('in ten');
      expect(text).toContain('18 to 22 December 2025');
    });

    test('has a row a winter in place of months, and months too where details are asked for', () => {
      const rows = (text: string, row: RegExp) => text.split('\n').filter((line) => row.test(line));
      const short = terminalRun(several, false);
      expect(rows(short, /^ {2}20\d\d\/\d\d /)).toHaveLength(2);
      expect(rows(short, /^ {2}2025\/26 +23 /)).toHaveLength(1);
      expect(rows(short, /^ {2}20\d\d-\d\d /)).toHaveLength(0);
      const long = terminalRun(several, false, true);
      expect(rows(long, /^ {2}20\d\d\/\d\d /)).toHaveLength(2);
      expect(rows(long, /^ {2}20\d\d-\d\d /)).toHaveLength(24);
      for (const line of long.split('\n')) expect(line.length).toBeLessThanOrEqual(100);
    });

    test('names a break in the record and what counts', () => {
      const options = {
        break: 'the brightest day of December has a clearness of 0.30',
        counted: 'from 2010-07-01 on alone',
      };
      const weather = { ...several.weather, options };
      expect(flowing(terminalRun({ ...several, weather }, false))).toContain(
        'A BREAK IN THE RECORD, the brightest day of December has a clearness of 0.30. Counted: from 2010-07-01 on alone.',
      );
    });
  });

  test('shows the flags of a trial with it, and those of every trial once', () => {
    const rated = 'CAPACITOR ABOVE ITS RATED 2.7 V for 12 h';
    const capped = 'in 235 h the weather had more direct sun';
    const trials = [
      { ...lawn, flags: [rated, capped] },
      { ...north, flags: [capped] },
    ];
    const text = flowing(terminalRun(smallRun(trials), false));
    expect(text.split(capped)).toHaveLength(2);
    expect(text.indexOf(rated)).toBeGreaterThan(text.indexOf('single on lawn'));
    expect(text.indexOf(rated)).toBeLessThan(text.indexOf('single on north-side'));
  });

  test('ends in the cautions, in two lines', () => {
    const lines = terminalRun(smallRun([lawn]), false)
      .trimEnd()
      .split('\n');
    expect(lines.at(-2)).toMatch(/amperes.*discharge.*rated/);
    expect(lines.at(-1)).toMatch(/stairs or exits.*rules/);
  });

  test('is at most 100 columns wide, even with long names and large numbers', () => {
    const long = { spot: `behind-${'very-'.repeat(9)}long-wall`, lamp: `lamp-${'with-'.repeat(9)}a-name` };
    const big = smallMonth('2025-12', {
      lightOnCell_Wh_m2_day: 12345.6,
      lit_h: 744,
      dim_h: 644.5,
      out_h: 100.5,
    });
    const trial = { ...north, ...long, statistics: { ...brokenStatistics(), months: [big] } };
    const text = terminalRun(
      smallRun([lawn, trial, { ...trial, flags: [`far ${'too '.repeat(60)}long`] }]),
      false,
    );
    for (const line of text.split('\n')) expect([...line].length, line).toBeLessThanOrEqual(100);
  });

  test('of a long record shows only the months with failed nights, and says how many are left out', () => {
    const months = ['2023', '2024'].flatMap((year) =>
      Array.from({ length: 12 }, (_, k) =>
        smallMonth(`${year}-${String(k + 1).padStart(2, '0')}`, { failedNights: k === 11 ? 4 : 0 }),
      ),
    );
    const trial = smallTrial({ statistics: { ...brokenStatistics(), months } });
    const text = terminalRun(smallRun([trial]), false);
    const rows = text.split('\n').filter((line) => /^ {2}\d{4}-\d\d /.test(line));
    expect(rows.map((row) => row.trim().slice(0, 7))).toEqual(['2023-12', '2024-12']);
    expect(text).toContain('22 months without a failed night are not shown');
  });

  test('says the same with and without colour', () => {
    const plain = terminalRun(smallRun([lawn, north]), false);
    const coloured = terminalRun(smallRun([lawn, north]), true);
    expect(plain).not.toContain(ESCAPE);
    expect(coloured).toContain(ESCAPE);
    expect(coloured.replaceAll(new RegExp(`${ESCAPE}\\[\\d+m`, 'g'), '')).toBe(plain);
  });
});
