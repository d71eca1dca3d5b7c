import { HOUR_MS } from '../common/time.ts';
import { weatherView } from '../statistics/weatherView.ts';
import type { WeatherReport } from '../weather/importWeather.ts';
import { jsonText, published } from './json.ts';
import type { Program } from './program.ts';

/** Irradiance and shares of a picture need no more significant digits than these. */
const PICTURE_DIGITS = 4;

/**
 * The text of what `weather --json` prints, schema 1: how a file was read, what the sun says of its clock, what is
 * wrong with it, its light by month and year, and pictures of its years as numbers. Keys in a fixed order.
 *
 * in: report; program, what made it
 * out: JSON text, ending in LF
 */
export function weatherJson(report: WeatherReport, program: Program): string {
  const { recognition, quality, filled, stretch } = report;
  const view = weatherView(report);
  const { start_ms, count } = quality.columns;
  return jsonText(program, {
    files: report.files,
    site: report.site,
    options: report.options,
    doubts: recognition.doubts,
    clock: clockData(report),
    ...(published({ first_ms: start_ms, hours: count }) as object),
    missing: report.missing,
    findings: published(quality.findings),
    notes: report.notes,
    gaps: published({
      interpolated_h: filled.interpolated_h,
      fromWholeDays_h: filled.fromDays_h,
      absent_h: filled.absent_h,
      months: filled.months.map(({ month, state, filledDaylight_h, absentDaylight_h }) => ({
        month,
        state,
        filledDaylight_h,
        absentDaylight_h,
      })),
    }),
    stretch: published(
      'problem' in stretch
        ? undefined
        : {
            first_ms: start_ms + stretch.from * HOUR_MS,
            hours: stretch.to - stretch.from,
            years: stretch.years,
            winters: stretch.winters,
            filled_h: stretch.filled_h,
            reason: stretch.reason,
          },
    ),
    months: published(view.months),
    years: published(view.years),
    pictures: published(view.pictures, PICTURE_DIGITS),
  });
}

function clockData({ clock, clockCheck }: WeatherReport) {
  const { reading } = clockCheck;
  return published({
    offset_min: clock.offset_min,
    stretches: clock.stretches.map(({ from_ms, offset_min }) => ({ from_ms, offset_min })),
    words: clock.words,
    explainedBy: clock.choices,
    sun: {
      pattern: clockCheck.pattern,
      verdict: reading.verdict,
      offset_min: reading.offset_min,
      uncertainty_min: reading.uncertainty_min,
      daysUsed: clockCheck.daysUsed,
      evidence: clockCheck.evidence,
      place: clockCheck.site.verdict,
    },
  });
}
