import { InputProblem, type Problem } from '../../../sim/common/InputProblem.ts';
import { bytesSource } from '../../../sim/tables/TableSource.ts';
import type { NativeSeries } from '../../../sim/weather/read/NativeSeries.ts';
import { readRecognised } from '../../../sim/weather/read/readRecognised.ts';
import { type HourlyWithGaps, toHourly } from '../../../sim/weather/read/toHourly.ts';
import type { DetectedFormat } from '../../../sim/weather/recognise/DetectedFormat.ts';
import { type RecogniseOptions, recognise } from '../../../sim/weather/recognise/recognise.ts';

/** Everything a file gave. */
export interface ReadText {
  recognition: DetectedFormat;
  series: NativeSeries;
  hourly: HourlyWithGaps;
}

/** Recognises and reads files (texts or bytes), hours cut by the label the file states (the middle where it states none). */
export async function readText(
  files: readonly (string | Uint8Array)[],
  options: RecogniseOptions & { offset_min?: number } = {},
): Promise<ReadText> {
  const sources = files.map((file, i) =>
    bytesSource({
      name: `made-up-${i + 1}.csv`,
      bytes: typeof file === 'string' ? new TextEncoder().encode(file) : file,
    }),
  );
  const recognition = await recognise(sources, options);
  const longitude_deg = options.place?.longitude_deg ?? recognition.site.longitude_deg;
  const series = await readRecognised(sources, recognition, { longitude_deg });
  const step_min = (series.fileStep_s === 0 ? 0 : series.fileStep_s) / 60;
  const { label } = recognition.stamp.label;
  const byLabel = label === 'start' ? -step_min / 2 : label === 'end' ? step_min / 2 : 0;
  return { recognition, series, hourly: toHourly(series, options.offset_min ?? byLabel) };
}

/** The problems a promise is refused with; fails when it is not. */
export async function problemsOf(promise: Promise<unknown>): Promise<readonly Problem[]> {
  try {
    await promise;
  } catch (error) {
    if (error instanceof InputProblem) return error.problems;
    throw error;
  }
  throw new Error('no problem was found');
}
