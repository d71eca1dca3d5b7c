import { nearestWord } from '../../common/hints.ts';
import type { Report } from '../../common/InputProblem.ts';
import { COVER_PARTS } from './parts.ts';
import type { CoverSection } from './schema.ts';

/** A clear sheet. */
export interface Glass {
  refractiveIndex: number;
  absorption_per_m: number;
  thickness_m: number;
}

/** What lies over the cell. */
export interface CoverParams extends Glass {
  kind: 'flat' | 'dome' | 'side-lit' | 'resin';
  /** Of a jar lit through its side: elevation above which light would come through the lid, and whether it does. */
  lid?: { from_deg: number; clear: boolean };
}

/**
 * The cover as the optics take it, from the scenario's `cover`: raw values, or a part with the keys beside it winning.
 *
 * in: section, as the schema gives it, with or without the part's values merged in; report, takes what cannot be
 * out: the cover, 'none' for a bare cell, or undefined after a problem
 */
export function coverParams(section: CoverSection, report: Report): CoverParams | 'none' | undefined {
  if (section.kind === 'none') return 'none';
  const part = section.part === undefined ? undefined : COVER_PARTS[section.part];
  if (section.part !== undefined && part === undefined) {
    const known = Object.keys(COVER_PARTS);
    const near = nearestWord(section.part, known);
    report({
      code: 'SCENARIO_UNKNOWN_PART',
      path: ['part'],
      got: section.part,
      expected: `a cover of the parts library: ${known.join(', ')}`,
      ...(near === undefined ? {} : { fix: `did you mean ${near}?` }),
    });
    return undefined;
  }
  // A part brings its kind along; 'flat' is what the schema fills in.
  const kind = section.kind === 'flat' ? (part?.kind ?? 'flat') : section.kind;
  if (kind === 'none') return 'none';
  const values = section.raw ?? section;
  const value = (key: 'refractive_index' | 'absorption_per_m' | 'thickness_mm'): number => {
    const found = values[key] ?? part?.[key];
    if (found !== undefined) return found;
    report({
      code: 'SCENARIO_MISSING_KEY',
      path: [key],
      got: 'nothing',
      expected: 'the value, a library part, or kind: none',
      fix: `add ${key}, or part: flat-lid`,
    });
    return Number.NaN;
  };
  const cover: CoverParams = {
    kind,
    refractiveIndex: value('refractive_index'),
    absorption_per_m: value('absorption_per_m'),
    thickness_m: value('thickness_mm') / 1000,
  };
  if (kind === 'side-lit') {
    const size = (key: 'inner_width_mm' | 'cell_below_lid_mm'): number => {
      const found = section[key] ?? part?.[key];
      if (found !== undefined) return found;
      report({
        code: 'SCENARIO_MISSING_KEY',
        path: [key],
        got: 'nothing',
        expected: 'the inner width of the jar, and how far below its lid the cell lies',
        fix: `add ${key}, or part: side-lit-jar`,
      });
      return Number.NaN;
    };
    const half_mm = size('inner_width_mm') / 2;
    const from_deg = (Math.atan2(size('cell_below_lid_mm'), half_mm) * 180) / Math.PI;
    cover.lid = { from_deg, clear: (section.lid ?? part?.lid) === 'clear' };
    if (Number.isNaN(from_deg)) return undefined;
  }
  const { refractiveIndex, absorption_per_m, thickness_m } = cover;
  return Number.isNaN(refractiveIndex + absorption_per_m + thickness_m) ? undefined : cover;
}
