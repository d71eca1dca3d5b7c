import { isAbsolute, join } from 'node:path';

/**
 * A path as the file system needs it, as near as can be to what was typed.
 *
 * in: folder that relative paths start from ('' is the process's own); path, as typed
 * out: the path
 * @example pathFrom('', 'scenarios/garden.yaml'); // => 'scenarios/garden.yaml'
 */
export function pathFrom(folder: string, path: string): string {
  return folder === '' || isAbsolute(path) ? path : join(folder, path);
}
