import { readFileSync, writeFileSync } from 'node:fs';

const file = new URL('../README.md', import.meta.url);

/** What stands in the README between the two marks of a command that writes there, as 'npm run truth'. */
export function readmeSection(command: string): string {
  const text = readFileSync(file, 'utf8');
  const [from, to] = bounds(text, command);
  return text.slice(from, to);
}

/** Puts a text between those marks. */
export function writeReadmeSection(command: string, section: string): void {
  const text = readFileSync(file, 'utf8');
  const [from, to] = bounds(text, command);
  writeFileSync(file, `${text.slice(0, from)}${section}${text.slice(to)}`);
}

function bounds(text: string, command: string): [number, number] {
  const begin = `<!-- written by: ${command} -- --readme -->\n`;
  const from = text.indexOf(begin) + begin.length;
  const to = text.indexOf('<!-- end of what is written -->\n', from);
  if (from < begin.length || to < 0) throw new Error(`the README lacks the marks of ${command}`);
  return [from, to];
}
