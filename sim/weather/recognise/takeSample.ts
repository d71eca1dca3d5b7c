import { InputProblem } from '../../common/InputProblem.ts';
import type { Encoding } from '../../tables/decodeText.ts';
import {
  binaryKind,
  controlCharacter,
  ENCODING_LABELS,
  lineGuard,
  unpacked,
} from '../../tables/decodeText.ts';
import type { TableSource } from '../../tables/TableSource.ts';

/** Some of a file's text: its head, and pieces of whole lines from further on. */
export interface FileSample {
  name: string;
  encoding: Encoding;
  gzip: boolean;
  head: string;
  /** Whole lines from further on, in order; none where the head is all. */
  pieces: string[];
  /** The head is the whole file. */
  whole: boolean;
}

const HEAD = 512 << 10;
const PIECE = 24 << 10;
const PIECES = 32;
/** Of a packed file, which must be read through: a piece after every so many bytes. */
const PACKED_STRIDE = 6 << 20;

/**
 * A bounded sample of a weather file, decoded: its head and pieces spread over the rest. A packed file is read
 * through once for it.
 *
 * in: source
 * out: the sample, at most about 1.3 MB
 * throws: FILE_EMPTY, FILE_NOT_TEXT, FILE_TRUNCATED and FILE_UNREADABLE of packed files
 */
export async function takeSample(source: TableSource): Promise<FileSample> {
  const { name, size } = source;
  const start = source.readAt(0, 8);
  if (size === 0) throw empty(name, 'a file of 0 bytes');
  const gzip = start[0] === 0x1f && start[1] === 0x8b;
  const bytes = gzip ? await packedSample(source) : plainSample(source);
  const first = bytes[0]!;
  const kind = binaryKind(first);
  if (kind !== undefined) throw notText(name, kind);
  const encoding = encodingOf(first, bytes.slice(1), name);
  const whole = bytes.length === 1;
  const [head, ...pieces] = bytes.map((piece) => {
    const even = encoding.startsWith('UTF-16') && piece.length % 2 === 1 ? piece.subarray(0, -1) : piece;
    return new TextDecoder(ENCODING_LABELS[encoding]).decode(even);
  });
  if (head!.trim() === '') throw empty(name, 'nothing but blanks');
  lineGuard(name)(head!);
  refuseOtherTexts(name, head!);
  return {
    name,
    encoding,
    gzip,
    head: whole ? head! : head!.slice(0, head!.lastIndexOf('\n') + 1),
    // The first and last line of a piece may be cut.
    pieces: pieces.map((piece) => piece.slice(piece.indexOf('\n') + 1, piece.lastIndexOf('\n') + 1)),
    whole,
  };
}

function plainSample(source: TableSource): Uint8Array[] {
  const { size } = source;
  if (size <= HEAD + PIECE * PIECES) return [source.readAt(0, size)];
  const bytes = [source.readAt(0, HEAD)];
  const stride = (size - HEAD - PIECE) / (PIECES - 1);
  for (let i = 0; i < PIECES; i++) {
    // On an even byte, for two-byte characters.
    bytes.push(source.readAt(Math.floor((HEAD + i * stride) / 2) * 2, PIECE));
  }
  return bytes;
}

async function packedSample(source: TableSource): Promise<Uint8Array[]> {
  const bytes: Uint8Array[] = [];
  let pending: Uint8Array[] = [];
  let total = 0;
  const take = (): void => {
    bytes.push(Buffer.concat(pending));
    pending = [];
  };
  for await (const chunk of unpacked(source.chunks(), true, source.name)) {
    total += chunk.length;
    if (total < bytes.length * PACKED_STRIDE) continue;
    pending.push(chunk.slice());
    const wanted = bytes.length === 0 ? HEAD + PIECE * PIECES : PIECE;
    if (pending.reduce((sum, { length }) => sum + length, 0) >= wanted) take();
  }
  if (total === 0) throw empty(source.name, 'a packed file with nothing in it');
  if (pending.length > 0) take();
  return bytes;
}

function encodingOf(head: Uint8Array, pieces: readonly Uint8Array[], name: string): Encoding {
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
  for (const piece of [head, ...pieces]) {
    try {
      // A character cut at either end of a piece does not count.
      let from = 0;
      while (from < 3 && piece !== head && (piece[from]! & 0xc0) === 0x80) from++;
      new TextDecoder('utf-8', { fatal: true }).decode(piece.subarray(from), { stream: true });
    } catch {
      return 'Latin-1';
    }
  }
  return 'UTF-8';
}

function refuseOtherTexts(name: string, head: string): void {
  const begin = head.slice(0, 4000).trimStart();
  if (/^<(!doctype|html|table|head|body|\?xml|workbook|div|meta)/i.test(begin)) {
    throw notText(name, 'a page of HTML or XML (some spreadsheets are saved so)');
  }
  if (/^[{[]\s*["{[\]}]/.test(begin)) throw notText(name, 'a JSON file');
  if (/^%PDF/.test(begin)) throw notText(name, 'a PDF');
  const control = controlCharacter(begin);
  if (control >= 0) throw notText(name, `a control character at position ${control + 1}`);
}

function notText(file: string, got: string): InputProblem {
  return new InputProblem({
    code: 'FILE_NOT_TEXT',
    file,
    got,
    expected: 'a text file with one row for each time',
    fix: 'save or unpack it as CSV.',
  });
}

function empty(file: string, got: string): InputProblem {
  return new InputProblem({
    code: 'FILE_EMPTY',
    file,
    got,
    expected: 'rows of weather',
    fix: 'export it again.',
  });
}
