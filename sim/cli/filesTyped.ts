import { existsSync, readdirSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { InputProblem } from '../common/InputProblem.ts';
import { type Io, pathFrom } from './Io.ts';

/** A file by its path, and the name it was typed by. */
interface FileTyped {
  path: string;
  name: string;
}

/**
 * The files that were typed, wildcards (* and ?) in the last part of a path among them: a shell expands none within
 * quotes or after an option, and on Windows nowhere. Those of one wildcard come in the order of their names.
 *
 * in: names, as typed; io
 * throws: FILE_MISSING where no file fits a wildcard
 */
export function filesTyped(names: readonly string[], io: Io): FileTyped[] {
  return names.flatMap((name) => {
    const path = pathFrom(io, name);
    const pattern = basename(path);
    if (!/[*?]/.test(pattern) || existsSync(path)) return [{ path, name }];
    const folder = dirname(path);
    const fits = new RegExp(
      `^${pattern
        .replace(/[.+^${}()|[\]\\]/g, '\\$&')
        .replace(/\*/g, '.*')
        .replace(/\?/g, '.')}$`,
    );
    const found = existsSync(folder)
      ? readdirSync(folder, { withFileTypes: true }).filter(
          (entry) => !entry.isDirectory() && fits.test(entry.name),
        )
      : [];
    if (found.length === 0) {
      throw new InputProblem({
        code: 'FILE_MISSING',
        file: name,
        got: 'no file whose name fits',
        expected: 'a folder with such files; * stands for any signs, ? for one, in the name of the file only',
        fix: 'check folder and name; or type the files one by one.',
      });
    }
    const typed = dirname(name);
    return found
      .map((entry) => entry.name)
      .sort()
      .map((file) => ({ path: join(folder, file), name: typed === '.' ? file : join(typed, file) }));
  });
}
