import { giveReadmeSection } from '../readmeSection.ts';
import { changesTable } from '../trial/changesReadme.ts';

// Prints, or writes into scenarios/README.md, what one change does to the lamp with one capacitor of the demo:
// npm run changes [-- --readme]
giveReadmeSection('npm run changes', await changesTable());
