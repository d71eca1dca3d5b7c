import type { DischargeReport } from '../fitting/fitDischarge.ts';
import { yamlLines } from './fitText.ts';
import { type Look, paint, textTable } from './textTable.ts';
import { CAUTION_LINES, capital, shortNumber } from './words.ts';

/**
 * What a discharge curve said of its capacitor, as text: values, how the file was read, and YAML to paste.
 *
 * in: report; look, of the terminal
 * out: text, ending in a line break
 */
export function dischargeText(report: DischargeReport, look: Look = {}): string {
  const style = paint(look);
  const { file, facts, capacitance_F, fall_s, series, delayed_share, words, notes, keys } = report;
  const by =
    facts.current_A === undefined
      ? `through ${shortNumber(facts.load_ohm!)} ohm`
      : `with a constant ${shortNumber(facts.current_A)} A`;
  const fall = `0.8 to 0.4 of the rated ${shortNumber(facts.rated_V)} V, in ${shortNumber(fall_s, 4)} s`;
  const rows: [string, string, string][] = [
    ['capacitance', `${shortNumber(capacitance_F, 4)} F`, fall],
    ...(series === undefined
      ? []
      : [
          [
            'series resistance',
            `${shortNumber(series.mohm)} mohm`,
            `first drop; ${shortNumber(series.low_mohm)} to ${shortNumber(series.high_mohm)} by noise and step`,
          ] as [string, string, string],
        ]),
    ...(delayed_share === undefined
      ? []
      : [
          ['delayed share', shortNumber(delayed_share, 2), 'recovery after the load was off'] as [
            string,
            string,
            string,
          ],
        ]),
  ];
  const lines = [
    ...style.wrap(`${file}: a discharge ${by}.`),
    '',
    ...CAUTION_LINES.flatMap((line) => style.wrap(line)),
    '',
    ...textTable(
      [
        { heading: ['', ''], cell: ([what]) => what },
        { heading: ['', 'found'], cell: ([, value]) => value },
        { heading: ['', 'from'], cell: ([, , from]) => from },
      ],
      rows,
      style.columns,
    ),
    '',
    ...words.flatMap((word) => style.wrap(`${word}.`, 2, 4)),
    ...notes.flatMap((note) => style.wrap(`${capital(note)}.`, 2, 4)),
    '',
    'To paste into a lamp; beside them goes the leakage, which a discharge does not show:',
    '',
    ...yamlLines({ capacitor: keys }),
  ];
  return `${lines.join('\n')}\n`;
}
