import { wholeYearsIn } from '../common/time.ts';
import type { FilledColumns } from './gaps/fillGaps.ts';
import type { UsableStretch } from './gaps/usableStretch.ts';
import type { QualityReport } from './quality/examineQuality.ts';
import { FINDING_KINDS } from './quality/Finding.ts';
import { type HourlyColumns, IRRADIANCE_COLUMNS } from './WeatherRecord.ts';

/**
 * What was found in a file whose mapping is stated, its hours left as they stand but for the offsets of sensors, which
 * become 0: what an import would take as missing is named and kept, for the user says what the file holds.
 *
 * in: hourly, columns in which nothing impossible is left; examined, what the checks found in them
 * out: quality, with these columns; words, for the record's options
 */
export function keptAsStated(
  hourly: HourlyColumns,
  examined: QualityReport,
): { quality: QualityReport; words: Record<string, string> } {
  const columns = { ...hourly };
  const words: Record<string, string> = {};
  for (const name of IRRADIANCE_COLUMNS) {
    const values = hourly[name];
    if (values === undefined) continue;
    const isOffset = (value: number, i: number) => value < 0 || (value > 0 && examined.light.dark[i] === 1);
    const set = values.reduce((sum, value, i) => sum + (isOffset(value, i) ? 1 : 0), 0);
    columns[name] = values.map((value, i) => (isOffset(value, i) ? 0 : value));
    if (set > 0)
      words[`${name.slice(0, 3)} offsets`] = `${set} hours below zero, or above it at night, set to 0`;
  }
  const mended = examined.findings.filter(
    ({ effect }) => effect === 'taken as missing' || effect === 'column set aside',
  );
  const doubts = [...new Set(mended.map(({ kind }) => FINDING_KINDS[kind]))];
  if (doubts.length > 0) words['kept as stated'] = doubts.join('; ');
  const findings = examined.findings.map((finding) =>
    mended.includes(finding) ? { ...finding, effect: 'kept' as const } : finding,
  );
  const filledUpstream = new Uint8Array(hourly.count);
  return { quality: { ...examined, columns, findings, filledUpstream }, words };
}

/** A record whole, whatever its length. in: record, filled */
export function wholeRecord({ start_ms, count, filled }: FilledColumns): UsableStretch {
  return {
    from: 0,
    to: count,
    years: wholeYearsIn(start_ms, count),
    winters: [],
    filled_h: filled.reduce((sum, flag) => sum + flag, 0),
    leading_h: 0,
    trailing_h: 0,
    reason: 'the whole file, as the scenario states',
  };
}
