import { expect, test } from 'vitest';
import { monthColumns, NIGHT_COLUMNS } from '../../sim/output/columns.ts';
import { readmeSection } from '../readmeSection.ts';
import { columnsReadme } from './columnsReadme.ts';

test('sim/output/README.md shows the columns of the CSV files (if not: npm run columns -- --readme)', () => {
  expect(readmeSection('npm run columns')).toBe(columnsReadme());
});

test('columns bear the published name of their field, and its unit as people write it', () => {
  const light = NIGHT_COLUMNS.find(({ key }) => key === 'lightOnCell_Wh_m2');
  expect(light).toMatchObject({ heading: 'light_on_cell_Wh_m2', unit: 'Wh/m2' });
  const first = NIGHT_COLUMNS.find(({ key }) => key === 'firstShort_ms');
  expect(first).toMatchObject({ heading: 'first_short_local', unit: 'local time' });
  expect(NIGHT_COLUMNS.find(({ key }) => key === 'outcome')).toMatchObject({ unit: '' });
});

test('the months say from what light on the LED counts as lit', () => {
  const lit = monthColumns(0.5).find(({ key }) => key === 'lit_h');
  expect(lit).toMatchObject({ label: 'lit at 0.5 lm or more', unit: 'h', tight: ['lit h', '>=0.5 lm'] });
});
