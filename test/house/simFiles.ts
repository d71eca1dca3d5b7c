import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** A file of the project, by its path from the root with forward slashes. */
export interface SourceFile {
  path: string;
  text: string;
}

/** All files below a folder of the project, with an ending, in the order of their paths. */
export function filesBelow(folder: string, ending: string): SourceFile[] {
  return readdirSync(`${root}${folder}`, { recursive: true, encoding: 'utf8' })
    .map((name) => `${folder}/${name.replaceAll('\\', '/')}`)
    .filter((path) => path.endsWith(ending))
    .sort()
    .map((path) => ({ path, text: readFileSync(`${root}${path}`, 'utf8') }));
}

/** One file of the project. */
export function fileAt(path: string): SourceFile {
  return { path, text: readFileSync(`${root}${path}`, 'utf8') };
}

/** The code of a file: comments blanked out, line breaks kept, strings left as they are. */
export function withoutComments(text: string): string {
  const piece = /'(?:[^'\\\n]|\\.)*'|"(?:[^"\\\n]|\\.)*"|\/\/[^\n]*|\/\*[\s\S]*?\*\//g;
  return text.replace(piece, (found) => (found.startsWith('/') ? found.replace(/[^\n]/g, ' ') : found));
}

/** The comments of a file, each with the number of its first line. */
export function commentsOf(text: string): { line: number; text: string }[] {
  const piece = /'(?:[^'\\\n]|\\.)*'|"(?:[^"\\\n]|\\.)*"|\/\/[^\n]*|\/\*[\s\S]*?\*\//g;
  return [...text.matchAll(piece)]
    .filter(([found]) => found.startsWith('/'))
    .map((match) => ({ line: text.slice(0, match.index).split('\n').length, text: match[0] }));
}
