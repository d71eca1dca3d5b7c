import type { Measured } from './measure.ts';
import { significant } from './significant.ts';
import { byTopic, statusWords, verdictWord } from './truthWords.ts';

/** Markdown for the README: a line a topic, then every fact that is only reported. */
export function truthReadme(all: readonly Measured[]): string {
  const gated = all.filter(({ truth }) => truth.reportOnly !== true);
  const facts = all.filter(({ truth }) => truth.reportOnly === true);
  const lines = [
    '| against | cases | hold | worst, as a share of its tolerance |',
    '|---|---|---|---|',
    ...byTopic(gated).map(([topic, cases]) => {
      const worst = cases.reduce((most, one) => (shareOf(one) > shareOf(most) ? one : most));
      const held = cases.filter(({ holds }) => holds).length;
      const { what, tolerance, unit } = worst.truth;
      return `| ${cell(topic)} | ${cases.length} | ${held} | ${share(shareOf(worst))} of ${amount(tolerance, unit, 2)}: ${cell(what)} |`;
    }),
    '',
  ];
  if (facts.length > 0) {
    lines.push(
      'Facts that are reported, not gated. A miss stays a miss:',
      '',
      '| what | expected | got | | rests on |',
      '|---|---|---|---|---|',
      ...facts.map((one) => {
        const { what, unit, expected, tolerance } = one.truth;
        const band = `${significant(expected - tolerance, 4)} to ${amount(expected + tolerance, unit, 4)}`;
        return `| ${cell(what)} | ${band} | ${significant(one.got, 3)} | ${verdictWord(one)} | ${statusWords(one.truth)} |`;
      }),
      '',
    );
  }
  return `${lines.join('\n')}`;
}

function shareOf({ off, truth }: Measured): number {
  return Math.abs(off) / truth.tolerance;
}

function share(value: number): string {
  return value < 0.005 ? '0.00' : value.toFixed(2);
}

function amount(value: number, unit: string, digits: number): string {
  return `${significant(value, digits)}${unit === '1' ? '' : ` ${unit}`}`;
}

function cell(words: string): string {
  return words.replaceAll('|', '\\|');
}
