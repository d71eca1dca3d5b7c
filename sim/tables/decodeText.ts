import { pipeline } from 'node:stream';
import { createGunzip } from 'node:zlib';
import { InputProblem } from '../common/InputProblem.ts';
import { isJson, jsonTable } from './json/jsonTable.ts';
import { INPUT_LIMITS, tooLarge, tooManyBytes } from './TableSource.ts';

/** What the decoder calls each encoding. */
const ENCODING_LABELS = {
  'UTF-8': 'utf-8',
  'UTF-16LE': 'utf-16le',
  'UTF-16BE': 'utf-16be',
  'Latin-1': 'latin1',
} as const;

export type Encoding = keyof typeof ENCODING_LABELS;

/**
 * The text a file's bytes stand for, without its byte order mark.
 *
 * in: file, name and bytes
 * out: the text
 * throws: FILE_EMPTY, FILE_NOT_TEXT, FILE_TOO_LARGE (a line)
 */
export function decodeText({ name, bytes }: { name: string; bytes: Uint8Array }): string {
  if (bytes[0] === 0x1f && bytes[1] === 0x8b) throw notText(name, 'a gzip archive');
  const text = decodePieces(name, [bytes]).texts[0]!;
  if (isJson(text)) throw notText(name, 'a JSON file');
  lineGuard(name)(text);
  return text;
}

/**
 * The text of pieces of one file, the first its head: UTF-16 by its mark or its zeros, UTF-8 where the bytes are valid,
 * else Latin-1.
 *
 * in: name for messages; pieces, at least one, those of UTF-16 from an even byte on
 * out: a text a piece, and the encoding
 * throws: FILE_EMPTY, FILE_NOT_TEXT, FILE_TOO_LARGE (a line), all by the head alone
 */
export function decodePieces(
  name: string,
  pieces: readonly Uint8Array[],
): { texts: string[]; encoding: Encoding } {
  const head = pieces[0]!;
  const kind = KINDS.find(([, start]) => start.every((byte, i) => head[i] === byte))?.[0];
  if (kind !== undefined) throw notText(name, kind);
  const encoding = encodingOf(name, pieces);
  const texts = pieces.map((piece) => {
    const even = encoding.startsWith('UTF-16') && piece.length % 2 === 1 ? piece.subarray(0, -1) : piece;
    return new TextDecoder(ENCODING_LABELS[encoding]).decode(even);
  });
  const text = texts[0]!;
  if (text.trim() === '')
    throw emptyFile(name, head.length === 0 ? 'a file of 0 bytes' : 'nothing but blanks');
  const begin = text.slice(0, 4000).trimStart();
  if (MARKUP.test(begin)) throw notText(name, 'a page of HTML or XML (some spreadsheets are saved so)');
  const control = controlCharacter(begin);
  if (control >= 0) throw notText(name, `a control character at position ${control + 1}`);
  return { texts, encoding };
}

function encodingOf(name: string, pieces: readonly Uint8Array[]): Encoding {
  const head = pieces[0]!;
  if (head[0] === 0xff && head[1] === 0xfe) return 'UTF-16LE';
  if (head[0] === 0xfe && head[1] === 0xff) return 'UTF-16BE';
  const zero = head.indexOf(0);
  if (zero >= 0) {
    // UTF-16 without its mark: every second byte of a text of figures is 0.
    const some = head.subarray(0, 4000);
    const even = some.filter((byte, i) => i % 2 === 0 && byte === 0).length;
    const odd = some.filter((byte, i) => i % 2 === 1 && byte === 0).length;
    if (odd > 0.4 * some.length && even === 0) return 'UTF-16LE';
    if (even > 0.4 * some.length && odd === 0) return 'UTF-16BE';
    throw notText(name, `a zero byte at position ${zero + 1}`);
  }
  const isUtf8 = pieces.every((piece) => {
    // A character cut at either end of a piece does not count.
    let from = 0;
    while (from < 3 && piece !== head && (piece[from]! & 0xc0) === 0x80) from++;
    try {
      new TextDecoder('utf-8', { fatal: true }).decode(piece.subarray(from), { stream: true });
      return true;
    } catch {
      return false;
    }
  });
  return isUtf8 ? 'UTF-8' : 'Latin-1';
}

/** A file that is no text. in: file, as the user named it; got, what it is; expected */
function notText(
  file: string,
  got: string,
  expected = 'a text file with one row for each time',
): InputProblem {
  return new InputProblem({
    code: 'FILE_NOT_TEXT',
    file,
    got,
    expected,
    fix: 'save, unpack or export it as CSV, in one encoding.',
  });
}

/** A file without rows. in: file, as the user named it; got, what it holds; expected, rows of what; line */
export function emptyFile(
  file: string,
  got: string,
  expected = 'a heading row, and rows below it',
  line?: number,
): InputProblem {
  return new InputProblem({
    code: 'FILE_EMPTY',
    file,
    ...(line === undefined ? {} : { line }),
    got,
    expected,
    fix: 'export it again.',
  });
}

/**
 * A guard that looks at a text, piece by piece, for very long lines.
 * in: file, as the user named it
 * out: takes the next piece
 * throws: FILE_TOO_LARGE, from the guard
 */
export function lineGuard(file: string): (piece: string) => void {
  const { line: most } = INPUT_LIMITS;
  /** Characters since the last line break. */
  let length = 0;
  return (piece) => {
    // A short piece cannot hold a long line.
    if (length + piece.length > most) {
      for (const [k, line] of piece.split(/\r|\n/).entries()) {
        if (line.length + (k === 0 ? length : 0) > most)
          throw tooLarge(
            file,
            `a line of more than ${most} characters`,
            `lines of ${most} characters at most`,
          );
      }
    }
    const last = Math.max(piece.lastIndexOf('\n'), piece.lastIndexOf('\r'));
    length = last < 0 ? length + piece.length : piece.length - last - 1;
  };
}

/** Position of the first character no text file holds (other than tab, line breaks, form feed, end mark); -1 if none. */
function controlCharacter(text: string): number {
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    if (code < 9 || (code > 13 && code < 32 && code !== 26)) return i;
  }
  return -1;
}

const KINDS: readonly [kind: string, start: readonly number[]][] = [
  ['a zip archive (a spreadsheet is one too)', [0x50, 0x4b, 0x03, 0x04]],
  ['a PNG image', [0x89, 0x50, 0x4e, 0x47]],
  ['a JPEG image', [0xff, 0xd8, 0xff]],
  ['a GIF image', [0x47, 0x49, 0x46, 0x38]],
  ['a PDF', [0x25, 0x50, 0x44, 0x46]],
  ['an old spreadsheet', [0xd0, 0xcf, 0x11, 0xe0]],
  ['a grid of scientific data (HDF5 or netCDF)', [0x89, 0x48, 0x44, 0x46]],
  ['a grid of scientific data (netCDF)', [0x43, 0x44, 0x46, 0x01]],
  ['a grid of scientific data (netCDF)', [0x43, 0x44, 0x46, 0x02]],
  ['a bzip2 archive', [0x42, 0x5a, 0x68]],
  ['an xz archive', [0xfd, 0x37, 0x7a, 0x58]],
  ['a 7-zip archive', [0x37, 0x7a, 0xbc, 0xaf]],
];

const MARKUP = /^<(!doctype|html|table|head|body|\?xml|workbook|div|meta)/i;

/**
 * The bytes of a file unpacked, piece by piece.
 *
 * in: chunks of bytes; gzip, whether they are packed; name for messages; most_B, bytes they may unpack to
 * out: chunks of bytes
 * throws: FILE_TRUNCATED where the packed stream breaks off, FILE_UNREADABLE where it is damaged, FILE_TOO_LARGE
 */
export async function* unpacked(
  chunks: AsyncIterable<Uint8Array>,
  gzip: boolean,
  name: string,
  most_B: number = INPUT_LIMITS.weather_B,
): AsyncIterable<Uint8Array> {
  if (!gzip) {
    yield* chunks;
    return;
  }
  let left_B = most_B;
  const gunzip = createGunzip({ chunkSize: 1 << 18 });
  // What goes wrong, in the source too, is thrown where the chunks are taken.
  pipeline(chunks, gunzip, () => {});
  try {
    for await (const chunk of gunzip) {
      left_B -= (chunk as Uint8Array).length;
      if (left_B < 0) throw tooManyBytes(name, most_B);
      yield chunk as Uint8Array;
    }
  } catch (error) {
    if (error instanceof InputProblem) throw error;
    const cut = error instanceof Error && 'code' in error && error.code === 'Z_BUF_ERROR';
    throw new InputProblem({
      code: cut ? 'FILE_TRUNCATED' : 'FILE_UNREADABLE',
      file: name,
      got: cut ? 'a packed file that breaks off' : 'a packed file that is damaged',
      expected: 'a whole gzip file',
      fix: 'download it again.',
    });
  }
}

/**
 * The text of a file, piece by piece, its byte order mark taken off; characters are never cut in two. JSON comes as the
 * text of the table in it, in one piece.
 *
 * in: chunks of unpacked bytes; encoding; name for messages
 * out: pieces of text
 * throws: FILE_NOT_TEXT where bytes beyond the recognised sample are no text of that encoding, FILE_TOO_LARGE (a line)
 */
export async function* textStream(
  chunks: AsyncIterable<Uint8Array>,
  encoding: Encoding,
  name: string,
): AsyncIterable<string> {
  const decoder = new TextDecoder(ENCODING_LABELS[encoding], { fatal: true });
  const decode = (bytes?: Uint8Array): string => {
    try {
      return bytes === undefined ? decoder.decode() : decoder.decode(bytes, { stream: true });
    } catch {
      throw notText(name, `bytes that are no ${encoding}`, `text in ${encoding} throughout, as at its start`);
    }
  };
  const guard = lineGuard(name);
  let json: string | undefined;
  let length = 0;
  for await (const chunk of chunks) {
    const text = decode(chunk);
    if (text.includes('\0')) throw notText(name, 'a zero byte among the rows', 'text throughout');
    if (length === 0 && isJson(text)) json = '';
    length += text.length;
    if (json === undefined) {
      guard(text);
      yield text;
    } else if (length > INPUT_LIMITS.file_B) throw tooManyBytes(name, INPUT_LIMITS.file_B);
    else json += text;
  }
  const end = decode();
  yield json === undefined ? end : jsonTable(name, json + end);
}
