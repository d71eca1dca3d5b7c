import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { terminalRun } from '../../sim/output/terminalRun.ts';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import { nightStatistics } from '../../sim/statistics/overWinters.ts';
import { runAll } from '../../sim/trial/runAll.ts';
import type { Change, Trial } from '../../sim/trial/Trial.ts';
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
import { nights, odds, winters } from './smallWinters.ts';

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
    const text = flowing(terminalRun(smallRun([lawn]), {}));
    expect(text).toContain('single on lawn keeps its promise every night (365 of 365).');
    expect(text).toContain('45 J above the cut-off, after the night of 21 December');
  });

  test('says on how many nights a promise is broken, the longest spell, the worst night and its cause', () => {
    const text = flowing(terminalRun(smallRun([lawn, north]), {}));
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
    const text = flowing(terminalRun(smallRun([smallTrial({ nights, statistics })]), {}));
    expect(text).toContain('breaks its promise on 23 of 365 nights: dim on 23, out on none.');
    expect(text).toContain('Short by 10.5 h of the 2190 h promised, all of it dim. Failed');
    expect(text).toContain('Worst night 21 December: short from 20:10, 2.0 h, all of it dim.');
  });

  test('says why a spot is worse: its light in December beside that of the brightest spot of the same lamp', () => {
    const text = flowing(terminalRun(smallRun([lawn, north]), { details: true }));
    expect(text).toContain('In December the cell gets 61 Wh/m2 a day, 29 percent of the 210 on lawn');
    expect(text).toContain('stands at 1.31 V at dusk on average, on lawn at 2.05 V');
    const short = flowing(terminalRun(smallRun([lawn, north]), {}));
    expect(short).toContain('Light on the cell in December, Wh/m2 a day: lawn 210, north-side 61.');
    expect(short).not.toContain('at dusk on average');
  });

  test('asks at its head of numbers that hardly anyone has', () => {
    const run = smallRun();
    const questions = ['capacitor.capacitance_F 3.5 F: ... Did you mean 350 F? [single]'];
    const text = terminalRun({ ...run, scenario: { ...run.scenario, questions } }, {});
    expect(text.split('\n').slice(3, 6)).toEqual([
      'assumed, not stated: see "longnight check".',
      `? ${questions[0]}`,
      '',
    ]);
    expect(terminalRun(run, {})).not.toMatch(/^\?/m);
  });

  test('puts the sentences first, then the strip, then, where details are asked for, the tables, then the cautions', () => {
    for (const details of [false, true]) {
      const text = terminalRun(smallRun([lawn, north]), { details });
      const parts = ['keeps its promise', 'breaks its promise', ': · kept; ', 'hundreds of amperes'];
      if (details) parts.splice(3, 0, 'by month');
      else expect(text).not.toContain('by month');
      const places = parts.map((part) => text.indexOf(part));
      expect(places.every((place) => place > 0)).toBe(true);
      expect([...places].sort((one, other) => one - other)).toEqual(places);
    }
  });

  test('explains the columns of the tables that are shown, and no others', () => {
    const months = terminalRun(smallRun([north]), { details: true });
    expect(months).toMatch(/ least\n.* V\n/);
    expect(flowing(months)).toContain('least V of all its nights.');
    expect(months).not.toContain('J left');
    const several = smallTrial({ nights, statistics: { ...smallStatistics(), winters, odds } });
    const both = terminalRun(smallRun([several]), { details: true });
    expect(both).toMatch(/ J\n.* left\n/);
    expect(flowing(both)).toContain(
      'J left: least energy above the cut-off in a morning. single on lawn, by month',
    );
  });

  test('tells trials that keep their promise first, one under the other, and what light and parts come to once for all', () => {
    const text = terminalRun(smallRun([north, lawn, { ...lawn, lamp: 'double' }]), {});
    const kept =
      /^single on lawn keeps .*\n {2}Least .*\ndouble on lawn keeps .*\n {2}Least .*\n\nsingle on north-side breaks/m;
    expect(text).toMatch(kept);
    expect(text.match(/Wh\/m2 a day/g)).toHaveLength(1);
  });

  test('tells the three changes that help most with what they cost, counts all, and lists them with details', () => {
    const change = (name: string, failedNights: number, effect: Change['effect'], cost = 0): Change => ({
      change: name,
      detail: `${name} instead`,
      failedNightsBefore: 23,
      failedNights,
      shortBefore_h: 61.2,
      short_h: 2 * failedNights,
      effect,
      cost,
    });
    const changes = [
      change('a capacitor', 0, 'mends', 7.5),
      change('a cell', 3, 'helps'),
      change('an inductor', 11, 'helps'),
      change('a fence', 12, 'helps'),
      change('a tilt', 40, 'worse'),
    ];
    const run = smallRun([{ ...north, changes }]);
    const lines = terminalRun(run, {}).split('\n');
    const from = lines.findIndex((line) => line.includes('after one change'));
    expect(lines.slice(from, from + 5)).toEqual([
      '  Failed nights left of 23 after one change, the best 3 of 5 (all: --details):',
      '    none: a capacitor (a capacitor instead; adds 7.50)',
      '       3: a cell (a cell instead)',
      '      11: an inductor (an inductor instead)',
      '',
    ]);
    const long = terminalRun(run, { details: true });
    expect(long).toContain('- a fence: 12 left');
    expect(long).toContain('- worse: a tilt (40)');
    const harmful = { ...north, changes: changes.slice(4) };
    expect(terminalRun(smallRun([harmful]), {})).toContain(
      'None of 1 single changes helps (each: --details).',
    );
    const many = Array.from({ length: 5 }, (_, k) => ({ ...north, changes, spot: `spot-${k}` }));
    expect(terminalRun(smallRun(many), {})).toContain('the best 2 of 5');
  });

  test('names the threshold wherever it says lit, and shows the hours above a half and a fifth', () => {
    const text = terminalRun(smallRun([north]), { details: true });
    expect(flowing(text)).toContain('at least 0.5 lm (that is what "lit" means below)');
    const [above = '', below = ''] = text
      .split('\n')
      .slice(text.split('\n').findIndex((l) => l.includes('lit h')));
    expect(above).toMatch(/lit h +h over +h over/);
    expect(below).toMatch(/>=0\.5 lm +1\/2 +1\/5/);
  });

  test('gives a row a month with failed nights, dim, out and lit hours, light on the cell and capacitor voltages', () => {
    const row = terminalRun(smallRun([north]), { details: true })
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
    const lines = terminalRun(smallRun([north]), { details: true }).split('\n');
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
    for (const glyph of ['·', '░', '▒', '▄', '█', '-']) expect(legend).toContain(` ${glyph} `);
  });

  test('without details draws only trials and months with a failed night, and explains only what it draws', () => {
    const text = terminalRun(smallRun([lawn, north]), {});
    const lines = text.split('\n');
    const from = lines.findIndex((line) => line.startsWith('Months with failed nights, '));
    expect(lines.slice(from, from + 2).join(' ')).toMatch(
      /: · kept; ░ dim; ▒ dim most of it; ▄ out; █ out, most of it short$/,
    );
    expect(lines.slice(from + 2, from + 6).map((line) => line.slice(0, 6).trim())).toEqual([
      '',
      'Nov',
      'Dec',
      '',
    ]);
    expect(lines[from + 2]!.trim()).toBe('single on north-side');
    expect(terminalRun(smallRun([lawn]), {})).not.toContain('·');
  });

  test('draws April to September south of the equator and compares spots in June', () => {
    const southern = smallTrial({
      nights: nightsFrom('2025-01-01', 365, (night) => smallNight(night, { winter: '2025' })),
      statistics: smallStatistics({ winter: '2025' }, [
        smallMonth('2025-06', { lightOnCell_Wh_m2_day: 150 }),
        smallMonth('2025-12', { lightOnCell_Wh_m2_day: 4000 }),
      ]),
    });
    const text = terminalRun(smallRun([southern], -42), { details: true });
    expect(flowing(text)).toContain('In June the cell gets 150 Wh/m2 a day');
    const months = text.split('\n').filter((line) => /^ {2}[A-Z][a-z]{2} {2}[·▄█-]/.test(line));
    expect(months.map((line) => line.slice(2, 5))).toEqual(['Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep']);
  });

  test('gives no verdict without a whole winter, nor where nothing is promised', () => {
    const part = smallStatistics({ complete: false, nights: 14, failedNights: 3, failedOut: 1, short_h: 4 });
    const partly = smallTrial({ statistics: { ...part, verdict: 'no-whole-winter' } });
    expect(flowing(terminalRun(smallRun([partly]), {}))).toContain(
      'single on lawn: no verdict, the record holds no whole winter, nor the dark months of one. In the part there is, 3 of 14 nights failed: dim on 2, out on 1.',
    );
    const white = { ...smallStatistics({ nights: 0, smallestReserve_J: Number.NaN }, []) };
    const nothing = smallTrial({ nights: [], statistics: { ...white, verdict: 'nothing-promised' } });
    const text = terminalRun(smallRun([nothing]), {});
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
      const text = flowing(terminalRun(several, {}));
      expect(text).toContain(
        'single on lawn: about 11 or 12 failed nights in a typical winter, 23 in the worst of 2; keeps its promise in 1 of 2 winters, so in 12 to 88 of a hundred (Wilson, 90 percent).',
      );
      expect(text).toContain('Worst winter 2025/26, 23 of 365 nights: dim on 3, out on 20.');
      expect(text).not.toContain('in ten');
      expect(text).toContain('18 to 22 December 2025');
    });

    test('has the failed nights of each winter, and where details are asked for its numbers and every month', () => {
      const rows = (text: string, row: RegExp) => text.split('\n').filter((line) => row.test(line));
      const short = terminalRun(several, {});
      expect(rows(short, /^ {2}20\d\d\/\d\d /)).toHaveLength(2);
      expect(rows(short, /^ {2}2025\/26 +23$/)).toHaveLength(1);
      expect(rows(short, /^ {2}20\d\d-\d\d /)).toHaveLength(0);
      const long = terminalRun(several, { details: true });
      expect(rows(long, /^ {2}20\d\d\/\d\d /)).toHaveLength(2);
      expect(rows(long, /^ {2}2025\/26 +23 /)).toHaveLength(1);
      expect(rows(long, /^ {2}20\d\d-\d\d /)).toHaveLength(24);
      for (const line of long.split('\n')) expect(line.length).toBeLessThanOrEqual(100);
    });

    test('names a break in the record and what counts', () => {
      const options = {
        break: 'the brightest day of December has a clearness of 0.30',
        counted: 'from 2010-07-01 on alone',
      };
      const weather = { ...several.weather, options };
      expect(flowing(terminalRun({ ...several, weather }, {}))).toContain(
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
    const text = flowing(terminalRun(smallRun(trials), {}));
    expect(text.split(capped)).toHaveLength(2);
    expect(text.indexOf(rated)).toBeGreaterThan(text.indexOf('single on lawn'));
    expect(text.indexOf(rated)).toBeLessThan(text.indexOf('single on north-side'));
  });

  test('ends in the cautions, in two lines', () => {
    const lines = terminalRun(smallRun([lawn]), {})
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
      {},
    );
    for (const line of text.split('\n')) expect([...line].length, line).toBeLessThanOrEqual(100);
  });

  test('of a long record shows only the winters with failed nights, and says how many are left out', () => {
    const calm = smallStatistics().winters[0]!;
    const [dark] = brokenStatistics().winters;
    const winters = Array.from({ length: 30 }, (_, k) => ({
      ...(k % 10 === 0 ? dark! : calm),
      winter: `${1990 + k}/${String((91 + k) % 100).padStart(2, '0')}`,
    }));
    const trial = smallTrial({ statistics: { ...brokenStatistics(), ...nightStatistics(winters) } });
    const text = terminalRun(smallRun([trial]), {});
    const rows = text.split('\n').filter((line) => /^ {2}\d{4}\/\d\d /.test(line));
    expect(rows.map((row) => row.trim().split(/ +/))).toEqual([
      ['1990/91', '23'],
      ['2000/01', '23'],
      ['2010/11', '23'],
    ]);
    expect(text).toContain('27 winters without a failed night are not shown');
  });

  test('says the demo in 45 lines, the two of its files with it', async () => {
    const file = fileURLToPath(new URL('../../scenarios/invented-garden.yaml', import.meta.url));
    const lines = terminalRun(await runAll(loadScenario(file)), {})
      .trimEnd()
      .split('\n');
    expect(lines.length).toBeLessThanOrEqual(43);
    for (const line of lines) expect(line.length).toBeLessThanOrEqual(100);
    for (const words of ['single on lawn breaks', 'double on north-side keeps', '! Every trial: ', 'Care: '])
      expect(lines.filter((line) => line.startsWith(words))).toHaveLength(1);
    expect(lines.filter((line) => line.includes('after one change, the best 3 of '))).toHaveLength(2);
  });

  test('says the same with and without colour', () => {
    const plain = terminalRun(smallRun([lawn, north]), {});
    const coloured = terminalRun(smallRun([lawn, north]), { colour: true });
    expect(plain).not.toContain(ESCAPE);
    expect(coloured).toContain(ESCAPE);
    expect(coloured.replaceAll(new RegExp(`${ESCAPE}\\[\\d+m`, 'g'), '')).toBe(plain);
  });
});
