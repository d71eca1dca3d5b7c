import type { LifeSweep, ScenarioLives, TrialLife } from '../ageing/ScenarioLives.ts';
import { BAND_WORDS } from './bandWords.ts';
import {
  breakWords,
  cheapSentence,
  endSentence,
  extrapolationSentences,
  factHeading,
  factSentences,
  lifeState,
  lightSentence,
  renewalSentences,
  sealSentence,
  unpricedSentence,
} from './lifeSentences.ts';
import { someWinters, winterColumns } from './lifeTables.ts';
import { SWEPT, sweepColumns, sweepSentences } from './sweepWords.ts';
import { type Look, type Paint, paint, textTable } from './textTable.ts';
import { CAUTION_LINES, partialWords, plural } from './words.ts';

/**
 * The lives of a scenario's lamps for people: of each in which winter its promise first breaks, what ends it, what a new
 * part does and costs, light and its price, in details seal and some winters as a table; then what was swept, in details
 * facts of the trade and what was assumed.
 *
 * in: lives; sweeps, of its trials; look, of the terminal
 * out: text, ending in a line break
 */
export function lifeText(lives: ScenarioLives, sweeps: readonly LifeSweep[], look: Look = {}): string {
  const style = paint(look);
  const { trials, flags } = lives;
  const lines = [
    style.strong(
      `${lives.scenario}: ${lives.years === 1 ? 'one winter' : `${lives.years} winters`} of its lamps`,
    ),
    ...partialWords(lives)
      .flatMap((words) => style.wrap(words))
      .map(style.bad),
    ...style.wrap(`Weather of each winter: ${lives.weather}. ${BAND_WORDS}`),
    ...trials.flatMap((trial) => ['', ...trialLines(trial, lives, style)]),
    ...sweeps.flatMap((sweep) => ['', ...sweepLines(sweep, style)]),
    '',
    ...flags.flatMap((flag) => style.wrap(`! ${flag}`, 0, 2)),
    ...style.wrap(unpricedSentence(trials)),
    ...(style.details ? groundLines(lives, style) : style.wrap(moreWords(lives))),
    '',
    ...CAUTION_LINES.flatMap((words) => style.wrap(words)).map(style.middling),
  ];
  return `${lines.join('\n')}\n`;
}

/** What is left to --details. */
function moreWords({ assumptions }: ScenarioLives): string {
  return `With --details: winter by winter, the seal, a cheap lamp beside it, facts of the trade, and ${assumptions.length} ${plural(assumptions.length, 'assumption')}.`;
}

/** Facts of the trade, and what was assumed. */
function groundLines({ trials, assumptions }: ScenarioLives, style: Paint): string[] {
  const [first] = trials;
  const items = (sentences: readonly string[]) =>
    sentences.flatMap((words) => style.wrap(`- ${words}`, 2, 4));
  return [
    ...(first === undefined ? [] : [...style.wrap(factHeading(first)), ...items(factSentences(first))]),
    ...(assumptions.length === 0 ? [] : ['', 'Assumed:', ...items(assumptions)]),
  ];
}

const EMPHASIS = { kept: 'good', breaks: 'middling', new: 'bad' } as const;

function trialLines(trial: TrialLife, lives: ScenarioLives, style: Paint): string[] {
  const sentences = [
    endSentence(trial),
    ...renewalSentences(trial, lives),
    lightSentence(trial, lives),
    ...(style.details ? [cheapSentence(trial, lives), sealSentence(trial)] : []),
  ];
  return [
    ...style
      .wrap(`${trial.lamp} on ${trial.spot}${breakWords(trial, lives.years)}.`)
      .map(style[EMPHASIS[lifeState(trial)]]),
    ...sentences.flatMap((words) => style.wrap(words, 2)),
    ...extrapolationSentences(trial).flatMap((words) => style.wrap(`! ${words}`, 2, 4)),
    ...(style.details ? textTable(winterColumns(lives.winters > 1), someWinters(trial), style.columns) : []),
  ];
}

function sweepLines(sweep: LifeSweep, style: Paint): string[] {
  const { what, lamp, spot, variants } = sweep;
  return [
    ...style.wrap(`${lamp} on ${spot}, by ${SWEPT[what]}: light now against winters`).map(style.strong),
    ...textTable(sweepColumns(sweep), variants, style.columns),
    ...sweepSentences(sweep).flatMap((words) => style.wrap(words, 2)),
  ];
}
