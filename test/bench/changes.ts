import { writeReadmeSection } from '../readmeSection.ts';
import { changesTable } from '../trial/changesReadme.ts';

// Prints, or writes into the README, what one change does to the lamp with one capacitor of the demo:
// npm run changes [-- --readme]

const table = await changesTable();
if (process.argv.includes('--readme')) writeReadmeSection('npm run changes', table);
else process.stdout.write(table);
