/**
 * The rows of a winter in the order of the season: those of a year joined to itself begin with July (north of the
 * equator; with January south of it), so that spells run over its seam in whatever month it lies. Rows of any other
 * winter stand so already.
 *
 * in: winter, its name; rows, in the order of time, a civil date each; latitude_deg, north positive
 * out: the same rows
 */
export function inSeason<Row extends { night: string }>(
  winter: string,
  rows: readonly Row[],
  latitude_deg: number,
): readonly Row[] {
  if (!winter.endsWith('joined')) return rows;
  const begins = latitude_deg < 0 ? '01-01' : '07-01';
  const sinceBegin = rows.map((row) => {
    const day = row.night.slice(5);
    return day >= begins ? `0-${day}` : `1-${day}`;
  });
  const first = sinceBegin.findIndex((day, i) => i > 0 && day < sinceBegin[i - 1]!);
  return first < 0 ? rows : [...rows.slice(first), ...rows.slice(0, first)];
}
