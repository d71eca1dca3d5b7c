import { range } from 'd3-array';
import type { Problem } from '../../common/InputProblem.ts';
import { HOUR_MS, utcText } from '../../common/time.ts';
import type { ColumnName, HourlyColumns } from '../WeatherRecord.ts';
import type { Stretch } from './stretchesOf.ts';

/** What a quality check can find, each with what it means. */
export const FINDING_KINDS = {
  impossible: 'values outside the physically possible',
  'extremely-rare': 'values outside the extremely rare limits',
  'sun-down': 'radiation while the sun is down',
  'night-offset': 'readings below zero, or a little above it in the dark',
  'range-end': 'light at exactly its highest value in many hours',
  'above-clear-sky': 'light well above that of the cleanest cloudless sky',
  'value-repeated': 'one value repeated for hours',
  'straight-line': 'a straight line through hours that no sun draws',
  'zero-hours': 'hours of zeros with the sun well up',
  'day-repeated': 'a day that stands in the record before, value for value',
  'day-drawn': 'days drawn from those around them',
  'not-closing': 'global, direct and diffuse irradiance that do not add up',
  drift: 'a year whose clear days stand apart from those of the others',
  'beyond-records': 'values beyond the records of the world',
  'air-spike': 'air temperatures that leap and come back within two hours',
  'air-repeated': 'one air temperature repeated for a day and more',
} as const;

export type FindingKind = keyof typeof FINDING_KINDS;

/**
 * What becomes of the hours: kept as they are, or as the user states; set to 0; taken as missing (NaN, for the gaps to
 * fill or to refuse); the column set aside; refused, where the whole file is in doubt.
 */
export type FindingEffect =
  | 'kept'
  | 'kept as stated'
  | 'set to 0'
  | 'taken as missing'
  | 'column set aside'
  | 'refused';

/** One thing a quality check found. */
export interface Finding {
  kind: FindingKind;
  /** Name of the column. */
  column: string;
  /** Start of the first hour, UTC milliseconds. */
  from_ms: number;
  /** End of the last hour, UTC milliseconds. */
  to_ms: number;
  /** Hours concerned; fewer than the span where they do not stand together. */
  hours: number;
  /** What shows it, in words. */
  evidence: string;
  effect: FindingEffect;
}

/**
 * Puts findings about some columns on a list, and does to their hours what becomes of them. Of a file whose mapping is
 * stated nothing is mended but the offsets of its sensors: what cannot be is refused, all else is kept.
 *
 * in: findings, the list that grows; columns, NaN missing, are written to; names, of those it is about; stated
 */
export function findingsAbout(
  findings: Finding[],
  columns: HourlyColumns,
  names: readonly ColumnName[],
  stated: boolean,
) {
  const column = names.join(', ');
  const timeOf = (i: number): number => columns.start_ms + i * HOUR_MS;
  const put = (said: Pick<Finding, 'kind' | 'evidence' | 'effect'>, hours: readonly number[]): void => {
    const effect = stated ? asStated(said.kind, said.effect) : said.effect;
    const [from_ms, to_ms] = [timeOf(hours[0]!), timeOf(hours.at(-1)! + 1)];
    findings.push({ ...said, column, from_ms, to_ms, hours: hours.length, effect });
    for (const name of names) {
      const values = columns[name]!;
      if (effect === 'column set aside') delete columns[name];
      if (effect === 'set to 0') for (const i of hours) values[i] = 0;
      if (effect === 'taken as missing') for (const i of hours) values[i] = Number.NaN;
    }
  };
  return {
    /** One finding for each stretch. */
    each<S extends Stretch>(
      kind: FindingKind,
      stretches: readonly S[],
      effect: FindingEffect,
      evidenceOf: (stretch: S) => string,
    ): void {
      // What shows one is written down before any is mended.
      const said = stretches.map((stretch) => ({ kind, evidence: evidenceOf(stretch), effect }));
      for (const [k, { from, to }] of stretches.entries()) put(said[k]!, range(from, to));
    },
    /** One finding for all flagged hours, from the first to the last; none where none is flagged. */
    together(kind: FindingKind, flags: Uint8Array, effect: FindingEffect, evidence: string): void {
      const hours = range(flags.length).filter((i) => flags[i] === 1);
      if (hours.length > 0) put({ kind, evidence, effect }, hours);
    },
  };
}
/** A writer of findings about some columns. */
export type FindingsAbout = ReturnType<typeof findingsAbout>;

const CANNOT_BE: readonly FindingKind[] = ['impossible', 'sun-down', 'beyond-records'];

function asStated(kind: FindingKind, effect: FindingEffect): FindingEffect {
  if (CANNOT_BE.includes(kind)) return 'refused';
  return effect === 'kept' || kind === 'night-offset' ? effect : 'kept as stated';
}

/**
 * Findings that put a whole file in doubt, as problems that can be thrown.
 *
 * in: file, name for messages; findings; more, what else is known of one: its line, what would mend it
 * out: a problem for each finding whose effect is 'refused': WEATHER_SUN_DOWN or WEATHER_VALUE_OUT_OF_RANGE
 */
export function problemsOfFindings(
  file: string,
  findings: readonly Finding[],
  more: (finding: Finding) => Partial<Problem> = () => ({}),
): Problem[] {
  return findings
    .filter((finding) => finding.effect === 'refused')
    .map((finding) => ({
      code: finding.kind === 'sun-down' ? 'WEATHER_SUN_DOWN' : 'WEATHER_VALUE_OUT_OF_RANGE',
      file,
      field: finding.column,
      got: `${finding.evidence} (${utcText(finding.from_ms)} to ${utcText(finding.to_ms)})`,
      expected:
        finding.kind === 'sun-down'
          ? 'no light while the sun is more than 6 degrees below the horizon'
          : 'values that the sun at this place can give',
      fix: 'is the clock right (--zone, --marks), the place (--place), the unit (--unit ghi=J/cm2 or the like; in a scenario, weather.columns.ghi.unit)?',
      ...more(finding),
    }));
}
