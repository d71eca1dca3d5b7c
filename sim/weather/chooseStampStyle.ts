import { parseStamp } from './parseStamp.ts';
import { STAMP_STYLES, type StampStyle } from './stampStyles.ts';

/** The styles that read most of a file's stamps, all equally many; and how many that is. */
export interface StampChoice {
  styles: StampStyle[];
  readable: number;
}

/**
 * The styles that fit a column of stamps best. More than one means that the file does not settle it
 * (day-month or month-day, where no day is above 12).
 *
 * in: texts, as they stand in the file
 * out: the best styles, likeliest first; none when no stamp can be read
 */
export function chooseStampStyle(texts: readonly string[]): StampChoice {
  let best: StampChoice = { styles: [], readable: 0 };
  for (const style of STAMP_STYLES) {
    let readable = 0;
    for (const text of texts) if (!Number.isNaN(parseStamp(text, style, 0))) readable++;
    if (readable > best.readable) best = { styles: [style], readable };
    else if (readable === best.readable && readable > 0) best.styles.push(style);
  }
  return best;
}
