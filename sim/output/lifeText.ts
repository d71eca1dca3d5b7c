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
import { type Paint, paint, textTable, wrapText } from './textTable.ts';
import { CAUTION_LINES, partialWords } from './words.ts';

/** Lines are at most so long: narrower than those of other results, so that a life is read at a glance. */
const LONGEST = 80;

/**
 * The lives of a scenario's lamps for people: of each in which winter its promise first breaks, what ends it, what a new
 * part does and costs, light and its price, seal, and some winters as a table; then what was swept, facts of the trade
 * and what was assumed.
 *
 * in: lives; sweeps, of its trials; colour, whether the terminal takes it
 * out: text of at most 80 columns, ending in a line break
 */
export function lifeText(lives: ScenarioLives, sweeps: readonly LifeSweep[], colour: boolean): string {
  const style = paint(colour);
  const { trials, flags, assumptions } = lives;
  const [first] = trials;
  const lines = [
    style.strong(
      `${lives.scenario}: ${lives.years === 1 ? 'one winter' : `${lives.years} winters`} of its lamps`,
    ),
    ...partialWords(lives)
      .flatMap((words) => lifeLines(words))
      .map(style.bad),
    ...lifeLines(`Weather of each winter: ${lives.weather}. ${BAND_WORDS}`),
    ...trials.flatMap((trial) => ['', ...trialLines(trial, lives, style)]),
    ...sweeps.flatMap((sweep) => ['', ...sweepLines(sweep, style)]),
    '',
    ...flags.flatMap((flag) => lifeLines(`! ${flag}`, 0, 2)),
    ...lifeLines(unpricedSentence(trials)),
    ...(first === undefined
      ? []
      : [
          ...lifeLines(factHeading(first)),
          ...factSentences(first).flatMap((words) => lifeLines(`- ${words}`, 2, 4)),
        ]),
    ...(assumptions.length === 0 ? [] : ['', 'Assumed:']),
    ...assumptions.flatMap((words) => lifeLines(`- ${words}`, 2, 4)),
    '',
    ...CAUTION_LINES.flatMap((words) => lifeLines(words)).map(style.middling),
  ];
  return `${lines.join('\n')}\n`;
}

function lifeLines(words: string, indent = 0, hanging = indent): string[] {
  return wrapText(words, indent, hanging, LONGEST);
}

const EMPHASIS = { kept: 'good', breaks: 'middling', new: 'bad' } as const;

function trialLines(trial: TrialLife, lives: ScenarioLives, style: Paint): string[] {
  const sentences = [
    endSentence(trial),
    ...renewalSentences(trial, lives),
    lightSentence(trial, lives),
    cheapSentence(trial, lives),
    sealSentence(trial),
  ];
  return [
    ...lifeLines(`${trial.lamp} on ${trial.spot}${breakWords(trial, lives.years)}.`).map(
      style[EMPHASIS[lifeState(trial)]],
    ),
    ...sentences.flatMap((words) => lifeLines(words, 2)),
    ...extrapolationSentences(trial).flatMap((words) => lifeLines(`! ${words}`, 2, 4)),
    ...textTable(winterColumns(lives.winters > 1), someWinters(trial)),
  ];
}

function sweepLines(sweep: LifeSweep, style: Paint): string[] {
  const { what, lamp, spot, variants } = sweep;
  return [
    ...lifeLines(`${lamp} on ${spot}, by ${SWEPT[what]}: light now against winters`).map(style.strong),
    ...textTable(sweepColumns(sweep), variants),
    ...sweepSentences(sweep).flatMap((words) => lifeLines(words, 2)),
  ];
}
