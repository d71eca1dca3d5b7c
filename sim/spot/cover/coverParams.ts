import { atan2 } from '../../common/elementary/atan2.ts';
import type { Report } from '../../common/InputProblem.ts';
import type { CoverSection } from './schema.ts';

/** A cover of the parts library, with a word on where its values come from. */
export interface CoverPart
  extends Required<Pick<CoverSection, 'refractive_index' | 'absorption_per_m' | 'thickness_mm'>>,
    Partial<Pick<CoverSection, 'kind' | 'lid' | 'inner_width_mm' | 'cell_below_lid_mm'>> {
  note: string;
}

const SODA_LIME = { refractive_index: 1.526, absorption_per_m: 10 };

/** Covers of the parts library. */
export const COVER_PARTS: Readonly<Record<string, CoverPart>> = {
  'flat-lid': {
    ...SODA_LIME,
    thickness_mm: 2.5,
    note: 'generic, typical values of a clear soda-lime glass lid, from memory',
  },
  'glass-dome': {
    kind: 'dome',
    ...SODA_LIME,
    thickness_mm: 3,
    note: 'generic, a round dome of clear soda-lime glass, from memory',
  },
  'side-lit-jar': {
    kind: 'side-lit',
    ...SODA_LIME,
    thickness_mm: 2.5,
    lid: 'opaque',
    inner_width_mm: 80,
    cell_below_lid_mm: 60,
    note: 'generic, a preserving jar with an opaque lid, its cell inside, invented',
  },
  'clear-resin': {
    kind: 'resin',
    refractive_index: 1.5,
    absorption_per_m: 15,
    thickness_mm: 2,
    note: 'generic, clear casting resin, from memory',
  },
};

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
  // A part brings its kind along; 'flat' is what the schema fills in.
  const kind = section.kind === 'flat' ? (part?.kind ?? 'flat') : section.kind;
  if (kind === 'none') return 'none';
  const needed = (key: keyof CoverSection, found: number | undefined, expected: string, part: string) => {
    if (found !== undefined) return found;
    const fix = `add ${key}, or part: ${part}`;
    report({ code: 'SCENARIO_MISSING_KEY', path: [key], got: 'nothing', expected, fix });
    return Number.NaN;
  };
  const sheet = (key: 'refractive_index' | 'absorption_per_m' | 'thickness_mm') =>
    needed(
      key,
      (section.raw ?? section)[key] ?? part?.[key],
      'the value, a library part, or kind: none',
      'flat-lid',
    );
  const cover: CoverParams = {
    kind,
    refractiveIndex: sheet('refractive_index'),
    absorption_per_m: sheet('absorption_per_m'),
    thickness_m: sheet('thickness_mm') / 1000,
  };
  if (kind === 'side-lit') {
    const size = (key: 'inner_width_mm' | 'cell_below_lid_mm') =>
      needed(
        key,
        section[key] ?? part?.[key],
        'the inner width of the jar, and how far below its lid the cell lies',
        'side-lit-jar',
      );
    const half_mm = size('inner_width_mm') / 2;
    const from_deg = (atan2(size('cell_below_lid_mm'), half_mm) * 180) / Math.PI;
    cover.lid = { from_deg, clear: (section.lid ?? part?.lid) === 'clear' };
  }
  const numbers = [
    cover.refractiveIndex,
    cover.absorption_per_m,
    cover.thickness_m,
    cover.lid?.from_deg ?? 0,
  ];
  return numbers.some(Number.isNaN) ? undefined : cover;
}
