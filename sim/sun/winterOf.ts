/**
 * Name of the winter a night belongs to: '2024/25' north of the equator (July to June), '2025' south of it
 * (January to December).
 *
 * in: eveningDate, civil date of the evening, 'YYYY-MM-DD'; latitude_deg, north positive
 * out: the name
 * @example winterOf('2024-12-21', 54); // => '2024/25'
 */
export function winterOf(eveningDate: string, latitude_deg: number): string {
  const year = Number(eveningDate.slice(0, 4));
  if (latitude_deg < 0) return String(year);
  const first = Number(eveningDate.slice(5, 7)) >= 7 ? year : year - 1;
  return `${first}/${String((first + 1) % 100).padStart(2, '0')}`;
}
