import type { Complain } from '../../common/Complaint.ts';
import { nearestWord } from '../../common/nearestWord.ts';
import { COVER_PARTS } from './parts.ts';
import type { CoverSection } from './schema.ts';

/** One flat cover. */
export interface CoverParams {
  refractiveIndex: number;
  absorption_per_m: number;
  thickness_m: number;
}

/**
 * The cover as the optics take it, from the scenario's `cover`: raw values, or a part with the keys beside it winning.
 *
 * in: section, as the schema gives it, with or without the part's values merged in; complain, takes what cannot be
 * out: the cover, 'none' for a bare cell, or undefined after a complaint
 */
export function coverParams(section: CoverSection, complain: Complain): CoverParams | 'none' | undefined {
  if (section.kind === 'none') return 'none';
  const part = section.part === undefined ? undefined : COVER_PARTS[section.part];
  if (section.part !== undefined && part === undefined) {
    const known = Object.keys(COVER_PARTS);
    const near = nearestWord(section.part, known);
    complain({
      code: 'SCENARIO_UNKNOWN_PART',
      path: ['part'],
      got: section.part,
      expected: `a cover of the parts library: ${known.join(', ')}`,
      ...(near === undefined ? {} : { fix: `did you mean ${near}?` }),
    });
    return undefined;
  }
  const values = section.raw ?? section;
  const value = (key: 'refractive_index' | 'absorption_per_m' | 'thickness_mm'): number => {
    const found = values[key] ?? part?.[key];
    if (found !== undefined) return found;
    complain({
      code: 'SCENARIO_MISSING_KEY',
      path: [key],
      got: 'nothing',
      expected: 'the value, a library part, or kind: none',
      fix: `add ${key}, or part: flat-lid`,
    });
    return Number.NaN;
  };
  const cover: CoverParams = {
    refractiveIndex: value('refractive_index'),
    absorption_per_m: value('absorption_per_m'),
    thickness_m: value('thickness_mm') / 1000,
  };
  return Object.values(cover).some(Number.isNaN) ? undefined : cover;
}
