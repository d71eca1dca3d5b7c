import { closeSync, createReadStream, fstatSync, openSync, readSync } from 'node:fs';
import { INPUT_LIMITS } from '../inputLimits.ts';
import type { NamedBytes } from '../readTextFile.ts';
import { refuseUnusual, unreadable } from '../readTextFile.ts';

/** Bytes of a weather file, to be read from the front, or in places. */
export interface WeatherSource {
  /** As the user named it; for messages. */
  name: string;
  size: number;
  /** `length` bytes from a position; fewer at the end. */
  readAt: (position: number, length: number) => Uint8Array;
  /** All bytes in order, in pieces of any length. */
  chunks: () => AsyncIterable<Uint8Array>;
}

const CHUNK = 1 << 18;

/**
 * A file on the disk as a weather source. Nothing is kept open between calls.
 *
 * in: path, where it lies; name, as the user wrote it (the path by default)
 * out: the source
 * throws: FILE_MISSING, FILE_UNREADABLE (a folder, a device, no permission), FILE_TOO_LARGE
 */
export function fileSource(path: string, name = path): WeatherSource {
  const guarded = <T>(read: () => T): T => {
    try {
      return read();
    } catch (error) {
      throw unreadable(error, path, name);
    }
  };
  const withFile = <T>(use: (handle: number) => T): T =>
    guarded(() => {
      const handle = openSync(path, 'r');
      try {
        return use(handle);
      } finally {
        closeSync(handle);
      }
    });
  guarded(() => refuseUnusual(path, name, INPUT_LIMITS.weather_B));
  const size = withFile((handle) => {
    // A folder opens, but cannot be read.
    readSync(handle, new Uint8Array(1), 0, 1, 0);
    return fstatSync(handle).size;
  });
  return {
    name,
    size,
    readAt: (position, length) =>
      withFile((handle) => {
        const bytes = new Uint8Array(Math.max(0, Math.min(length, size - position)));
        const got = readSync(handle, bytes, 0, bytes.length, position);
        return bytes.subarray(0, got);
      }),
    async *chunks() {
      try {
        for await (const chunk of createReadStream(path, { highWaterMark: CHUNK })) yield chunk as Uint8Array;
      } catch (error) {
        throw unreadable(error, path, name);
      }
    },
  };
}

/** Bytes in memory as a weather source. */
export function bytesSource({ name, bytes }: NamedBytes): WeatherSource {
  return {
    name,
    size: bytes.length,
    readAt: (position, length) => bytes.subarray(position, position + length),
    async *chunks() {
      for (let at = 0; at < bytes.length; at += CHUNK) yield bytes.subarray(at, at + CHUNK);
    },
  };
}
