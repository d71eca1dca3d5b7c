/**
 * Which column each row takes, every column by one row at most, so that the costs add up to the least: one shortest
 * augmenting path a row. In whole numbers, so that it is exact.
 *
 * in: costs, a row of the table each; no more rows than columns
 * out: a column for each row; of several best ones always the same
 * source: JonkerVolgenant1987, of which only the augmenting is taken
 * @example leastAssignment([[4n, 1n], [2n, 3n]]); // => [1, 0]
 */
export function leastAssignment(costs: readonly (readonly bigint[])[]): number[] {
  const columns = costs[0]?.length ?? 0;
  // Prices of rows and columns: no cost is below the sum of its two, and where a row has its column it is that sum.
  const rowPrice = costs.map(() => 0n);
  const columnPrice = new Array<bigint>(columns).fill(0n);
  const rowOf = new Array<number>(columns).fill(NONE);
  for (const start of costs.keys()) {
    // Of each column: the least that a way to it costs beyond the prices, the column before it on that way, whether it is settled.
    const far = new Array<bigint | undefined>(columns).fill(undefined);
    const before = new Array<number>(columns).fill(NONE);
    const settled: number[] = [];
    let row = start;
    let column = NONE;
    let length = 0n;
    do {
      let next = NONE;
      for (let k = 0; k < columns; k++) {
        if (settled.includes(k)) continue;
        const way = length + costs[row]![k]! - rowPrice[row]! - columnPrice[k]!;
        const known = far[k];
        if (known === undefined || way < known) {
          far[k] = way;
          before[k] = column;
        }
        if (next === NONE || far[k]! < far[next]!) next = k;
      }
      column = next;
      length = far[column]!;
      settled.push(column);
      row = rowOf[column]!;
    } while (row !== NONE);
    rowPrice[start]! += length;
    for (const k of settled.slice(0, -1)) {
      const behind = length - far[k]!;
      rowPrice[rowOf[k]!]! += behind;
      columnPrice[k]! -= behind;
    }
    // Every row on the way moves on by one column.
    for (let k = column; k !== NONE; k = before[k]!)
      rowOf[k] = before[k] === NONE ? start : rowOf[before[k]!]!;
  }
  return costs.map((_, k) => rowOf.indexOf(k));
}

const NONE = -1;
