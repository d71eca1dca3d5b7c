import { giveReadmeSection } from '../readmeSection.ts';
import { collectTruths } from './collectTruths.ts';
import { measure } from './measure.ts';
import { truthReadme } from './truthReadme.ts';
import { truthMarkdown, truthText } from './truthTable.ts';

// Prints every outside value beside what the simulator gives: npm run truth [-- --markdown | --readme]
const all = measure((await collectTruths()).flatMap(({ cases }) => cases));
if (process.argv.includes('--readme')) giveReadmeSection('npm run truth', truthReadme(all));
else process.stdout.write(process.argv.includes('--markdown') ? truthMarkdown(all) : truthText(all));
