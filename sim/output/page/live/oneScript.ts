import { posix } from 'node:path';

/** An import at the head of a module, and the export at its end, as the build writes them. */
const IMPORT = /^import(?:\{([^}]*)\}from)?"(\.[^"]+)";/;
const EXPORT = /export\{([^}]*)\};?\s*$/;

/**
 * A module and all that it imports as one script, for what takes no modules: each as a function that gives its exports,
 * before those that ask for them.
 *
 * in: entry, the way to a module of the build; read, gives what stands there, code without white space
 * throws: Error for an import or an export of another form (a defect of the build)
 */
export function oneScript(entry: string, read: (module: string) => string): string {
  const places: string[] = [];
  const parts: string[] = [];
  const placeOf = (module: string): number => {
    const known = places.indexOf(module);
    if (known >= 0) return known;
    const taken: string[] = [];
    let code = read(module);
    for (let found = IMPORT.exec(code); found !== null; found = IMPORT.exec(code)) {
      const [all, names = '', path] = found;
      taken.push(`const{${pairs(names, 'from')}}=part${placeOf(posix.join(posix.dirname(module), path!))};`);
      code = code.slice(all.length);
    }
    const body = code.replace(EXPORT, (_, names: string) => `return{${pairs(names, 'as')}}`);
    if (/^import\b|\bexport\{/.test(body)) throw new Error(`${module} imports or exports in another form`);
    parts.push(`const part${places.length}=(()=>{${taken.join('')}${body}})();\n`);
    return places.push(module) - 1;
  };
  placeOf(entry);
  return `'use strict';\n${parts.join('')}`;
}

/** `{ a as b, c }` of an import or an export as names of an object: of what is taken from one, or of one that is given. */
function pairs(names: string, end: 'from' | 'as'): string {
  return names
    .split(',')
    .map((each) => each.split(' as '))
    .map(([first, last = first]) => (end === 'from' ? `${first}:${last}` : `${last}:${first}`))
    .join(',');
}
