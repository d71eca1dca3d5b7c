import type { SiteClaim } from './DetectedFormat.ts';
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
  several?: { latitude_deg: number; longitude_deg: number }[];
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

function fromTable(lines: readonly string[]): SiteFound | undefined {
  for (let i = 0; i + 1 < lines.length; i++) {
    for (const delimiter of [';', '\t', ',', '|']) {
      const cells = lines[i]!.split(delimiter).map((cell) => normaliseHeading(cell));
      const latitude = cells.findIndex((cell) => LATITUDE.test(cell));
      const longitude = cells.findIndex((cell) => LONGITUDE.test(cell));
      if (latitude < 0 || longitude < 0 || latitude === longitude) continue;
      const elevation = cells.findIndex((cell) => ELEVATION.test(cell));
      const zone = cells.findIndex((cell) => /^(time ?zone|tz|utc ?offset)/.test(cell));
      const places: { latitude_deg: number; longitude_deg: number }[] = [];
      let last: string[] = [];
      for (let k = i + 1; k < lines.length; k++) {
        const values = lines[k]!.split(delimiter).map((cell) => cell.trim());
        const a = angleOf(values[latitude] ?? '', 90);
        const o = angleOf(values[longitude] ?? '', 180);
        if (a === undefined || o === undefined) break;
        places.push({ latitude_deg: a, longitude_deg: o });
        last = values;
      }
      const place = places.at(-1);
      if (place === undefined) continue;
      const height = elevation < 0 ? undefined : numberOf(last[elevation] ?? '');
      const hours = zone < 0 ? undefined : numberOf(last[zone] ?? '');
      return {
        ...place,
        ...(height === undefined ? {} : { elevation_m: height }),
        ...(hours === undefined
          ? {}
          : { standard_min: Math.round(Math.abs(hours) > 14 ? hours / 60 : hours * 60) }),
        ...(places.length > 1 ? { several: places } : {}),
        words: `the table on line ${i + 1}`,
      };
    }
  }
  return undefined;
}

/** What a line may say after a key: how the key is written, what may stand between, how the value is read. */
const KEYED: readonly {
  field: 'latitude_deg' | 'longitude_deg' | 'elevation_m';
  key: RegExp;
  between: RegExp;
  value: (text: string) => number | undefined;
}[] = [
  { field: 'latitude_deg', key: LATITUDE, between: BEFORE_ANGLE, value: (text) => angleOf(text, 90) },
  { field: 'longitude_deg', key: LONGITUDE, between: BEFORE_ANGLE, value: (text) => angleOf(text, 180) },
  { field: 'elevation_m', key: ELEVATION, between: BEFORE_NUMBER, value: heightOf },
];

function fromKeys(lines: readonly string[]): SiteFound {
  const found: SiteFound = { words: '' };
  lines.forEach((line, i) => {
    const flat = flatKeepingPlaces(line);
    for (const { field, key, between, value } of KEYED) {
      const match = found[field] === undefined ? key.exec(flat) : null;
      if (match === null) continue;
      const rest = line.slice(match.index + match[0].length);
      const gap = between.exec(rest);
      const number = gap === null ? undefined : value(rest.slice(gap[0].length));
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

/** A line like 'garden,54.50,10.25,1.0,20' or 'garden -6 N 33 30 W 86 45 192', without any key. */
function fromMixedLine(line: string): SiteFound | undefined {
  const words = `"${line.trim().slice(0, 60)}"`;
  const hemispheres =
    /(?:^|[\s,;])(?:([+-]?\d{1,2}(?:\.\d+)?)[\s,;]+)?([NS])\s*(\d{1,2})[\s,]+(\d{1,2})[\s,;]+([EW])\s*(\d{1,3})[\s,]+(\d{1,2})(?:[\s,;]+(-?\d+))?/.exec(
      line,
    );
  if (hemispheres !== null) {
    const [, zone, ns, a, am, ew, o, om, height] = hemispheres;
    return {
      latitude_deg: (Number(a) + Number(am) / 60) * (ns === 'S' ? -1 : 1),
      longitude_deg: (Number(o) + Number(om) / 60) * (ew === 'W' ? -1 : 1),
      ...(height === undefined ? {} : { elevation_m: Number(height) }),
      ...(zone === undefined ? {} : { standard_min: Number(zone) * 60 }),
      words,
    };
  }
  const pair =
    /(\d{1,2}(?:[.,]\d+)?\s*°[^A-Za-z;]{0,14}[NS])[\s,;/]*(\d{1,3}(?:[.,]\d+)?\s*°[^A-Za-z;]{0,14}[EWO])/.exec(
      line,
    );
  if (pair !== null) {
    const a = angleOf(pair[1]!, 90);
    const o = angleOf(pair[2]!, 180);
    if (a !== undefined && o !== undefined) return { latitude_deg: a, longitude_deg: o, words };
  }
  const bare = /^\W*(-?\d{1,2}\.\d+)[\s,]+(-?\d{1,3}\.\d+)[\s,]+(-?\d{1,4}(?:\.\d+)?)\s*m\b/.exec(line);
  if (bare !== null && isPlace(Number(bare[1]), Number(bare[2]))) {
    const [latitude_deg, longitude_deg, elevation_m] = bare.slice(1).map(Number) as [number, number, number];
    return { latitude_deg, longitude_deg, elevation_m, words };
  }
  const keyed =
    /(location|position|coordinat\w*|koordinat\w*|lat\w*\W{1,3}lon\w*)\b[^\d+-]{0,20}([+-]?\d{1,2}\.\d+)[\s,;/]+([+-]?\d{1,3}\.\d+)/i.exec(
      line,
    );
  if (keyed !== null && isPlace(Number(keyed[2]), Number(keyed[3]))) {
    return { latitude_deg: Number(keyed[2]), longitude_deg: Number(keyed[3]), words };
  }
  const cells = line.split(/[,;\t]/).map((cell) => cell.trim().replace(/^"|"$/g, ''));
  if (!cells.some((cell) => /[A-Za-z]{3}/.test(cell))) return undefined;
  const numbers = cells.map((cell) => (/^[+-]?\d+(\.\d+)?$/.test(cell) ? Number(cell) : Number.NaN));
  const decimal = (i: number): boolean => /\.\d{2,}/.test(cells[i] ?? '');
  for (let i = 0; i + 3 < numbers.length; i++) {
    const [a, b, c, d] = numbers.slice(i, i + 4) as [number, number, number, number];
    if ([a, b, c, d].some((value) => Number.isNaN(value))) continue;
    // place, zone, height; or zone, place, height
    if (decimal(i) && decimal(i + 1) && isPlace(a, b) && isZone(c, b) && isHeight(d)) {
      return { latitude_deg: a, longitude_deg: b, standard_min: c * 60, elevation_m: d, words };
    }
    if (decimal(i + 1) && decimal(i + 2) && isZone(a, c) && isPlace(b, c) && isHeight(d)) {
      return { latitude_deg: b, longitude_deg: c, standard_min: a * 60, elevation_m: d, words };
    }
  }
  return undefined;
}

const isPlace = (a: number, o: number): boolean => Math.abs(a) <= 90 && Math.abs(o) <= 180;
const isZone = (hours: number, longitude: number): boolean =>
  Math.abs(hours) <= 14 && Number.isInteger(hours * 4) && Math.abs(hours * 15 - longitude) <= 45;
const isHeight = (height: number): boolean => height > -500 && height < 9000;

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
  const height = numberOf(text);
  return height !== undefined && isHeight(height) ? height : undefined;
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
