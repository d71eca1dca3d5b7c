import { giveReadmeSection } from '../readmeSection.ts';
import { keysReadme } from './keysReadme.ts';

// Prints every key of a scenario, or writes them into scenarios/README.md: npm run keys [-- --readme]
giveReadmeSection('npm run keys', keysReadme());
