import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { runInNewContext } from 'node:vm';
import { afterAll, describe, expect, it } from 'vitest';
import { oneScript } from '../../../../sim/output/page/live/oneScript.ts';

const folder = mkdtempSync(join(tmpdir(), 'one-script-'));
afterAll(() => rmSync(folder, { recursive: true }));
mkdirSync(join(folder, 'shared'));

const MODULES = {
  'shared/a.js': 'order("a");let u=1,v=()=>++u;export{u as count,v as b};\n',
  'shared/b.js': 'import{b as c}from"./a.js";order("b");var d=c()*10;export{d as a,c};\n',
  'entry.js':
    'import{b as n}from"./shared/a.js";import{a as o,c as p}from"./shared/b.js";order([o,n(),p()]);\n',
};

function written(modules: Record<string, string>): URL {
  for (const [name, code] of Object.entries(modules)) writeFileSync(join(folder, name), code);
  return pathToFileURL(join(folder, 'entry.js'));
}

describe('oneScript(entry)', () => {
  it('runs each module once, after what it imports, with the names that each has there', () => {
    const done: unknown[] = [];
    const order = (what: unknown) => done.push(what);
    runInNewContext(oneScript(written(MODULES)), { order });
    expect(JSON.stringify(done)).toBe('["a","b",[20,3,4]]');
  });

  it('throws where a module imports in another form', () => {
    const entry = written({ ...MODULES, 'entry.js': 'import*as all from"./shared/a.js";order(all)' });
    expect(() => oneScript(entry)).toThrow(/entry\.js imports or exports in another form/);
  });
});
