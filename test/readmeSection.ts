import { readFileSync, writeFileSync } from 'node:fs';

/** Where each command writes what it makes. */
const README_OF = {
  'npm run changes': 'scenarios/README.md',
  'npm run columns': 'sim/output/README.md',
  'npm run keys': 'scenarios/README.md',
  'npm run truth': 'test/truth/README.md',
} as const;

type Command = keyof typeof README_OF;

/** What stands in the README of a command between its two marks. */
export function readmeSection(command: Command): string {
  const text = readFileSync(fileOf(command), 'utf8');
  const [from, to] = bounds(text, command);
  return text.slice(from, to);
}

/** Puts a text between those marks where `--readme` was typed, else prints it. */
export function giveReadmeSection(command: Command, section: string): void {
  if (!process.argv.includes('--readme')) {
    process.stdout.write(section);
    return;
  }
  const text = readFileSync(fileOf(command), 'utf8');
  const [from, to] = bounds(text, command);
  writeFileSync(fileOf(command), `${text.slice(0, from)}${section}${text.slice(to)}`);
  process.stdout.write(`written into ${README_OF[command]}\n`);
}

function fileOf(command: Command): URL {
  return new URL(`../${README_OF[command]}`, import.meta.url);
}

function bounds(text: string, command: Command): [number, number] {
  const begin = `<!-- written by: ${command} -- --readme -->\n`;
  const from = text.indexOf(begin) + begin.length;
  const to = text.indexOf('<!-- end of what is written -->\n', from);
  if (from < begin.length || to < 0) throw new Error(`${README_OF[command]} lacks the marks of ${command}`);
  return [from, to];
}
