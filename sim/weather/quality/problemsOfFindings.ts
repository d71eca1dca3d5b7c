import type { Problem } from '../../common/InputProblem.ts';
import { utcText } from '../../common/time.ts';
import type { Finding } from './Finding.ts';

/**
 * Findings that put a whole file in doubt, as problems that can be thrown.
 *
 * in: file, name for messages; findings
 * out: a problem for each finding whose effect is 'refused': WEATHER_SUN_DOWN or WEATHER_VALUE_OUT_OF_RANGE
 */
export function problemsOfFindings(file: string, findings: readonly Finding[]): Problem[] {
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
    }));
}
