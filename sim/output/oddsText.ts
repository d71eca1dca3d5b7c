import { fixed } from '../common/csvText.ts';
import type { ScenarioOdds } from '../trial/OddsJobs.ts';
import type { TrialOdds } from '../trial/odds.ts';
import { BUILT_WORDS } from '../trial/partTolerances.ts';
import type { RunResult } from '../trial/Trial.ts';
import { keyWords } from './keyWords.ts';
import { ofHundred } from './oddsWords.ts';
import { type Look, type Paint, paint, type TextColumn, textTable } from './textTable.ts';

/** Odds of trials, whichever winter is shown. */
export type SaidOdds = Omit<ScenarioOdds, 'typicalWinter'>;

/**
 * What made winters say, for people: what they rest on, a row a trial, and what to make of the doubt.
 *
 * in: odds; style; interrupted, whether Ctrl-C ended the making of winters
 * out: lines of at most 100 characters
 */
export function oddsLines(odds: SaidOdds, style: Paint, interrupted = false): string[] {
  const { trials } = odds;
  const { winters } = trials[0]!;
  return [
    style.strong(`How likely: ${winters} made winters`),
    ...style.wrap(basisSentence(odds)),
    ...textTable(COLUMNS, trials, style.columns),
    ...style.wrap(rangeSentence(odds, interrupted)),
    ...trials.flatMap((trial) => style.wrap(doubtSentence(trial, odds), 2, 4)),
    ...trials.flatMap((trial) => style.wrap(batchSentence(trial), 2, 4)),
    ...style.wrap(builtSentence(odds), 2, 4),
  ];
}

/** What the ranges of made winters hold, and what they take as known. */
export function rangeSentence({ way, trials }: SaidOdds, interrupted = false): string {
  const doubt = interrupted
    ? 'without what was not run yet'
    : way === 'days-alike'
      ? 'doubt about the winters on file included'
      : `${trials[0]!.secondOpinion === undefined ? '' : 'both ways included, '}as far as the months are as stated`;
  return `keeps: of 100 winters, those without a failed night; failed: nights in a typical winter, in the worst of ten, on average; between: nine of ten such ranges hold the true number, ${doubt}.`;
}

/** What made winters rest on. */
export function basisSentence({ basis, asked }: Pick<ScenarioOdds, 'basis' | 'asked'>): string {
  const broken = asked === undefined ? '' : ` Interrupted: ${asked} were asked for.`;
  return `Winters that have not happened, made from ${basis}.${broken}`;
}

/** The odds of several runs, each under its name; '' where none were asked for. */
export function oddsOfRuns(runs: readonly RunResult[], look: Look = {}): string {
  const style = paint(look);
  return runs
    .flatMap(({ scenario, odds }) =>
      odds === undefined ? [] : [`${scenario.name}:`, ...oddsLines(odds, style), ''],
    )
    .map((line) => `${line}\n`)
    .join('');
}

const COLUMNS: TextColumn<TrialOdds>[] = [
  { heading: ['', ''], cell: ({ lamp, spot }) => `${lamp} on ${spot}` },
  { heading: ['keeps,', 'of 100'], cell: ({ keeps }) => hundredth(keeps.share) },
  { heading: ['', 'between'], cell: ({ keeps }) => ofHundred(keeps, '-') },
  { heading: ['failed,', 'typical'], cell: ({ failedNights }) => fixed(failedNights.typical, 0) },
  { heading: ['worst', 'in ten'], cell: ({ failedNights }) => fixed(failedNights.worstInTen, 0) },
  { heading: ['mean', ''], cell: ({ failedNights }) => fixed(failedNights.mean, 1) },
  {
    heading: ['', 'between'],
    cell: ({ failedNights }) => `${fixed(failedNights.meanLow, 1)}-${fixed(failedNights.meanHigh, 1)}`,
  },
  {
    heading: ['other:', 'keeps, mean'],
    cell: secondWords,
  },
];

/** What the second way of making winters says: of 100 winters kept, and failed nights on average. */
export function secondWords({ secondOpinion }: TrialOdds): string {
  return secondOpinion === undefined
    ? '-'
    : `${hundredth(secondOpinion.keeps)}, ${fixed(secondOpinion.failedNights, 1)}`;
}

/** A share in whole hundredths. */
export function hundredth(share: number): string {
  return String(Math.round(share * 100));
}

/** A range of chances wider than this decides little. */
const WIDE = 0.4;
/** Of a hundred, a difference of the two ways that is worth a word. */
const APART = 0.15;

/** What the doubt of a trial means for who must decide; '' where nothing need be said. */
export function doubtSentence(trial: TrialOdds, { way, learnedWinters }: SaidOdds): string {
  const { keeps, secondOpinion, learningShare, lamp, spot, winters } = trial;
  const ofRecord = way === 'days-alike';
  const apart = secondOpinion !== undefined && Math.abs(secondOpinion.keeps - keeps.share) > APART;
  const said: string[] = [];
  if (apart && !ofRecord)
    said.push(
      'the two distributions differ, and more made winters do not settle which is right; a record of five winters does',
    );
  else if (keeps.high - keeps.low > WIDE)
    said.push(
      learningShare <= 0.5
        ? `${winters} made winters leave too much to chance, make more`
        : `not enough winters ${ofRecord ? 'on file' : 'behind the months'} (${learnedWinters}) to decide`,
    );
  if (apart && ofRecord) said.push('the two ways of making winters differ: trust neither to the last winter');
  return said.length === 0 ? '' : `? ${lamp} on ${spot}: ${said.join('; ')}.`;
}

/** What built lamps differ by; '' where there are none. */
export function builtSentence({ trials }: SaidOdds): string {
  return trials[0]!.batch === undefined
    ? ''
    : `Built lamps differ by, all of it assumed: ${BUILT_WORDS.join('; ')}.`;
}

/** What a batch of built lamps comes to; '' where none was asked for. */
export function batchSentence({ batch, lamp, spot }: TrialOdds): string {
  if (batch === undefined) return '';
  const { lamps, breakTypical, breakWorstInTen, parts, weather, mostly } = batch;
  const counted = `Of ${lamps} lamps built as ${lamp} on ${spot}, ${fixed(breakTypical, 0)} break the promise in a typical winter, ${fixed(breakWorstInTen, 0)} in the worst of ten`;
  if (Number.isNaN(parts)) return `${counted}.`;
  const shares = `Of what differs, ${hundredth(parts)} percent lies in the parts, ${hundredth(weather)} in the winters, the rest in both together`;
  const sort =
    mostly === undefined
      ? 'no single part stands out'
      : `measure and sort by ${keyWords(mostly.key)}, which the failed nights follow most (rank correlation ${mostly.rankCorrelation.toFixed(2)})`;
  return `${counted}. ${shares}; ${sort}.`;
}
