import { fixed } from '../../common/csvText.ts';
import { CAUSE_WORDS } from '../causeWords.ts';
import { clockText } from './clockText.ts';
import type { FigureTable, TableColumn } from './Figure.ts';
import type { NightColumn } from './nightColumns.ts';

const COLUMNS: TableColumn[] = [
  { heading: 'night', label: 'evening of' },
  { heading: 'outcome', label: 'promise' },
  { heading: 'short_h', label: 'dark', unit: 'h' },
  { heading: 'cause', label: 'cause' },
  { heading: 'capacitor_dusk_V', label: 'capacitor at dusk', unit: 'V' },
  { heading: 'capacitor_dawn_V', label: 'capacitor at dawn', unit: 'V' },
  { heading: 'first_short_local', label: 'first dark' },
  { heading: 'lit_h', label: 'lit', unit: 'h' },
  { heading: 'beyond_promise_h', label: 'lit beyond the promise', unit: 'h' },
  { heading: 'dusk_local', label: 'dusk' },
  { heading: 'dawn_local', label: 'dawn' },
  { heading: 'light_on_cell_Wh_m2', label: 'light on the cell that day', unit: 'Wh/m2' },
];

/**
 * The data behind the night chart.
 * in: nights
 * out: a row a night
 */
export function nightTable(nights: readonly NightColumn[]): FigureTable {
  return {
    columns: COLUMNS,
    rows: nights.map(({ row, dusk_h, dawn_h, firstShort_h }) => [
      row.night,
      row.outcome === 'nothing-promised' ? 'nothing promised' : row.outcome,
      fixed(row.short_h, 2),
      row.cause === 'none' ? '' : CAUSE_WORDS[row.cause],
      fixed(row.capacitorDusk_V, 2),
      fixed(row.capacitorDawn_V, 2),
      clockText(firstShort_h),
      fixed(row.lit_h, 2),
      fixed(row.litBeyondPromise_h, 2),
      clockText(dusk_h),
      clockText(dawn_h),
      fixed(row.lightOnCell_Wh_m2, 0),
    ]),
  };
}
