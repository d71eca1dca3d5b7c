import { IANAZone } from 'luxon';
import { InputProblem } from '../../common/InputProblem.ts';
import { parseOffset, STANDARD_LETTERS } from '../../tables/stampStyles.ts';
import { columnTexts, type Layout, type ZoneClaim } from './DetectedFormat.ts';
import type { StampsFound } from './findStamps.ts';
import { patternTable } from './quantityWords.ts';
import type { SiteFound } from './readSite.ts';
import { normaliseHeading, shortened } from './words.ts';

/** Letters of standard and summer time, a zone that keeps both; words for one zone, minutes ahead of UTC. */
const WORDS = patternTable(String.raw`
  Europe/Berlin  \b(CET|MEZ|MET)\s*(/|-|and|und|or|oder)\s*(CEST|MESZ|MEST)\b
  Europe/Helsinki  \bEET\s*(/|-|and|or)\s*EEST\b
  Europe/Lisbon  \bWET\s*(/|-|and|or)\s*WEST\b
  Europe/London  \bGMT\s*/\s*BST\b
  60  ([Nn]orsk|[Ss]vensk|[Dd]ansk) [Nn]ormal ?tid|[Mm]itteleurop\w+ ([Nn]ormal|[Ww]inter|[Ss]tandard)?[Zz]eit|[Mm]idden-[Ee]uropese [Tt]ijd
`);

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

/** No zone is further from UTC, minutes. */
const MOST_MIN = 14 * 60;

/** Patterns that name a zone, and which one a match means: minutes ahead of UTC, or the name of one. */
const NAMINGS: readonly (readonly [pattern: RegExp, zone: (match: RegExpExecArray) => number | string])[] = [
  [OFFSET, ([, sign, hours, minutes, share]) => minutesOf(sign, hours!, minutes, share)],
  [UNIVERSAL, () => 0],
  ...WORDS.map(([pattern, zone]) => [pattern, () => (zone.includes('/') ? zone : Number(zone))] as const),
  [
    new RegExp(String.raw`\b(${Object.keys(STANDARD_LETTERS).join('|')})\b`),
    ([, letters]) => STANDARD_LETTERS[letters!]!,
  ],
  [SOLAR, () => 'solar'],
  [KEYED, ({ groups }) => minutesOf(groups!.sign, groups!.hours!, groups!.minutes, groups!.share)],
];

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
  const [first] = NAMINGS.flatMap(([pattern, zone]) => {
    const match = pattern.exec(text);
    return match === null ? [] : [{ at: match.index, length: match[0].length, zone: zone(match) }];
  })
    .filter(({ zone }) => typeof zone === 'string' || Math.abs(zone) <= MOST_MIN)
    .sort((a, b) => a.at - b.at || b.length - a.length);
  if (first !== undefined) {
    const { zone } = first;
    if (typeof zone === 'number') return { kind: 'fixed', offset_min: zone, words };
    return zone === 'solar' ? { kind: 'solar', words } : { kind: 'civil', zone, words };
  }
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

/** Where a file may speak of its clock. */
export interface ClockTexts {
  stamps: StampsFound;
  layout: Layout;
  rows: readonly string[][];
  /** Lines of the preamble, those that `generalLines` leaves. */
  general: readonly string[];
  place: SiteFound;
}

/**
 * Which zone the stamps keep: what the user says, else what the stamps, their headings, a column of its own or the
 * preamble say.
 *
 * in: said, by the user; texts
 * out: the claim
 * throws: SCENARIO_WRONG_TYPE where what the user says is no zone
 */
export function zoneClaim(said: string | undefined, texts: ClockTexts): ZoneClaim {
  const { stamps, layout, rows, general, place } = texts;
  if (said !== undefined) {
    const stated = statedZone(said, stamps.each);
    const own = stamps.each ? stated : zoneClaim(undefined, texts);
    const clock = (a: ZoneClaim) => [a.kind, 'offset_min' in a && a.offset_min, 'zone' in a && a.zone].join();
    const gainsaid = own.kind !== 'unstated' && clock(own) !== clock(stated);
    return gainsaid ? { ...stated, words: `${stated.words}, over what the file says: ${own.words}` } : stated;
  }
  const headings = stamps.reading.parts
    .flatMap(({ column }) => columnTexts(layout, column))
    .flatMap(({ text, where }) => [text, text.replaceAll('_', ' ')].map((words) => ({ text: words, where })));
  const lines = general
    // 'UT', 'MET' and 'EST' are other things as well: only where the line speaks of time.
    .filter((line) => TIME_WORDS.test(normaliseHeading(line)))
    .map((text) => ({ text, where: 'preamble' }));
  const claims = [...headings, { text: zoneColumn(layout, rows), where: 'a column of its own' }, ...lines]
    .map(({ text, where }) => zoneFromWords(text, where, place.standard_min))
    .filter((claim) => claim !== undefined);
  const [first, ...others] = [...ownZone(stamps), ...claims].filter(({ kind }) => kind !== 'unstated');
  if (first !== undefined) {
    const kept = others.length === 0 ? [] : offsetsOf(first, texts);
    const against = others.find((other) => {
      const named = offsetsOf(other, texts);
      return named.length > 0 && kept.length > 0 && !named.some((offset) => kept.includes(offset));
    });
    return against === undefined ? first : { ...first, against: against.words };
  }
  if (place.standard_min !== undefined) {
    return {
      kind: 'fixed',
      offset_min: place.standard_min,
      words: `the offset of ${place.standard_min / 60} h the preamble states (${place.words})`,
    };
  }
  return claims[0] ?? { kind: 'unstated', words: 'the file does not say' };
}

/** What the stamps themselves say. */
function ownZone({ each, reading }: StampsFound): ZoneClaim[] {
  if (each) return [{ kind: 'each', words: 'each stamp states its own offset' }];
  return reading.parts.some(({ part }) => part.startsWith('epoch'))
    ? [{ kind: 'fixed', offset_min: 0, words: 'seconds since 1970 count in UTC' }]
    : [];
}

const OFFSET_AFTER_TIME = /:\d\d(?:[:.,]\d+)*\s*(Z|(?:UTC|GMT)?[+\-−]\d{1,2}(?::?\d{2})?)\s*$/;

/** Minutes ahead of UTC that a claim gives some of the rows; none where it gives no number. */
function offsetsOf(claim: ZoneClaim, { stamps, rows }: ClockTexts): number[] {
  if (claim.kind === 'fixed') return [claim.offset_min];
  if (claim.kind === 'civil') {
    const rules = IANAZone.create(claim.zone);
    return Array.from(
      stamps.wall_ms.filter((ms) => !Number.isNaN(ms)),
      (ms) => rules.offset(ms),
    );
  }
  if (claim.kind !== 'each') return [];
  const texts = rows.flatMap((cells) => stamps.reading.parts.map(({ column }) => cells[column] ?? ''));
  const offsets = texts.map((text) => OFFSET_AFTER_TIME.exec(text)?.[1]).filter((text) => text !== undefined);
  return offsets.map((text) => (text === 'Z' ? 0 : parseOffset(text) / 60_000));
}

const TIME_WORDS =
  /\b(utc|gmt|tuc|mez|mesz|cet|cest|[a-z]*time\w*|time ?zone|[a-z]*zeit\w*|ti[dj]\w*|tijd\w*|[a-z]*tid\w*|clock|uhr\w*|uur\w*|klok\w*|stamp\w*|hour\w*|stunden?|timm\w*|tun\w+|aika\w*|heure\w*|hora\w*|ora|ore|orario|godzin\w*|czas\w*|cas\w*|hodin\w*|zona|huso|fuso|fuseau|dates?|europe|america|africa|asia|australia|atlantic|pacific|indian|etc)\b/;

const ZONE_HEADING =
  /^(time ?zone|tz|zeitzone|tijdzone|tidszon|tidssone|tidszone|aikavyohyke|fuseau|huso|fuso|strefa|zone|utc offset)/;

/** What a column of the rows says that is headed as a zone and says one thing throughout, '' where none does. */
function zoneColumn({ headings }: Layout, rows: readonly string[][]): string {
  const column = headings.findIndex((heading) => ZONE_HEADING.test(normaliseHeading(heading)));
  const [only = '', ...others] = new Set(column < 0 ? [] : rows.map((cells) => cells[column] ?? ''));
  if (others.length > 0) return '';
  return /^[+-]?\d/.test(only) ? `UTC${/^\d/.test(only) ? '+' : ''}${only}` : only;
}

function statedZone(text: string, over: boolean): ZoneClaim {
  const words = over ? 'stated by the user, over the offset each stamp states' : 'stated by the user';
  const offset_ms = parseOffset(text);
  if (!Number.isNaN(offset_ms)) return { kind: 'fixed', offset_min: offset_ms / 60_000, words, stated: true };
  if (/^(true )?solar( time)?$/i.test(text.trim())) return { kind: 'solar', words, stated: true };
  if (IANAZone.isValidZone(text.trim())) return { kind: 'civil', zone: text.trim(), words, stated: true };
  throw new InputProblem({
    code: 'SCENARIO_WRONG_TYPE',
    field: 'weather.zone',
    got: `"${text}"`,
    expected: 'UTC, a fixed offset such as +01:00, a zone such as Europe/Berlin, or solar',
    fix: '--zone +01:00 (in a scenario, weather.zone: +01:00), or the like.',
  });
}

/** Lines of the preamble that do not speak of one column alone. */
export function generalLines(preamble: readonly string[], layout: Layout): string[] {
  const names = new Set(layout.headings.filter((name) => name !== '').map((name) => name.toLowerCase()));
  return preamble.filter((line) => {
    if (line === layout.preamble[(layout.headingLine ?? 0) - 1]) return false;
    const named = /^[\s#%!*/-]*([^\s=:]{1,24})\s*(?:[=:]|\s-\s)/.exec(line);
    return named === null || !names.has(named[1]!.toLowerCase());
  });
}
