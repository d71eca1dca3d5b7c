import { writeReadmeSection } from '../readmeSection.ts';
import { columnsReadme } from './columnsReadme.ts';

// Prints the columns of the CSV files, or writes them into the README: npm run columns [-- --readme]
if (process.argv.includes('--readme')) {
  writeReadmeSection('npm run columns', columnsReadme());
  process.stdout.write('written into README.md\n');
} else process.stdout.write(columnsReadme());
