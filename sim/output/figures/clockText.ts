/**
 * Hours after a midnight as the wall clock shows them.
 *
 * in: hours, from 0 on; NaN where it does not apply
 * out: 'HH:MM'; '' for NaN
 * @example clockText(25.5); // => '01:30'
 */
export function clockText(hours: number): string {
  if (Number.isNaN(hours)) return '';
  const minutes = ((Math.round(hours * 60) % 1440) + 1440) % 1440;
  return `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`;
}
