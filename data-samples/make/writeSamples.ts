import { writeFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import { sampleFiles } from './sampleFiles.ts';

// Writes every made file of data-samples/. Run with `npm run samples`.
for (const [name, text] of Object.entries(await sampleFiles())) {
  const bytes = name.endsWith('.gz') ? gzipSync(text, { level: 9 }) : text;
  writeFileSync(new URL(`../${name}`, import.meta.url), bytes);
}
