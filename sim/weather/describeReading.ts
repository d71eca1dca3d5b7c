import { DAYLIGHT_LM_W } from '../tables/units.ts';
import type { ClockTrust, ResolvedClock } from './clock/resolveClock.ts';
import { middleText } from './clock/stampReadings.ts';
import type { NativeSeries } from './read/NativeSeries.ts';
import {
  type ColumnChoice,
  DELIMITER_WORDS,
  type DetectedFormat,
  wideWords,
} from './recognise/DetectedFormat.ts';
import { isYearless } from './recognise/findStamps.ts';

/**
 * How a file was read, in words: layout, stamps, clock, columns and codes, and what the user insisted on.
 *
 * in: recognition; series; clock; said, by the user
 */
export function describeReading(
  recognition: DetectedFormat,
  series: NativeSeries,
  clock: ResolvedClock,
  said: { believe?: ClockTrust | undefined; acceptFilled?: boolean | undefined },
): Record<string, string> {
  const { stamp, columns, encoding, gzip, json } = recognition;
  const { layout } = recognition.files[0]!;
  const decimal = layout.decimal === ',' ? 'decimal commas' : 'decimal points';
  const heading =
    layout.headingLine === undefined ? 'no heading row' : `heading on line ${layout.headingLine}`;
  const step = stamp.irregular ? 'irregular times' : `steps of ${stamp.step_s} s`;
  const why = isYearless(stamp.parts) ? 'no year is stated' : 'months of different years';
  const laid = stamp.typicalYear ? `; ${why}, laid on 2001` : '';
  const options: Record<string, string> = {
    layout: `${encoding}${gzip ? ', gzip' : ''}, ${json ? 'JSON, laid out as a table' : `cut at ${DELIMITER_WORDS[layout.delimiter]}, ${decimal}, ${heading}, rows from line ${layout.firstDataLine}`}${wideWords(layout.wide)}`,
    stamp: `${stamp.style}; ${step}${stamp.descending ? ', newest first' : ''}${laid}`,
    zone: stamp.zone.words,
    marks: stamp.label.words,
    clock: `${clock.words}${clock.stretches.length > 0 ? '' : `; ${middleText(clock.offset_min)}`}`,
  };
  for (const choice of columns) options[choice.quantity.replaceAll('_', ' ')] = columnText(choice);
  const codes = Object.entries(series.missing).map(
    ([quantity, counts]) =>
      `${quantity.replaceAll('_', ' ')}: ${Object.entries(counts)
        .map(([code, count]) => `${code} (${count})`)
        .join(', ')}`,
  );
  options['missing codes'] = codes.join('; ') || 'none';
  if (said.believe === 'sun' || said.believe === 'file')
    options.believe = `the ${said.believe}, as the user states`;
  if (said.acceptFilled === true)
    options['accept filled'] = 'months of which much is filled, as the user states';
  return options;
}

function columnText({ heading, column, unit, reason, unitReason }: ColumnChoice): string {
  const name = heading === '' ? `column ${column + 1}` : `column "${heading}"`;
  const approximate = unit === 'lx' || unit === 'klx' ? ` at ${DAYLIGHT_LM_W} lm/W, good to 10 percent` : '';
  if (reason === unitReason) return `${name} in ${unit}${approximate}: ${reason}`;
  const fromHeading = reason === `the heading "${heading}"`;
  const unitFromHeading = unitReason.startsWith('the heading says');
  if (fromHeading && unitFromHeading) return `${name} in ${unit}${approximate}, as its heading says`;
  return `${name} in ${unit}${approximate}: ${fromHeading ? 'by its heading' : reason}; unit: ${unitFromHeading ? 'by its heading' : unitReason}`;
}
