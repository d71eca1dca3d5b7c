import { writeFileSync } from 'node:fs';
import { PICTURE, readmePicture } from './readmePicture.ts';

// Draws the picture of the README again: npm run picture
writeFileSync(PICTURE, await readmePicture());
