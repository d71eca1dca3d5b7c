import type { StampPart } from '../../tables/stampReader.ts';

/** Words for the parts of a time stamp, on `normaliseHeading`; common practice, no source. */
export const STAMP_WORDS: readonly [pattern: RegExp, part: StampPart['part'] | 'date'][] = [
  [
    /day of (the )?year|\bdoy\b|\bjday\b|julian|tag (des jahres|im jahr)|dag (van het jaar|pa aret)|\bjul\b|day number|daynum|paivan?nro/,
    'day of year',
  ],
  [/hour of (the )?year|stunde (des jahres|im jahr)/, 'hour of year'],
  [/\bhhmm|\bhh mm\b|\btime hhmm/, 'hhmm'],
  [
    /\b(yyyy ?mm ?dd|yyyymmdd\w*|yymmdd|date|datum|dato|fecha|data|paiva|paivamaara|pvm|time ?stamp|datetime|date ?time|zeit\w*|zeitpunkt|tijdstip|tidpunkt|tidspunkt|horodat\w*|instant|czas|cas|when|logged|observed|observation time|valid time|period|interval|local time|utc|time utc|timestamp\w*|stamp|start|end|begin\w*|from|to|von|bis|tid|tijd|aika|temps|tiempo|tempo)\b/,
    'date',
  ],
  [/\b(year|jahr|jaar|ar|aar|vuosi|annee|an|ano|anno|rok|yyyy|yr|yy)\b/, 'year'],
  [/\b(month|monat|maand|manad|maned|kuukausi|kk|mois|mes|mese|miesiac|mesic|mo|mon|mm|mnth|mnd)\b/, 'month'],
  [/\b(day|tag|dag|paiva|pv|jour|dia|giorno|dzien|den|dd|dy|mday)\b/, 'day'],
  [
    /\b(minute|minutes|minuut|minuten|minut|minuter|minutter|minuutti|minuto|minuti|minuta|min|mn|mi)\b/,
    'minute',
  ],
  [
    /\b(second|seconds|sekunde|sekund|sekunti|seconde|segundo|secondo|sekunda|vterina|sec|ss|sek)\b/,
    'second',
  ],
  [
    /\b(hour|hours|hr|hrs|hh|h|stunde|uur|time|timme|kl|klokken|klokkeslett|tunti|klo|heure|heures|hora|ora|godzina|godz|hodina|std|uhrzeit|uhr|tid|tijd|aika|zeit)\b/,
    'hour',
  ],
];
