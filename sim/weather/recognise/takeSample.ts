import {
  decodePieces,
  type Encoding,
  emptyFile,
  lineGuard,
  textStream,
  unpacked,
} from '../../tables/decodeText.ts';
import { isJson } from '../../tables/json/jsonTable.ts';
import { bytesSource, type TableSource } from '../../tables/TableSource.ts';

/** Some of a file's text: its head, and pieces of whole lines from further on. */
export interface FileSample {
  name: string;
  encoding: Encoding;
  gzip: boolean;
  /** What is sampled is the table that JSON holds. */
  json: boolean;
  head: string;
  /** Whole lines from further on, in order; none where the head is all. */
  pieces: string[];
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
  const { name } = source;
  const start = source.readAt(0, 8);
  const gzip = start[0] === 0x1f && start[1] === 0x8b;
  const bytes = gzip ? await packedSample(source) : plainSample(source);
  const { texts, encoding } = decodePieces(name, bytes);
  const [head, ...pieces] = texts as [string, ...string[]];
  if (isJson(head)) {
    const table = await takeSample(await tableInJson(source, gzip, encoding));
    return { ...table, encoding, gzip, json: true };
  }
  lineGuard(name)(head);
  return {
    name,
    encoding,
    gzip,
    json: false,
    head: pieces.length === 0 ? head : head.slice(0, head.lastIndexOf('\n') + 1),
    // The first and last line of a piece may be cut.
    pieces: pieces.map((piece) => piece.slice(piece.indexOf('\n') + 1, piece.lastIndexOf('\n') + 1)),
  };
}

/** The table that a file of JSON holds, which must be read whole for it. */
async function tableInJson(source: TableSource, gzip: boolean, encoding: Encoding): Promise<TableSource> {
  const { name } = source;
  let table = '';
  for await (const text of textStream(unpacked(source.chunks(), gzip, name), encoding, name)) table += text;
  return bytesSource({ name, bytes: new TextEncoder().encode(table) });
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
  if (total === 0) throw emptyFile(source.name, 'a packed file with nothing in it');
  if (pending.length > 0) take();
  return bytes;
}
