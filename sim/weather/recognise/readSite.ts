import type { Layout, SiteClaim } from './DetectedFormat.ts';
import { normaliseHeading } from './words.ts';

const LATITUDE =
  /\blat(itude|itud|itudine)?\b|breite\w*|breedte\w*|bredde\w*|leveys\w*|szerokosc|\bsirka\b|latituda/;
const LONGITUDE =
  /\blon(g|gitude|gitud|gitudine)?\b|\blng\b|\blange(n?grad)?\b|laenge\w*|lengte\w*|lengde\w*|laengde\w*|pituus\w*|dlugosc|\bdelka\b|longituda/;
const ELEVATION =
  /elev\w*|altitud\w*|\balt\b|\bhohe\b|hoehe|seehohe|hoogte|\bhojd\b|hoyde|hojde|korkeus|quota|wysokosc|vyska|height|\basl\b|altezza/;

/** What may stand between a key and an angle: brackets, signs, words of units and directions. */
const BEFORE_ANGLE =
  /^(?:\s*\([^)]*\)|\s*\[[^\]]*\]|[\s:=;,."'°_]|decimal|degrees?|deg|dec|grad\w*|north|east|positive|geogr\w*|zem\w*|wgs ?84)*?(?=[NSEWnsew]?\s?[+-]?\d)/i;
/** What may stand between a key and a number: a few words without figures. */
const BEFORE_NUMBER = /^[^\d+-]{0,40}?(?=[+-]?\d)/;

/** What a preamble says about the place, and the offset of its standard time in minutes. */
export interface SiteFound extends SiteClaim {
  standard_min?: number;
  /** All places a table of periods lists, where it lists several. */
  several?: Place[];
}

interface Place {
  latitude_deg: number;
  longitude_deg: number;
}

/**
 * Latitude, longitude (degrees), elevation (m) and standard time (minutes) from the lines above the rows: as a
 * heading row with value rows below, as 'key: value', or as one line of words and numbers.
 *
 * in: preamble, lines
 * out: what was found
 */
export function readSite(preamble: readonly string[]): SiteFound {
  const table = fromTable(preamble);
  const keys = fromKeys(preamble);
  const found: SiteFound = {
    ...keys,
    ...table,
    words: [table?.words, keys.words].filter(Boolean).join('; '),
  };
  if (found.latitude_deg !== undefined && found.longitude_deg !== undefined) return found;
  for (const line of preamble) {
    const mixed = fromMixedLine(line);
    if (mixed !== undefined) return { ...found, ...mixed };
  }
  return found;
}

type Field = 'latitude_deg' | 'longitude_deg' | 'elevation_m' | 'standard_min';

/** What may be said of a place: how its key is written, what may stand before the value, how that is read. */
const FIELDS: readonly {
  field: Field;
  key: RegExp;
  /** Undefined where only a table counts, since a line about the zone is read as such. */
  between?: RegExp;
  value: (text: string) => number | undefined;
}[] = [
  { field: 'latitude_deg', key: LATITUDE, between: BEFORE_ANGLE, value: (text) => angleOf(text, 90) },
  { field: 'longitude_deg', key: LONGITUDE, between: BEFORE_ANGLE, value: (text) => angleOf(text, 180) },
  { field: 'elevation_m', key: ELEVATION, between: BEFORE_NUMBER, value: heightOf },
  { field: 'standard_min', key: /^(time ?zone|tz|utc ?offset)/, value: offsetOf },
];

/**
 * The same from columns that hold it, one value in all rows.
 *
 * in: layout; rows of a sample
 * out: what was found; nothing where latitude or longitude lacks or changes
 */
export function siteInRows(
  { headings }: Pick<Layout, 'headings'>,
  rows: readonly string[][],
): Partial<SiteFound> {
  const names = headings.map((heading) => normaliseHeading(heading));
  const found: Partial<Record<Field, number>> = {};
  const taken: string[] = [];
  for (const { field, key, between, value } of FIELDS) {
    const column = between === undefined ? -1 : names.findIndex((name) => key.test(name));
    const [only = '', ...others] = new Set(column < 0 ? [] : rows.map((cells) => cells[column] ?? ''));
    const number = others.length > 0 || !/\d/.test(only) ? undefined : value(only);
    if (number === undefined) continue;
    found[field] = number;
    taken.push(`"${headings[column]}"`);
  }
  if (found.latitude_deg === undefined || found.longitude_deg === undefined) return {};
  return { ...found, words: `the columns ${taken.join(', ')}, the same in every row` };
}

/** A heading row that holds both angles, and the last of the rows of values below it. */
function fromTable(lines: readonly string[]): SiteFound | undefined {
  for (const [i, line] of lines.entries()) {
    for (const delimiter of [';', '\t', ',', '|']) {
      const cells = line.split(delimiter).map((cell) => normaliseHeading(cell));
      const places = FIELDS.map(({ key }) => cells.findIndex((cell) => key.test(cell)));
      if (places[0]! < 0 || places[1]! < 0 || places[0] === places[1]) continue;
      const several: (Place & SiteFound)[] = [];
      for (const below of lines.slice(i + 1)) {
        const values = below.split(delimiter).map((cell) => cell.trim());
        const found: Partial<Record<Field, number>> = {};
        for (const [k, { field, value }] of FIELDS.entries()) {
          const number = value(values[places[k]!] ?? '');
          if (number !== undefined) found[field] = number;
        }
        const { latitude_deg, longitude_deg } = found;
        if (latitude_deg === undefined || longitude_deg === undefined) break;
        several.push({ ...found, latitude_deg, longitude_deg, words: `the table on line ${i + 1}` });
      }
      const last = several.at(-1);
      if (last !== undefined) return several.length > 1 ? { ...last, several } : last;
    }
  }
  return undefined;
}

function fromKeys(lines: readonly string[]): SiteFound {
  const found: SiteFound = { words: '' };
  lines.forEach((line, i) => {
    const flat = flatKeepingPlaces(line);
    for (const { field, key, between, value } of FIELDS) {
      const match = found[field] === undefined ? key.exec(flat) : null;
      if (match === null) continue;
      const rest = line.slice(match.index + match[0].length);
      const gap = between?.exec(rest);
      const number = gap ? value(rest.slice(gap[0].length)) : undefined;
      if (number === undefined) continue;
      found[field] = number;
      if (field === 'latitude_deg') found.words = `line ${i + 1}`;
    }
  });
  if (found.latitude_deg !== undefined && found.longitude_deg !== undefined) return found;
  // One of the two alone is a slip of the reading.
  const { latitude_deg: _, longitude_deg: __, ...rest } = found;
  return { ...rest, words: '' };
}

const NEXT_CELL = String.raw`"?\s*[,;\t]\s*"?`;
const DECIMALS = String.raw`[+-]?\d{1,3}\.\d{2,}`;
const NUMBER = String.raw`[+-]?\d+(?:\.\d+)?`;
/** Lines that hold a place without any key, such as 'garden,54.50,10.25,1.0,20' or 'garden -6 N 33 30 W 86 45 192'. */
const LINES: readonly RegExp[] = [
  /(?:^|[\s,;])(?:(?<zone>[+-]?\d{1,2}(?:\.\d+)?)[\s,;]+)?(?<lat>[NS]\s*\d{1,2}\s+\d{1,2})[\s,;]+(?<lon>[EW]\s*\d{1,3}\s+\d{1,2})(?:[\s,;]+(?<height>-?\d+))?/,
  /(?<lat>\d{1,2}(?:[.,]\d+)?\s*°[^A-Za-z;]{0,14}[NS])[\s,;/]*(?<lon>\d{1,3}(?:[.,]\d+)?\s*°[^A-Za-z;]{0,14}[EWO])/,
  /^\W*(?<lat>-?\d{1,2}\.\d+)[\s,]+(?<lon>-?\d{1,3}\.\d+)[\s,]+(?<height>-?\d{1,4}(?:\.\d+)?)\s*m\b/,
  /(?:location|position|coordinat\w*|koordinat\w*|lat\w*\W{1,3}lon\w*)\b[^\d+-]{0,20}(?<lat>[+-]?\d{1,2}\.\d+)[\s,;/]+(?<lon>[+-]?\d{1,3}\.\d+)/i,
  ...[
    `(?<lat>${DECIMALS})_(?<lon>${DECIMALS})_(?<zone>${NUMBER})`,
    `(?<zone>${NUMBER})_(?<lat>${DECIMALS})_(?<lon>${DECIMALS})`,
  ].map(
    (place) =>
      new RegExp(
        String.raw`^(?=.*[A-Za-z]{3})(?:.*?[,;\t])?\s*"?${place}_(?<height>${NUMBER})\s*"?\s*(?:[,;\t]|$)`.replaceAll(
          '_',
          NEXT_CELL,
        ),
      ),
  ),
];

function fromMixedLine(line: string): SiteFound | undefined {
  for (const pattern of LINES) {
    const { lat = '', lon = '', zone, height } = pattern.exec(line)?.groups ?? {};
    const [latitude_deg, longitude_deg] = [angleOf(lat, 90), angleOf(lon, 180)];
    if (latitude_deg === undefined || longitude_deg === undefined) continue;
    const hours = Number(zone ?? longitude_deg / 15);
    const isZone = Math.abs(hours) <= 14 && Math.abs(hours * 15 - longitude_deg) <= 45;
    const elevation_m = height === undefined ? undefined : heightOf(height);
    if (!isZone || (height !== undefined && elevation_m === undefined)) continue;
    return {
      latitude_deg,
      longitude_deg,
      ...(elevation_m === undefined ? {} : { elevation_m }),
      ...(zone === undefined ? {} : { standard_min: hours * 60 }),
      words: `"${line.trim().slice(0, 60)}"`,
    };
  }
  return undefined;
}

/** Degrees from '57.688', '57,688', '57° 41.3' N', 'N 57 41 17', '54,0 degrees north'; undefined where it is none. */
function angleOf(text: string, most: number): number | undefined {
  const parts =
    /^\s*([NSEWOnsewo])?\s*([+-]?\d{1,3}(?:[.,]\d+)?)\s*(?:°|º|deg(?:rees?)?\b|d\b)?\s*(?:(\d{1,2}(?:[.,]\d+)?)\s*(?:'|′|’|m\b|min\b)?)?\s*(?:(\d{1,2}(?:[.,]\d+)?)\s*(?:"|″|”|''|s\b|sec\b)?)?\s*(.{0,12})/.exec(
      text,
    );
  if (parts === null) return undefined;
  const [, before, degrees, minutes, seconds, rest] = parts;
  const number = (part: string | undefined): number => Number((part ?? '0').replace(',', '.'));
  if (number(minutes) >= 60 || number(seconds) >= 60) return undefined;
  const size = Math.abs(number(degrees)) + number(minutes) / 60 + number(seconds) / 3600;
  if (size > most) return undefined;
  const side = before ?? rest ?? '';
  const south =
    /^\W*(?:[sw](?![a-z])|south|s[uü]d|zuid|syd|sur|etel|poludn|jih|west|v[eä]st|ouest|oeste|ovest|l[aä]nsi|zachod|zapad)/i.test(
      side,
    );
  return degrees!.startsWith('-') || south ? -size : size;
}

function numberOf(text: string): number | undefined {
  const match = /[+-]?\d+(?:[.,]\d+)?/.exec(text);
  return match === null ? undefined : Number(match[0].replace(',', '.'));
}

function heightOf(text: string): number | undefined {
  const height = numberOf(text) ?? Number.NaN;
  return height > -500 && height < 9000 ? height : undefined;
}

/** Minutes ahead of UTC, from hours or from minutes. */
function offsetOf(text: string): number | undefined {
  const offset = numberOf(text);
  return offset && Math.round(Math.abs(offset) > 14 ? offset : offset * 60);
}

/** Lower case without accents, every character in its place. */
function flatKeepingPlaces(text: string): string {
  return Array.from(text, (char) => {
    const bare = char
      .normalize('NFD')
      .replace(/[\u0300-\u036f]/g, '')
      .toLowerCase();
    const plain = { ø: 'o', ł: 'l' }[bare] ?? bare;
    return plain.length === char.length ? (plain === '_' ? ' ' : plain) : char;
  }).join('');
}
