import { HOUR_MS } from '../common/time.ts';
import type { WeatherReport } from '../weather/importWeather.ts';
import { weatherView } from '../weather/weatherView.ts';
import type { Program } from './program.ts';
import { rounded } from './rounded.ts';

/**
 * The text of what `weather --json` prints, schema 1: how a file was read, what the sun says of its clock, what is
 * wrong with it, its light by month and year, and pictures of its years as numbers. Keys in a fixed order; null says
 * 'does not apply'.
 *
 * in: report; program, what made it
 * out: JSON text, two spaces of indent, ending in LF
 */
export function weatherJson(report: WeatherReport, program: Program): string {
  const { recognition, clock, clockCheck, quality, filled, years } = report;
  const { months, years: yearRows, pictures } = weatherView(report);
  const instant = (ms: number) => `${new Date(ms).toISOString().slice(0, 19)}Z`;
  const value = {
    schema: 1,
    longnight: program.version,
    node_major: program.nodeMajor,
    files: report.files,
    site: report.site,
    options: report.options,
    doubts: recognition.doubts,
    clock: {
      offset_min: rounded(clock.offset_min),
      stretches: clock.stretches.map(({ from_ms, offset_min }) => ({
        from_utc: instant(from_ms),
        offset_min,
      })),
      words: clock.words,
      explained_by: clock.choices,
      sun: {
        pattern: clockCheck.pattern,
        verdict: clockCheck.reading.verdict,
        offset_min: rounded(clockCheck.reading.offset_min),
        uncertainty_min: rounded(clockCheck.reading.uncertainty_min),
        days_used: clockCheck.daysUsed,
        evidence: Object.fromEntries(
          Object.entries(clockCheck.evidence).map(([name, x]) => [name, rounded(x)]),
        ),
        place: clockCheck.site.verdict,
      },
    },
    first_utc: instant(quality.columns.start_ms),
    hours: quality.columns.count,
    missing: report.missing,
    findings: quality.findings.map(({ kind, column, from_ms, to_ms, hours, evidence, effect }) => ({
      kind,
      column,
      from_utc: instant(from_ms),
      to_utc: instant(to_ms),
      hours,
      evidence,
      effect,
    })),
    notes: report.notes,
    gaps: {
      interpolated_h: filled.interpolated_h,
      from_whole_days_h: filled.fromDays_h,
      absent_h: filled.absent_h,
      months: filled.months.map(({ month, state, filledDaylight_h, absentDaylight_h }) => ({
        month,
        state,
        filled_daylight_h: filledDaylight_h,
        absent_daylight_h: absentDaylight_h,
      })),
    },
    whole_years:
      'problem' in years
        ? null
        : {
            first_utc: instant(quality.columns.start_ms + years.from * HOUR_MS),
            years: years.years,
            filled_h: years.filled_h,
            reason: years.reason,
          },
    months: months.map((row) => ({
      month: row.month,
      ghi_kWh_m2_day: rounded(row.ghi_kWh_m2_day),
      outside_kWh_m2_day: rounded(row.outside_kWh_m2_day),
      clearness: rounded(row.clearness),
      coverage: rounded(row.coverage),
      filled_h: row.filled_h,
      filled_upstream_h: row.filledUpstream_h,
    })),
    years: yearRows.map((row) => ({
      year: row.year,
      ghi_kWh_m2: rounded(row.ghi_kWh_m2),
      clearness: rounded(row.clearness),
      coverage: rounded(row.coverage),
      filled_h: row.filled_h,
    })),
    pictures: pictures.map((picture) => ({
      year: picture.year,
      column_days: picture.columnDays,
      row_hours: picture.rowHours,
      ghi_W_m2: picture.ghi_W_m2.map((row) => row.map((x) => (x === null ? null : rounded(x, 4)))),
      missing_share: picture.missingShare.map((row) => row.map((x) => rounded(x, 4))),
      filled_share: picture.filledShare.map((row) => row.map((x) => rounded(x, 4))),
    })),
  };
  return `${JSON.stringify(value, null, 2)}\n`;
}
