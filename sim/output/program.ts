import { readFileSync } from 'node:fs';
import { version as nodeVersion } from 'node:process';

/** What made a result: the version of longnight and the major version of Node. */
export interface Program {
  version: string;
  nodeMajor: number;
}

/**
 * The running program's version, from package.json, and Node's major version.
 *
 * out: both
 * throws: Error where package.json is not there (a broken installation)
 */
export function program(): Program {
  const file = new URL('../../package.json', import.meta.url);
  const { version } = JSON.parse(readFileSync(file, 'utf8')) as { version: string };
  return { version, nodeMajor: Number.parseInt(nodeVersion.slice(1), 10) };
}

/**
 * A script or style sheet of the page, as the build bundled it: the way from here is the same in sim/ and in dist/shared/.
 *
 * in: file, its way below dist/output
 * throws: Error where it is not there (`npm run bundle` was not run)
 */
export function bundled(file: string): string {
  return readFileSync(new URL(`../../dist/output/${file}`, import.meta.url), 'utf8');
}

/**
 * A sample that comes along with the program.
 *
 * in: name, of the file in data-samples/
 * out: where it lies
 */
export function sample(name: string): URL {
  return new URL(`../../data-samples/${name}`, import.meta.url);
}
