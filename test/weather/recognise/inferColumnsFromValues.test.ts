import { expect, it } from 'vitest';
import { inferColumnsFromValues } from '../../../sim/weather/recognise/inferColumnsFromValues.ts';

const DAY_MS = 86_400_000;
const HOURS = 8760;
const wall_ms = Float64Array.from({ length: HOURS }, (_, i) => Date.UTC(2025, 0, 1) + (i * DAY_MS) / 24);

/** Tenths of a degree above zero that follow the seasons with a correlation, and for the rest a wave of a week. */
function slow(correlation: number): Float64Array {
  const rest = Math.sqrt(1 - correlation ** 2);
  return wall_ms.map((ms) => {
    const season = -Math.cos(((ms / DAY_MS - 20) / 365.2425) * 2 * Math.PI);
    return Math.round(300 + 100 * (correlation * season + rest * Math.sin((ms / DAY_MS / 7) * 2 * Math.PI)));
  });
}

// Whole tenths without frost score their correlation less 0.2: 0.30 is no air, 0.42 is.
it.each([
  [0.5, undefined],
  [0.62, 0],
])('a column of tenths that follows the seasons by %d is taken for air: %s', (correlation, column) => {
  const { judged } = inferColumnsFromValues([slow(correlation)], {
    wall_ms,
    step_s: 3600,
    latitude_deg: 50,
    offset_ms: 0,
  });
  expect(judged[0]?.column).toBe(column);
});
