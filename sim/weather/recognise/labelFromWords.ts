import type { LabelClaim, StampLabel } from './DetectedFormat.ts';
import { normaliseHeading } from './normaliseHeading.ts';
import { shortened } from './shortened.ts';

const HOUR = '(hours?|intervals?|periods?|steps?|time steps?|h)\\b';
/** On lower-case text without accents. The first that fits counts. Common practice, no source. */
const SENTENCES: readonly [pattern: RegExp, label: StampLabel][] = [
  [
    new RegExp(
      `(${HOUR}|time|stamp)s? ending\\b|end(s|ing)? of (the |each |its )?(measur\\w* |averag\\w* )?${HOUR}|at (the )?end of|mark(s|ing)? the end|\\bend(s|ing)? (the )?${HOUR}|${HOUR} end\\b`,
    ),
    'end',
  ],
  [
    new RegExp(
      `(preceding|previous|past|last|prior|foregoing) (${HOUR}|60 ?min\\w*|1 h\\w*|10 ?min\\w*)|${HOUR} (before|preceding|prior to) (the )?(stamp|time)`,
    ),
    'end',
  ],
  [
    new RegExp(
      `${HOUR} (beginning|starting)\\b|(beginning|start)s? of (the |each |its )?(measur\\w* |averag\\w* )?${HOUR}|at (the )?(start|beginning) of|mark(s|ing)? the (start|beginning)|(begin|start)(s|ning|ing)? (the )?${HOUR}|(following|next|subsequent) ${HOUR}|${HOUR} (after|following) (the )?(stamp|time)|${HOUR} start\\b`,
    ),
    'start',
  ],
  [
    new RegExp(
      `(middle|mid ?point|centre|center) of (the |each |its )?${HOUR}|centered|centred|mid-?(hour|interval|point)`,
    ),
    'middle',
  ],
  [
    /instantaneous|spot (value|sample|reading)|snapshot|momentan\w*|augenblick|ogenblik|oyeblikk|ojeblik|ogonblick|hetkellinen|hetkelli|instantane[aeo]|istantane|chwilow|okamzit/,
    'middle',
  ],
  [
    /(ende|schluss) (der|des|jeder|eines?) (stunde|intervall\w*|messintervall\w*|stunden\w*)|(stunden|intervall)ende|(vorangegangene|vorhergehende|letzte|vergangene|abgelaufene|vorige)\w* stunde|endet? die stunde/,
    'end',
  ],
  [
    /(beginn|anfang|start) (der|des|jeder) (stunde|intervalls?|messintervalls?)|(stunden|intervall)(beginn|anfang)|(folgende|nachste|kommende)n? stunde/,
    'start',
  ],
  [/mitte (der|des) (stunde|intervalls?)|(stunden|intervall)mitte/, 'middle'],
  [
    /(afgelopen|voorgaande|vorige|voorafgaande|laatste) (uur|interval)|einde van (het|de|elk) (uur|interval)/,
    'end',
  ],
  [/begin van (het|de|elk) (uur|interval)|(volgende|komende) uur/, 'start'],
  [
    /(foregaende|senaste|forra|forrige|foregaaende|foregaende|siste|sidste) time?(n|me|men)?|slutet? (av|af|pa) (timme|time|interval)|(slutten|utgangen) av (timen|intervall)/,
    'end',
  ],
  [
    /(borjan|begynnelsen|starten|begyndelsen) (av|af|pa) (timme|time|interval|hver)|(foljande|folgende|nasta|neste|naeste) tim/,
    'start',
  ],
  [/(edellis|edeltava|kuluneen|viime)\w* (tunn|tunti)|tunnin (lopus|loppu)/, 'end'],
  [/tunnin (alus|alku)|seuraava\w* tunn/, 'start'],
  [/heure (precedente|ecoulee|passee)|fin de (l )?(heure|intervalle|periode)|derniere heure/, 'end'],
  [/debut de (l )?(heure|intervalle|periode)|heure suivante/, 'start'],
  [
    /hora (anterior|precedente|previa|pasada)|(final|fin|fim) (de la|de|da|del) (hora|intervalo|periodo)|ultima hora/,
    'end',
  ],
  [
    /(inicio|comienzo|comeco) (de la|de|da|del|do) (hora|intervalo|periodo)|hora (siguiente|seguinte)/,
    'start',
  ],
  [/ora (precedente|passata|trascorsa)|fine (dell|della|del) ?(ora|intervallo|periodo)|ultima ora/, 'end'],
  [/inizio (dell|della|del) ?(ora|intervallo|periodo)|ora (successiva|seguente)/, 'start'],
  [/(poprzedni\w*|ostatni\w*|ubiegl\w*) godzin|koni?ec (godziny|przedzialu)/, 'end'],
  [/poczatek (godziny|przedzialu)|nastepn\w* godzin/, 'start'],
  [/(predchozi|minul|uplynul|posledni)\w* hodin|konec (hodiny|intervalu)/, 'end'],
  [/zacatek (hodiny|intervalu)|nasledujici hodin/, 'start'],
];

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
    if (to === from + 1 && n === to) return { label: 'end', words: `"${example[0]}" (${where})` };
    if (to === from + 1 && n === from) return { label: 'start', words: `"${example[0]}" (${where})` };
  }
  const flat = normaliseHeading(text);
  const found = SENTENCES.find(([pattern]) => pattern.test(flat));
  return found === undefined ? undefined : { label: found[1], words };
}

const TIME_WORDS =
  /^(date|time|datetime|timestamp|stamp|hour|utc|gmt|ut|datum|dato|data|fecha|hora|heure|ora|zeit|uhrzeit|stunde|uhr|tid|tijd|uur|timme|period|interval|local|czas|cas|aika|klo)$/;

/**
 * The same from the heading of the stamp column alone ('start_utc', 'Hour ending', 'bis').
 *
 * in: heading
 * out: the claim; undefined where the heading says nothing
 */
export function labelFromHeading(heading: string): LabelClaim | undefined {
  const words = `the heading "${heading.trim()}"`;
  const flat = normaliseHeading(heading);
  const whole = labelFromWords(heading, 'heading');
  if (whole?.label !== undefined) return { label: whole.label, words };
  // Small words count only where nothing but words of time stand beside them ('von', 'Zeit bis').
  const small = flat
    .split(' ')
    .filter((word) => !TIME_WORDS.test(word))
    .join(' ');
  if (
    /\b(start|starts|begin|begins|beginning|beginn|debut|inicio|inizio|poczatek|zacatek|alku|alkaa)\b/.test(
      flat,
    ) ||
    /^(from|von|van|fra|fran|de|da|du|od)$/.test(small)
  ) {
    return { label: 'start', words };
  }
  if (
    /\b(end|ends|ending|ende|slut|slutt|einde|fin|fine|fim|koniec|konec|loppu|he)\b/.test(flat) ||
    /^(to|bis|tot|til|till|a|ate|al|do|au)$/.test(small)
  ) {
    return { label: 'end', words };
  }
  if (/\b(mid|middle|midpoint|centre|center|mitte)\b/.test(flat)) return { label: 'middle', words };
  return undefined;
}
