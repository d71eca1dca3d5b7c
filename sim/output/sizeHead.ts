import type { Scenario } from '../scenario/Scenario.ts';
import { recordFacts } from '../trial/runAll.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';
import type { Paint } from './textTable.ts';
import { weatherWords } from './weatherWords.ts';
import { promiseWords } from './words.ts';

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
    ...style.wrap(`${scenario.name}: ${asked}`).map(style.strong),
    ...style.wrap(words),
    ...style.wrap(promiseWords(scenario.promise)),
    ...scenario.questions.flatMap((question) => style.wrap(`? ${question}`, 0, 2)).map(style.middling),
  ];
}
