import { InputProblem } from '../common/InputProblem.ts';
import { EXIT } from './exitCodes.ts';
import type { Io } from './Io.ts';

/**
 * Says what went wrong, on stderr: every problem of an input; one line for anything else, with the stack only where
 * the environment has LONGNIGHT_TRACE=1.
 *
 * in: error, as caught; io
 * out: exit code
 */
export function answerToError(error: unknown, io: Io): number {
  if (error instanceof InputProblem) {
    io.stderr(`${error.message}\n`);
    return EXIT.badInput;
  }
  const message = error instanceof Error ? error.message : String(error);
  const [line = ''] = message.split('\n', 1);
  io.stderr(
    isOfTheDisk(error) ? `longnight failed: ${line}\n` : `longnight failed: ${line}; this is a defect\n`,
  );
  if (io.env.LONGNIGHT_TRACE === '1' && error instanceof Error && error.stack !== undefined) {
    io.stderr(`${error.stack}\n`);
  }
  return EXIT.failed;
}

/** No space, no permission and the like: errors of a system call, not of the program. */
function isOfTheDisk(error: unknown): boolean {
  return error instanceof Error && 'syscall' in error && 'code' in error;
}
