import { describe, expect, test } from 'vitest';
import { winterCountsChart } from '../../../sim/output/figures/winterCountsChart.ts';
import { wintersChart } from '../../../sim/output/figures/wintersChart.ts';
import { winterOdds } from '../../../sim/statistics/WinterOdds.ts';
import { nights, odds, ten, whole, winters } from '../smallWinters.ts';

const pathOf = (svg: string, kind: string): string[] =>
  [...svg.matchAll(new RegExp(`<path class="${kind}" d="([^"]*)"`, 'g'))].map(([, d]) => d!);
const countOf = (paths: readonly string[]) => paths.join('').split('z').length - 1;

describe('the winters as rows', () => {
  const { svg, table, reader } = wintersChart('trial-1', 'a lamp', nights, winters, false, 'in words');

  test('have a row each with its name and its failed nights, kept nights as one mark', () => {
    expect(winters.length - whole.length).toBeLessThanOrEqual(2);
    for (const { winter } of whole) expect(svg).toContain(`>${winter}<`);
    // Of the two winters with a failed night two marks of kept ones, of the others one; failed ones are lit below.
    expect(countOf(pathOf(svg, 'dim'))).toBe(1);
    expect(countOf(pathOf(svg, 'hatched'))).toBe(1);
    expect(
      pathOf(svg, 'lit')
        .map((d) => countOf([d]))
        .toSorted(),
    ).toEqual(
      winters
        .filter((each) => each.complete || each.nights > 0)
        .map(({ failedNights }) => (failedNights > 0 ? 3 : 1))
        .toSorted(),
    );
  });

  test('have a place for each evening, 29 February empty where the year has none', () => {
    expect(table.rows).toHaveLength(366);
    expect(table.rows[0]![0]).toBe('07-01');
    const leap = table.rows.find(([evening]) => evening === '02-29')!;
    const column = (winter: string) => table.columns.findIndex(({ label }) => label === winter);
    expect([leap[column('2022/23')], leap[column('2023/24')]]).toEqual(['', '0.00']);
    expect(table.rows.find(([evening]) => evening === '12-20')![column('2023/24')]).toBe('2.00');
    expect(reader!.stops!.rows.map((row) => table.rows[row]![0])).toEqual(['12-20', '01-05']);
  });

  test('begin with January south of the equator', () => {
    const { table: southern } = wintersChart('trial-1', 'a lamp', nights, winters, true, 'in words');
    expect([southern.rows[0]![0], southern.rows.at(-1)![0]]).toEqual(['01-01', '12-31']);
  });
});

describe('the failed nights of winters', () => {
  test('stand from the best to the worst, with the typical one, and the worst in ten from ten winters on', () => {
    const { svg, table } = winterCountsChart('trial-1', 'a lamp', whole, odds, 'in words');
    expect(table.rows.map((row) => row[1])).toEqual(['0', '0', '1', '1']);
    expect(table.rows.at(-1)).toEqual(['2024/25', '1', '0', '2.00']);
    expect(svg).toContain('typical: 0 or 1');
    expect(svg).not.toContain('in ten');
    expect(winterCountsChart('trial-1', 'a lamp', ten, winterOdds(ten)!, '').svg).toContain(
      'worst winter in ten: about 9',
    );
  });
});
