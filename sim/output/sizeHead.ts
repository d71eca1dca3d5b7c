import type { Scenario } from '../scenario/Scenario.ts';
import { recordFacts } from '../trial/runAll.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';
import { type Paint, wrapText } from './textTable.ts';
import { weatherWords } from './weatherWords.ts';
import { promiseWords } from './words.ts';

/** Lines of what sizing says are at most so long. */
export const SIZE_COLUMNS = 80;

/** A paragraph of what sizing says. */
export function sizeLines(text: string, indent = 0, hanging = indent): string[] {
  return wrapText(text, indent, hanging, SIZE_COLUMNS);
}

/**
 * How the terminal texts of sizing begin: what was asked, under which weather, for which promise, and what to check.
 *
 * in: scenario; weather, undefined where the light was logged on the cells, or what else it rests on, in words; asked, in
 *   words; style
 */
export function sizeHead(
  scenario: Scenario,
  weather: WeatherRecord | string | undefined,
  asked: string,
  style: Paint,
): string[] {
  const record = weather ?? 'Weather: light logged on the cells.';
  const words = typeof record === 'string' ? record : weatherWords(recordFacts(record), record.origin.file);
  return [
    ...sizeLines(`${scenario.name}: ${asked}`).map(style.strong),
    ...sizeLines(words),
    ...sizeLines(promiseWords(scenario.promise)),
    ...scenario.questions.flatMap((question) => sizeLines(`? ${question}`, 0, 2)).map(style.middling),
  ];
}
