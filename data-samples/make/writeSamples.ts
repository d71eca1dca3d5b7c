import { writeFileSync } from 'node:fs';
import { sampleFiles } from './sampleFiles.ts';

// Writes every made file of data-samples/. Run with `npm run samples`.
for (const [name, text] of Object.entries(await sampleFiles())) {
  writeFileSync(new URL(`../${name}`, import.meta.url), text);
}
