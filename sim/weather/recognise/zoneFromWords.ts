import { IANAZone } from 'luxon';
import type { ZoneClaim } from './DetectedFormat.ts';
import { shortened } from './shortened.ts';

/** Standard times that go by letters, minutes ahead of UTC; with their summer letters, a zone that keeps both. */
const LETTERS: readonly [pattern: RegExp, minutes: number, civil: string | undefined][] = [
  [/\b(CET|MEZ|MET)\s*(\/|-|and|und|or|oder)\s*(CEST|MESZ|MEST)\b/, 60, 'Europe/Berlin'],
  [/\b(EET)\s*(\/|-|and|or)\s*(EEST)\b/, 120, 'Europe/Helsinki'],
  [/\b(WET)\s*(\/|-|and|or)\s*(WEST)\b/, 0, 'Europe/Lisbon'],
  [/\b(GMT)\s*\/\s*(BST)\b/, 0, 'Europe/London'],
  [
    /\b(norsk|svensk|dansk) normal ?tid|mitteleurop\w+ (normal|winter|standard)?zeit|midden-europese tijd/i,
    60,
    undefined,
  ],
  [/\b(CET|MEZ|MET)\b/, 60, undefined],
  [/\bEET\b/, 120, undefined],
  [/\bWET\b/, 0, undefined],
  [/\bEST\b/, -300, undefined],
  [/\bCST\b/, -360, undefined],
  [/\bMST\b/, -420, undefined],
  [/\bPST\b/, -480, undefined],
  [/\bAKST\b/, -540, undefined],
  [/\bHST\b/, -600, undefined],
  [/\bJST\b/, 540, undefined],
  [/\bAEST\b/, 600, undefined],
];

const SOLAR =
  /\bWOZ\b|(true|apparent) (local )?solar|local apparent|wahre\w* (sonnen|orts)zeit|ware zonnetijd|sann soltid|sand soltid|aito aurinkoaika|temps solaire vrai|hora solar verdadera|tempo solare vero|hora solar verdadeira|prawdziwy czas sloneczny|pravy slunecni|\bTST\b|\(LAT\)|solar time|sonnenzeit|zonnetijd|soltid/i;
const OFFSET =
  /\b(?:UTC|GMT|UT|TUC?)\s*(?:\()?\s*([+\-−–])\s*(\d{1,2})(?::?([0-5]\d)|[.,](\d+))?(?:\s*h\b)?/i;
const UNIVERSAL =
  /(?<![a-z])(UTC|GMT|UT1?|TUC?|Zulu)(?![a-z+\-0-9]|[_ ]?offset)|universal time|universel|tiempo universal|tempo universale|czas uniwersalny|svetovy cas|světový čas|yleisaika|verdenstid|varldstid|världstid|weltzeit|wereldtijd/i;
const KEYED =
  /(time ?zone|utc ?offset|gmt ?offset|offset (from|to) (utc|gmt)|zeitzone|tijdzone|tidszon\w*|tidssone|tidszone|aikavyohyke|aikavyöhyke|fuseau( horaire)?|(huso|zona) horari[ao]|fuso( orario| hor[aá]rio)?|strefa( czasowa)?|casove pasmo|časové pásmo|\btz\b)[^\d+\-−\w]*(?:\((?:h|hours?)\))?[^\d+\-−\w]*(?<sign>[+\-−])?\s*(?<hours>\d{1,2})(?::?(?<minutes>[0-5]\d)|[.,](?<share>\d+))?(?!\d)/i;
const STANDARD =
  /(local )?standard time|normal ?time|normalzeit|winterzeit|wintertijd|winter ?time|normaltid|normaalaika|heure (normale|d'hiver)|hora (estandar|estándar|solar normal)|ora solare|\bLST\b/i;
const LOCAL =
  /local (civil |clock |legal )?time|\blocal\b|ortszeit|lokal(e|zeit|tid)|lokale? tij?d|plaatselijke tijd|paikallis\w*|heure (locale|legale|légale)|hora (local|legal|oficial)|ora (locale|legale)|czas (lokalny|miejscowy)|mistni cas|místní čas|summer ?time|daylight saving|sommerzeit|sommartid|zomertijd/i;

/**
 * What a text says about the zone of a file's clock.
 *
 * in: text; where it stands, for the report; standard_min, offset of standard time stated elsewhere
 * out: the claim, of kind 'unstated' where the text speaks of local time without saying which; undefined where it
 * says nothing
 */
export function zoneFromWords(text: string, where: string, standard_min?: number): ZoneClaim | undefined {
  const words = `"${shortened(text, 80)}" (${where})`;
  const named = /(?<![A-Za-z])([A-Z][A-Za-z]+\/[A-Z][A-Za-z_]+(?:\/[A-Z][A-Za-z_]+)?)(?![A-Za-z])/.exec(text);
  if (named !== null && IANAZone.isValidZone(named[1]!)) return { kind: 'civil', zone: named[1]!, words };

  // What stands first counts; at one place, the longer.
  const found: { at: number; length: number; claim: ZoneClaim }[] = [];
  const offset = OFFSET.exec(text);
  if (offset !== null) {
    const offset_min = minutesOf(offset[1], offset[2]!, offset[3], offset[4]);
    found.push({ at: offset.index, length: offset[0].length, claim: { kind: 'fixed', offset_min, words } });
  }
  const universal = UNIVERSAL.exec(text);
  if (universal !== null) {
    found.push({
      at: universal.index,
      length: universal[0].length,
      claim: { kind: 'fixed', offset_min: 0, words },
    });
  }
  for (const [pattern, offset_min, civil] of LETTERS) {
    const match = pattern.exec(text);
    if (match === null) continue;
    const claim: ZoneClaim =
      civil === undefined ? { kind: 'fixed', offset_min, words } : { kind: 'civil', zone: civil, words };
    found.push({ at: match.index, length: match[0].length, claim });
  }
  const solar = SOLAR.exec(text);
  if (solar !== null)
    found.push({ at: solar.index, length: solar[0].length, claim: { kind: 'solar', words } });
  const keyed = KEYED.exec(text);
  if (keyed !== null) {
    const { sign, hours, minutes, share } = keyed.groups!;
    const offset_min = minutesOf(sign, hours!, minutes, share);
    if (Math.abs(offset_min) <= 14 * 60) {
      found.push({ at: keyed.index, length: keyed[0].length, claim: { kind: 'fixed', offset_min, words } });
    }
  }
  found.sort((a, b) => a.at - b.at || b.length - a.length);
  if (found[0] !== undefined) return found[0].claim;
  if (STANDARD.test(text)) {
    return standard_min === undefined
      ? { kind: 'unstated', words: `standard time, not said of which zone: ${words}` }
      : { kind: 'fixed', offset_min: standard_min, words };
  }
  if (LOCAL.test(text)) return { kind: 'unstated', words: `local time, not said of which zone: ${words}` };
  return undefined;
}

function minutesOf(sign: string | undefined, hours: string, minutes = '0', share = '0'): number {
  const total = Number(hours) * 60 + Number(minutes) + Math.round(Number(`0.${share}`) * 60);
  return sign !== undefined && sign !== '+' ? -total : total;
}
