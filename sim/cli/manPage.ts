import type { Command } from './Command.ts';
import { EXIT_WORDS, STREAM_WORDS, VARIABLES } from './helpFacts.ts';
import { COMMON_OPTIONS, OPTIONS, type OptionFacts, type OptionName } from './options.ts';

/** What a manual needs beside commands and options. */
interface ManFacts {
  commands: readonly Command[];
  version: string;
  /** What the program is, in a sentence. */
  about: string;
}

/** Files that a manual tells of. */
const FILES: readonly (readonly [string, string])[] = [
  ['scenario.yaml', 'a scenario: place, weather, promise, spots and lamps; longnight init begins one'],
  ['out/NAME/', 'what run writes of a scenario: report.html, nights.csv, hours.csv, summary.json'],
  ['out/compare-NAME/, out/size-NAME/, out/life-NAME/', 'what compare, size and life write'],
  ['out/size-cache.txt', 'what size has run already, so that a search goes on; safe to delete'],
];

/**
 * The manual of the command line, made of what its help is made of, as roff for man.
 *
 * in: facts
 */
export function manPage({ commands, version, about }: ManFacts): string {
  const lines = [
    `.TH LONGNIGHT 1 "" "longnight ${version}" "User commands"`,
    '.SH NAME',
    `longnight \\- ${escaped(about.charAt(0).toLowerCase() + about.slice(1).replace(/\.$/, ''))}`,
    '.SH SYNOPSIS',
    ...commands.flatMap(({ name, words }) => [
      '.br',
      `.B longnight ${escaped(name)}`,
      escaped([...words, '[OPTIONS]'].join(' ')),
    ]),
    '.SH COMMANDS',
    ...commands.flatMap(commandLines),
    '.SH OPTIONS',
    'Each command takes those that stand beside it above, and all take',
    `${COMMON_OPTIONS.map((name) => `\\-\\-${escaped(name)}`).join(', ')}.`,
    ...(Object.keys(OPTIONS) as OptionName[]).flatMap(optionLines),
    '.SH STANDARD INPUT AND OUTPUT',
    escaped(STREAM_WORDS),
    '.SH EXIT STATUS',
    ...EXIT_WORDS.flatMap(([code, words]) => item(String(code), words)),
    '.SH ENVIRONMENT',
    ...VARIABLES.flatMap(([name, words]) => item(name, words)),
    '.SH FILES',
    ...FILES.flatMap(([name, words]) => item(name, words)),
  ];
  return `${lines.join('\n')}\n`;
}

function commandLines({ name, words, about, examples, options }: Command): string[] {
  return [
    `.SS "longnight ${escaped([name, ...words].join(' '))}"`,
    escaped(`${about.charAt(0).toUpperCase()}${about.slice(1)}.`),
    '.PP',
    escaped(`Options: ${options.map((option) => `--${option}`).join(', ') || 'none of its own'}.`),
    ...examples.flatMap(([typed, purpose]) => [
      '.PP',
      escaped(purpose.endsWith('?') ? purpose : `${purpose}:`),
      '.br',
      `.B ${escaped(typed)}`,
    ]),
  ];
}

function optionLines(name: OptionName): string[] {
  const facts: OptionFacts = OPTIONS[name];
  const value = facts.unit === undefined ? '' : ` ${(facts.unit.split(',', 1)[0] ?? '').toUpperCase()}`;
  return item(`--${name}${value}`, `${facts.about}. As ${facts.example}.`);
}

function item(tag: string, words: string): string[] {
  return ['.TP', `.B ${escaped(tag)}`, escaped(words)];
}

/** A text in which roff obeys nothing. */
function escaped(text: string): string {
  return text
    .replaceAll('\\', '\\e')
    .replaceAll('-', '\\-')
    .replaceAll('"', '\\(dq')
    .replace(/^([.'])/, '\\&$1');
}
