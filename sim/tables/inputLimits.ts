import { InputProblem } from '../common/InputProblem.ts';

/** What is read at most, so that no file can fill the memory; the README says the same. */
export const INPUT_LIMITS = {
  /** Bytes of a scenario. */
  scenario_B: 1e6,
  /** Bytes of a file that is read at one go: horizons, logs, readings, weather whose columns a scenario states. */
  file_B: 256e6,
  /** Bytes, unpacked, of a weather file that is recognised. */
  weather_B: 4e9,
  /** Characters of a line of any of them but a scenario. */
  line: 300_000,
  columns: 1000,
} as const;

/** A file of more bytes than are read. in: file, as the user named it; most_B */
export function tooManyBytes(file: string, most_B: number): InputProblem {
  return tooLarge(file, `more than ${most_B / 1e6} MB`, `${most_B / 1e6} MB at most`);
}

/**
 * Refuses a row of very many columns.
 * in: file, as the user named it; columns, how many
 * throws: FILE_TOO_LARGE
 */
export function refuseManyColumns(file: string, columns: number): void {
  const { columns: most } = INPUT_LIMITS;
  if (columns > most) throw tooLarge(file, `${columns} columns`, `${most} columns at most`);
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

function tooLarge(file: string, got: string, expected: string): InputProblem {
  return new InputProblem({ code: 'FILE_TOO_LARGE', file, got, expected, fix: 'is this the right file?' });
}
