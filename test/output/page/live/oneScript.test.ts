import { runInNewContext } from 'node:vm';
import { describe, expect, it } from 'vitest';
import { oneScript } from '../../../../sim/output/page/live/oneScript.ts';

const MODULES: Record<string, string> = {
  'parts/a.js': 'order("a");let u=1,v=()=>++u;export{u as count,v as b};\n',
  'parts/b.js': 'import{b as c}from"./a.js";order("b");var d=c()*10;export{d as a,c};\n',
  'page/entry.js':
    'import{b as n}from"../parts/a.js";import{a as o,c as p}from"../parts/b.js";order([o,n(),p()]);\n',
};

describe('oneScript(entry, read)', () => {
  it('runs each module once, after what it imports, with the names that each has there', () => {
    const done: unknown[] = [];
    const script = oneScript('page/entry.js', (module) => MODULES[module]!);
    runInNewContext(script, { order: (what: unknown) => done.push(what) });
    expect(JSON.stringify(done)).toBe('["a","b",[20,3,4]]');
  });

  it('throws where a module imports in another form', () => {
    const read = () => 'import*as all from"./parts/a.js";order(all)';
    expect(() => oneScript('entry.js', read)).toThrow('entry.js imports or exports in another form');
  });
});
