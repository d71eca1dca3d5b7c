import { createGunzip } from 'node:zlib';
import { InputProblem } from '../common/InputProblem.ts';
import { INPUT_LIMITS, tooLarge, tooManyBytes } from './TableSource.ts';

export type Encoding = 'UTF-8' | 'UTF-16LE' | 'UTF-16BE' | 'Latin-1';

/** Text of a file and how its bytes were read. */
export interface DecodedText {
  text: string;
  encoding: 'UTF-8' | 'UTF-16' | 'Latin-1';
}

/**
 * The text a file's bytes stand for, without its byte order mark.
 *
 * in: file, name and bytes
 * out: the text and its encoding: UTF-16 by its mark, UTF-8 where the bytes are valid, else Latin-1
 * throws: FILE_EMPTY, FILE_NOT_TEXT, FILE_TOO_LARGE (a line)
 */
export function decodeText(file: { name: string; bytes: Uint8Array }): DecodedText {
  const { name, bytes } = file;
  const notText = (got: string): InputProblem =>
    new InputProblem({
      code: 'FILE_NOT_TEXT',
      file: name,
      got,
      expected: 'a text file with one row an hour',
      fix: 'save or unpack it as CSV.',
    });
  const kind = bytes[0] === 0x1f && bytes[1] === 0x8b ? 'a gzip archive' : binaryKind(bytes);
  if (kind !== undefined) throw notText(kind);
  let decoded: DecodedText;
  if ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff)) {
    const order = bytes[0] === 0xff ? 'utf-16le' : 'utf-16be';
    decoded = { text: new TextDecoder(order).decode(bytes), encoding: 'UTF-16' };
  } else {
    const zero = bytes.indexOf(0);
    if (zero >= 0) throw notText(`a zero byte at position ${zero + 1}`);
    try {
      decoded = { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes), encoding: 'UTF-8' };
    } catch {
      decoded = { text: new TextDecoder('latin1').decode(bytes), encoding: 'Latin-1' };
    }
  }
  if (decoded.text.trim() === '') {
    throw new InputProblem({
      code: 'FILE_EMPTY',
      file: name,
      got: bytes.length === 0 ? 'a file of 0 bytes' : 'nothing but blanks',
      expected: 'a heading row and one row an hour',
      fix: 'export it again.',
    });
  }
  lineGuard(name)(decoded.text);
  const control = controlCharacter(decoded.text);
  if (control >= 0) throw notText(`a control character at position ${control + 1}`);
  return decoded;
}

/**
 * A guard that looks at a text, piece by piece, for very long lines.
 * in: file, as the user named it
 * out: takes the next piece
 * throws: FILE_TOO_LARGE, from the guard
 */
export function lineGuard(file: string): (piece: string) => void {
  const { line: most } = INPUT_LIMITS;
  let length = 0;
  const add = (characters: number): void => {
    length += characters;
    if (length > most)
      throw tooLarge(file, `a line of more than ${most} characters`, `lines of ${most} characters at most`);
  };
  return (piece) => {
    const first = piece.search(/[\r\n]/);
    if (first < 0) {
      add(piece.length);
      return;
    }
    add(first);
    const last = Math.max(piece.lastIndexOf('\n'), piece.lastIndexOf('\r'));
    // Of a short piece its ends say enough.
    if (last - first > most) {
      for (const [line] of piece.slice(first, last).matchAll(/[^\r\n]+/g)) {
        length = 0;
        add(line.length);
      }
    }
    length = 0;
    add(piece.length - last - 1);
  };
}

/** Position of the first character no text file holds (other than tab, line breaks, form feed, end mark); -1 if none. */
export function controlCharacter(text: string): number {
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

/**
 * What a file that is no text is, in words, by its first bytes.
 *
 * in: bytes, the start of the file
 * out: words; undefined where no known kind begins so
 */
export function binaryKind(bytes: Uint8Array): string | undefined {
  return KINDS.find(([, start]) => start.every((byte, i) => bytes[i] === byte))?.[0];
}

/** What the decoder calls each encoding. */
export const ENCODING_LABELS = {
  'UTF-8': 'utf-8',
  'UTF-16LE': 'utf-16le',
  'UTF-16BE': 'utf-16be',
  'Latin-1': 'latin1',
} as const;

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
  const feed = async (): Promise<void> => {
    for await (const chunk of chunks) {
      if (gunzip.destroyed) return;
      if (!gunzip.write(chunk)) await new Promise<void>((resolve) => gunzip.once('drain', () => resolve()));
    }
    gunzip.end();
  };
  const fed = feed().catch((error: Error) => gunzip.destroy(error));
  try {
    for await (const chunk of gunzip) {
      left_B -= (chunk as Uint8Array).length;
      if (left_B < 0) throw tooManyBytes(name, most_B);
      yield chunk as Uint8Array;
    }
    await fed;
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
 * The text of a file, piece by piece, its byte order mark taken off; characters are never cut in two.
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
      throw new InputProblem({
        code: 'FILE_NOT_TEXT',
        file: name,
        got: `bytes that are no ${encoding}`,
        expected: `text in ${encoding} throughout, as at its start`,
        fix: 'save it again in one encoding.',
      });
    }
  };
  const guard = lineGuard(name);
  for await (const chunk of chunks) {
    const text = decode(chunk);
    guard(text);
    const zero = text.indexOf('\0');
    if (zero >= 0) {
      throw new InputProblem({
        code: 'FILE_NOT_TEXT',
        file: name,
        got: 'a zero byte among the rows',
        expected: 'text throughout',
        fix: 'export or download the file again.',
      });
    }
    yield text;
  }
  yield decode();
}
