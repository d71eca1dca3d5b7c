import { columnTexts, type Layout } from './DetectedFormat.ts';
import { patternTable, QUANTITY_WORDS } from './quantityWords.ts';
import { unitFromWords } from './unitFromWords.ts';
import { normaliseHeading } from './words.ts';

/** A unit that is none of irradiance: as it is written, and what is measured in it. */
export interface ForeignUnit {
  written: string;
  what: 'voltage' | 'current' | 'share' | 'count' | 'photons' | 'power' | 'energy';
}

const UNITS_ELSE = patternTable<ForeignUnit['what'] | 'letter'>(`
  voltage  ^([mµμu]V|mv|([Mm]illi)?[Vv]olts?)$
  current  ^([mµμu]A|([Mm]illi)?[Aa]mp(ere)?s?)$
  share  ^(%|[Pp]ercent|[Pp]rozent|[Pp]rocent|pct)$
  count  ^([Rr]aw|RAW|adc|ADC|[Cc]ounts?|[Dd]igits?|[Rr]oh(wert)?)$
  photons  (?<![A-Za-z])[uµμ]mol
  letter  ^[VA]$
`);
/** Words that speak of the sun or of what a panel gives, and of no irradiance yet. */
const VAGUE = /\b(solar|sol|sun|sun ?light|sonnen?|power|energ\w+|leistung|flux|flow)\b/g;
const VAGUE_LIGHT = /\b(light|licht|level|intens\w*)\b/g;
const OF_A_PANEL = /\b(panel|cell|module?|zelle|\w*diode|volt\w*|current|strom)\b/;

/**
 * The unit that the words of a column state where it is none of irradiance: a voltage, a current, a share, a count; watts
 * and watt hours without an area beside words that speak of no radiation, which are what a panel gives. A letter alone
 * at the end of a name may be a name; raw irradiance is irradiance.
 *
 * in: layout; column, 0-based
 * out: undefined where a unit of irradiance is stated, or none
 */
export function foreignUnit(layout: Layout, column: number): ForeignUnit | undefined {
  const words = normaliseHeading(`${layout.headings[column] ?? ''} ${layout.legends[column] ?? ''}`);
  for (const { text, where } of columnTexts(layout, column)) {
    const stated = unitFromWords(text, 'ghi');
    if (stated !== undefined) {
      if (stated.bare === undefined || speaksOfRadiation(words.replace(VAGUE, ' '))) return undefined;
      return { written: stated.bare, what: stated.unit.includes('h') ? 'energy' : 'power' };
    }
    const foreign = foreignIn(text, words, where !== 'legend');
    if (foreign !== undefined) return foreign;
  }
  return undefined;
}

/** in: text; words of the column; isName, which may end with its unit: a sentence may end with any share. */
function foreignIn(text: string, words: string, isName: boolean): ForeignUnit | undefined {
  const whole = text.trim();
  const brackets = Array.from(whole.matchAll(/[[({]([^\])}]*)[\])}]/g), (match) => match[1]!.trim());
  const end = (isName && /[\s_,;:-]([^\s_,;:-]+)$/.exec(whole)?.[1]) || '';
  for (const written of [...brackets, whole, end]) {
    const [pattern, what] = UNITS_ELSE.find(([pattern]) => pattern.test(written)) ?? [];
    if (pattern === undefined || what === undefined) continue;
    const isRadiation = speaksOfRadiation(words.replace(VAGUE, ' ').replace(VAGUE_LIGHT, ' '));
    if (what === 'count' && isRadiation) continue;
    if (what !== 'letter') return { written: pattern.exec(written)![0], what };
    const isUnit = written !== end || OF_A_PANEL.test(words);
    if (isUnit) return { written, what: written === 'V' ? 'voltage' : 'current' };
  }
  return undefined;
}

function speaksOfRadiation(words: string): boolean {
  return QUANTITY_WORDS.ghi.yes.some(([pattern]) => pattern.test(words));
}
