import type { TextDocument } from '../common/document.ts';
import type { Problem } from '../common/InputProblem.ts';
import type { SchemaProblem } from './unknownKey.ts';

/**
 * A problem with its place in the file.
 *
 * in: problem; written, the document and the file's name in messages; above, steps of the problem's path that lie above
 *   the file's root
 */
export function placedProblem(
  { code, path, got, expected, fix, meant }: SchemaProblem,
  { document, file }: { document: TextDocument; file: string },
  above = 0,
): Problem {
  const within = path.slice(above);
  const ofKey = code === 'SCENARIO_UNKNOWN_KEY' || meant !== undefined;
  const place = ofKey ? document.placeOfKey(within) : document.placeOf(within);
  return {
    code,
    file,
    ...place,
    field: within.length === 0 ? undefined : within.join('.'),
    got,
    expected,
    fix: fix === undefined || /[.?!]$/.test(fix) ? fix : `${fix}.`,
  };
}
