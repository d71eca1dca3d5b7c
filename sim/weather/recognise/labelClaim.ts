import { columnTexts, type LabelClaim, type StampLabel } from './DetectedFormat.ts';
import { patternTable } from './quantityWords.ts';
import { normaliseHeading, shortened } from './words.ts';
import type { ClockTexts } from './zoneClaim.ts';

const HOUR = String.raw`(hours?|intervals?|periods?|steps?|time steps?|h)\b`;
/** On lower-case text without accents. The first that fits counts. Common practice, no source. */
const SENTENCES = patternTable<StampLabel>(String.raw`
  end  (${HOUR}|time|stamp)s? ending\b|end(s|ing)? of (the |each |its )?(measur\w* |averag\w* )?${HOUR}|at (the )?end of|mark(s|ing)? the end|\bend(s|ing)? (the )?${HOUR}|${HOUR} end\b
  end  (preceding|previous|past|last|prior|foregoing) (${HOUR}|60 ?min\w*|1 h\w*|10 ?min\w*)|${HOUR} (before|preceding|prior to) (the )?(stamp|time)
  start  ${HOUR} (beginning|starting)\b|(beginning|start)s? of (the |each |its )?(measur\w* |averag\w* )?${HOUR}|at (the )?(start|beginning) of|mark(s|ing)? the (start|beginning)|(begin|start)(s|ning|ing)? (the )?${HOUR}|(following|next|subsequent) ${HOUR}|${HOUR} (after|following) (the )?(stamp|time)|${HOUR} start\b
  middle  (middle|mid ?point|centre|center) of (the |each |its )?${HOUR}|centered|centred|mid-?(hour|interval|point)
  middle  instantaneous|spot (value|sample|reading)|snapshot|momentan\w*|augenblick|ogenblik|oyeblikk|ojeblik|ogonblick|hetkellinen|hetkelli|instantane[aeo]|istantane|chwilow|okamzit
  end  (ende|schluss) (der|des|jeder|eines?) (stunde|intervall\w*|messintervall\w*|stunden\w*)|(stunden|intervall)ende|(vorangegangene|vorhergehende|letzte|vergangene|abgelaufene|vorige)\w* stunde|endet? die stunde
  start  (beginn|anfang|start) (der|des|jeder) (stunde|intervalls?|messintervalls?)|(stunden|intervall)(beginn|anfang)|(folgende|nachste|kommende)n? stunde
  middle  mitte (der|des) (stunde|intervalls?)|(stunden|intervall)mitte
  end  (afgelopen|voorgaande|vorige|voorafgaande|laatste) (uur|interval)|einde van (het|de|elk) (uur|interval)
  start  begin van (het|de|elk) (uur|interval)|(volgende|komende) uur
  end  (foregaende|senaste|forra|forrige|foregaaende|foregaende|siste|sidste) time?(n|me|men)?|slutet? (av|af|pa) (timme|time|interval)|(slutten|utgangen) av (timen|intervall)
  start  (borjan|begynnelsen|starten|begyndelsen) (av|af|pa) (timme|time|interval|hver)|(foljande|folgende|nasta|neste|naeste) tim
  end  (edellis|edeltava|kuluneen|viime)\w* (tunn|tunti)|tunnin (lopus|loppu)
  start  tunnin (alus|alku)|seuraava\w* tunn
  end  heure (precedente|ecoulee|passee)|fin de (l )?(heure|intervalle|periode)|derniere heure
  start  debut de (l )?(heure|intervalle|periode)|heure suivante
  end  hora (anterior|precedente|previa|pasada)|(final|fin|fim) (de la|de|da|del) (hora|intervalo|periodo)|ultima hora
  start  (inicio|comienzo|comeco) (de la|de|da|del|do) (hora|intervalo|periodo)|hora (siguiente|seguinte)
  end  ora (precedente|passata|trascorsa)|fine (dell|della|del) ?(ora|intervallo|periodo)|ultima ora
  start  inizio (dell|della|del) ?(ora|intervallo|periodo)|ora (successiva|seguente)
  end  (poprzedni\w*|ostatni\w*|ubiegl\w*) godzin|koni?ec (godziny|przedzialu)
  start  poczatek (godziny|przedzialu)|nastepn\w* godzin
  end  (predchozi|minul|uplynul|posledni)\w* hodin|konec (hodiny|intervalu)
  start  zacatek (hodiny|intervalu)|nasledujici hodin
`);

/**
 * Which instant of its interval a stamp marks, as a sentence of the file says it; also read from an example
 * ('hour 5 runs from 4.00 to 5.00').
 *
 * in: text; where it stands, for the report
 * out: the claim; undefined where the text says nothing
 */
export function labelFromWords(text: string, where: string): LabelClaim | undefined {
  const words = `"${shortened(text, 80)}" (${where})`;
  const example =
    /(?<![\d.:])(\d{1,2})\b[^\d]{1,40}?\b(\d{1,2})[.:h]00\b[^\d]{1,20}\b(\d{1,2})[.:h]00\b/.exec(text);
  if (example !== null) {
    const [n, from, to] = example.slice(1).map(Number) as [number, number, number];
    if (to === from + 1 && (n === from || n === to))
      return { label: n === to ? 'end' : 'start', words: `"${example[0]}" (${where})` };
  }
  const flat = normaliseHeading(text);
  const found = SENTENCES.find(([pattern]) => pattern.test(flat));
  return found === undefined ? undefined : { label: found[1], words };
}

const TIME_ALONE =
  /^(date|time|datetime|timestamp|stamp|hour|utc|gmt|ut|datum|dato|data|fecha|hora|heure|ora|zeit|uhrzeit|stunde|uhr|tid|tijd|uur|timme|period|interval|local|czas|cas|aika|klo)$/;
/** Words of a heading anywhere in it; and small ones, where nothing but words of time stand beside them ('Zeit bis'). */
const HEADING_WORDS = patternTable<StampLabel>(String.raw`
  start  \b(starts?|begins?|beginning|beginn|debut|inicio|inizio|poczatek|zacatek|alku|alkaa)\b
  end  \b(ends?|ending|ende|slutt?|einde|fine?|fim|koniec|konec|loppu|he)\b
  middle  \b(mid|middle|midpoint|centre|center|mitte)\b
`);
const SMALL_WORDS = patternTable<StampLabel>(`
  start  ^(from|von|van|fra|fran|de|da|du|od)$
  end  ^(to|bis|tot|til|till|a|ate|al|do|au)$
`);

/**
 * The same from the heading of the stamp column alone ('start_utc', 'Hour ending', 'bis').
 *
 * in: heading
 * out: the claim; undefined where the heading says nothing
 */
export function labelFromHeading(heading: string): LabelClaim | undefined {
  const flat = normaliseHeading(heading);
  const small = flat
    .split(' ')
    .filter((word) => !TIME_ALONE.test(word))
    .join(' ');
  const label =
    labelFromWords(heading, 'heading')?.label ??
    (HEADING_WORDS.find(([pattern]) => pattern.test(flat)) ??
      SMALL_WORDS.find(([pattern]) => pattern.test(small)))?.[1];
  return label === undefined ? undefined : { label, words: `the heading "${heading.trim()}"` };
}

/**
 * Which instant of its interval a stamp marks: what the user says, else what the stamps, their headings, those of the
 * light or the preamble say.
 *
 * in: said, by the user; texts; light, its column
 * out: the claim
 */
export function labelClaim(
  said: StampLabel | undefined,
  { stamps, layout, general }: ClockTexts,
  light: number,
): LabelClaim {
  if (said !== undefined) return { label: said, words: 'stated by the user' };
  const { parts } = stamps.reading;
  if (parts.some(({ style, ranges }) => ranges === true || style === 'interval from/to')) {
    return { label: 'start', words: 'each stamp states its whole interval; its start is read' };
  }
  if (parts.some(({ hoursFromOne }) => hoursFromOne === true)) {
    return { label: 'end', words: 'minutes run to 60, so a stamp names the end' };
  }
  const ofColumn = (column: number) =>
    columnTexts(layout, column).map(({ text, where }) => labelFromWords(text, where));
  const claims = [
    ...parts.flatMap(({ column }) => [labelFromHeading(layout.headings[column] ?? ''), ...ofColumn(column)]),
    ...ofColumn(light),
    ...general.map((line) => labelFromWords(line, 'preamble')),
  ];
  return claims.find((claim) => claim !== undefined) ?? { words: 'the file does not say' };
}
