import { InputProblem } from '../../common/InputProblem.ts';
import { HOUR_MS, utcText } from '../../common/time.ts';
import { heldPart, type ShadingTrace } from '../SpotFiles.ts';
import type { Shading } from '../spotParams.ts';

/** A stretch of hours. */
interface Hours {
  start_ms: number;
  count: number;
}

/**
 * Share of all light that passes shading, without unit, by hour.
 *
 * in: shading; trace, what its file says, where it names one; hours
 * out: one share an hour, 0 to 1
 * throws: SPOT_PROFILE where the trace does not hold all hours
 */
export function shadingShares(
  shading: Shading | undefined,
  trace: ShadingTrace | undefined,
  hours: Hours,
): Float64Array {
  return shading !== undefined && 'file' in shading
    ? sharesOver(heldPart(trace, shading), shading, hours)
    : new Float64Array(hours.count).fill(shading?.factor ?? 1);
}

function sharesOver(
  { start_ms, share }: ShadingTrace,
  { file, stamp }: Extract<Shading, { file: string }>,
  hours: Hours,
): Float64Array {
  const offset = (hours.start_ms - start_ms) / HOUR_MS;
  if (Number.isInteger(offset) && offset >= 0 && offset + hours.count <= share.length)
    return share.slice(offset, offset + hours.count);
  const ends = (from_ms: number, count: number) =>
    `from ${utcText(from_ms)} to ${utcText(from_ms + count * HOUR_MS)}`;
  throw new InputProblem({
    code: 'SPOT_PROFILE',
    file,
    field: stamp.column,
    got: `hours ${ends(start_ms, share.length)}`,
    expected: `every hour of the weather, ${ends(hours.start_ms, hours.count)}`,
    fix: 'extend the trace, or give a fixed factor instead.',
  });
}
