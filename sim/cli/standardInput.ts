import { closeSync, mkdtempSync, openSync, rmSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { INPUT_LIMITS } from '../tables/TableSource.ts';

/** What came on standard input, kept in a file, so that it can be read in places as any other. */
export interface StandardInput {
  path: string;
  remove: () => void;
}

/**
 * Reads standard input to its end.
 *
 * in: pieces of it
 * out: the file; of more bytes than any input may have so many that it is refused as one
 */
export async function standardInput(pieces: AsyncIterable<Uint8Array>): Promise<StandardInput> {
  const folder = mkdtempSync(join(tmpdir(), 'longnight-'));
  const path = join(folder, 'standard-input');
  const handle = openSync(path, 'w');
  let size = 0;
  try {
    for await (const piece of pieces) {
      writeSync(handle, piece);
      size += piece.length;
      if (size > INPUT_LIMITS.weather_B) break;
    }
  } finally {
    closeSync(handle);
  }
  return { path, remove: () => rmSync(folder, { recursive: true, force: true }) };
}
