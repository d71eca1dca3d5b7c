import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { apiPages } from './apiPages.ts';

// Writes the pages of the library into out/docs/, from what api-extractor left in dist/api/: npm run docs.
const root = new URL('../../', import.meta.url);
const model = (entry: string) => JSON.parse(readFileSync(new URL(`dist/api/${entry}.json`, root), 'utf8'));
const folder = new URL('out/docs/', root);
rmSync(folder, { recursive: true, force: true });
mkdirSync(folder, { recursive: true });
for (const [name, text] of Object.entries(apiPages(model('index'), model('core'))))
  writeFileSync(new URL(name, folder), text);
console.log('out/docs/README.md');
