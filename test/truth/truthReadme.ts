import { type Measured, sorted } from './measure.ts';
import { significant } from './significant.ts';
import { byTopic, statusCounts, statusLegend, verdictWord } from './truthWords.ts';

/** Markdown for test/truth/README.md: a line a topic, then every fact that is only reported and all that gives back an input. */
export function truthReadme(all: readonly Measured[]): string {
  const { gated, facts, inputs } = sorted(all);
  const lines = [
    '| against | cases | hold | resting on | worst, as a share of its tolerance |',
    '|---|---|---|---|---|',
    ...byTopic(gated).map(([topic, cases]) => {
      const worst = cases.reduce((most, one) => (shareOf(one) > shareOf(most) ? one : most));
      const held = cases.filter(({ holds }) => holds).length;
      const { what, tolerance, unit } = worst.truth;
      return `| ${cell(topic)} | ${cases.length} | ${held} | ${statusCounts(cases)} | ${share(shareOf(worst))} of ${amount(tolerance, unit, 2)}: ${cell(what)} |`;
    }),
    '',
    'What a value rests on:',
    '',
    ...statusLegend().map((line) => `- ${line}`),
    '',
  ];
  if (facts.length + inputs.length > 0) {
    lines.push(
      'Facts that are reported, not gated. A miss stays a miss. What gives back an input checks nothing:',
      '',
      '| what | expected | got | | rests on |',
      '|---|---|---|---|---|',
      ...[...facts, ...inputs].map((one) => {
        const { what, unit, expected, tolerance, source } = one.truth;
        const band = `${significant(expected - tolerance, 4)} to ${amount(expected + tolerance, unit, 4)}`;
        return `| ${cell(what)} | ${band} | ${significant(one.got, 3)} | ${verdictWord(one)} | ${cell(source)} |`;
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
