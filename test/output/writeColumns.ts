import { giveReadmeSection } from '../readmeSection.ts';
import { columnsReadme } from './columnsReadme.ts';

// Prints the columns of the CSV files, or writes them into sim/output/README.md: npm run columns [-- --readme]
giveReadmeSection('npm run columns', columnsReadme());
