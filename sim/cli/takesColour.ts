import type { Io } from './Io.ts';

/**
 * Whether results may be coloured: on a terminal, and where NO_COLOR is not set to anything.
 *
 * in: io
 * out: true or false
 */
export function takesColour(io: Io): boolean {
  const { NO_COLOR: noColour, TERM: terminal } = io.env;
  return io.isTTY.stdout && (noColour === undefined || noColour === '') && terminal !== 'dumb';
}
