import { overWinters } from '../statistics/overWinters.ts';
import type { RunResult } from '../trial/RunResult.ts';
import type { Trial } from '../trial/Trial.ts';
import { CAUTION_LINES } from './cautionLines.ts';
import { civilStamp } from './civilStamp.ts';
import { monthTable } from './monthTable.ts';
import { type Paint, paint } from './paint.ts';
import { plural } from './plural.ts';
import { promiseWords } from './promiseWords.ts';
import { verdictSentences } from './verdictSentences.ts';
import { winterStrip } from './winterStrip.ts';
import { wrapText } from './wrapText.ts';

/**
 * The verdict of a run for people: plain sentences first, then a strip of the winter and a table by month for each
 * trial, then cautions. At most 100 columns; reads the same without colour.
 *
 * in: run; colour, whether the terminal takes it
 * out: text, ending in a line break
 */
export function terminalRun(run: RunResult, colour: boolean): string {
  const { scenario, trials } = run;
  const style = paint(colour);
  const southern = scenario.site.latitude_deg < 0;
  const sharedFlags = flagsOfAll(trials);
  const civil = civilStamp(scenario.site.timeZone);
  const setting = { trials, southern, civil, paint: style, sharedFlags };
  const { worst } = overWinters(trials.flatMap((trial) => trial.statistics.winters));
  const lines = [
    ...beginning(run, style),
    ...trials.flatMap((trial) => ['', ...verdictSentences(trial, setting)]),
    '',
    ...sharedFlags.flatMap((flag) => wrapText(`! Every trial: ${flag}`, 0, 2)),
    ...(sharedFlags.length > 0 ? [''] : []),
    ...winterStrip(trials, worst?.winter ?? '', southern, style),
    ...trials.flatMap((trial) => [
      '',
      ...wrapText(`${trial.lamp} on ${trial.spot}, by month`).map(style.strong),
      ...monthTable(trial, scenario.promise.least_lumen),
    ]),
    '',
    ...wrapText(
      `dark, lit: promised hours below, and at or above, ${scenario.promise.least_lumen} lm. h over 1/2, 1/5: hours ` +
        'with more than half, and a fifth, of the light at switching on. Wh/m2: a day, on the cell, and on open level ground without a cover.',
    ),
    '',
    ...CAUTION_LINES.map(style.middling),
  ];
  return `${lines.join('\n')}\n`;
}

function beginning(run: RunResult, style: Paint): string[] {
  const { scenario, weather } = run;
  const count = (length: number, word: string) => `${length} ${plural(length, word)}`;
  const filled = weather.filled_hours === 0 ? '' : `, ${weather.filled_hours} of them filled or standing in`;
  const named = run.record === undefined ? '' : `${run.record.origin.file}, `;
  const notes = weatherNotes(weather.options);
  return [
    style.strong(
      `${scenario.name}: ${count(scenario.lamps.length, 'lamp')} in ${count(scenario.spots.length, 'spot')}`,
    ),
    ...wrapText(`Weather: ${named}${weather.hours} hours from ${weather.first_utc}${filled}.${notes}`),
    ...wrapText(promiseWords(scenario.promise)),
    ...wrapText(
      run.assumptions.length === 0
        ? ''
        : `${count(run.assumptions.length, 'value')} assumed, not stated: see "longnight check".`,
    ),
  ];
}

/** What must not be missed of how the weather was read. */
function weatherNotes(options: Record<string, string>): string {
  const air = options['air temperature'];
  const notes = [
    options.believe === undefined ? '' : `Stamps: ${options.clock ?? options.believe}.`,
    air?.startsWith('stand-in') ? `Air temperature is a ${air}.` : '',
    options['whole years'] === undefined || /the record whole/.test(options['whole years'])
      ? ''
      : `Of the file: ${options['whole years']}.`,
  ].filter((note) => note !== '');
  return notes.map((note) => ` ${note}`).join('');
}

/** Flags that more than one trial, and every one, carries. */
function flagsOfAll(trials: readonly Trial[]): string[] {
  const [first, ...others] = trials;
  if (first === undefined || others.length === 0) return [];
  return first.flags.filter((flag) => others.every((trial) => trial.flags.includes(flag)));
}
