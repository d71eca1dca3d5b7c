import { createGunzip } from 'node:zlib';
import { InputProblem } from '../../common/InputProblem.ts';
import { INPUT_LIMITS, lineGuard, tooManyBytes } from '../inputLimits.ts';
import type { Encoding } from '../recognise/DetectedFormat.ts';

const LABELS = {
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
  const decoder = new TextDecoder(LABELS[encoding], { fatal: true });
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
