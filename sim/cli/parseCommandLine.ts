import yargs from 'yargs';
import type { Arguments, Command } from './Command.ts';
import { helpExamples } from './helpExamples.ts';
import { OPTIONS, type OptionFacts } from './options.ts';
import { usageProblem } from './usageProblem.ts';

/** What a command line asks for: a text to print, or a command to run. */
export type Asked = { text: string } | { command: Command; args: Arguments };

/**
 * Understands a command line.
 *
 * in: argv, the words after the program's name; commands, those there are; version, of the program
 * out: help or version to print, or the command and what was typed after it
 * throws: InputProblem USAGE with every mistake
 */
export async function parseCommandLine(
  argv: readonly string[],
  commands: readonly Command[],
  version: string,
): Promise<Asked> {
  let asked: Asked | undefined;
  const parser = yargs()
    .scriptName('longnight')
    .usage('longnight COMMAND ...')
    .locale('en')
    .wrap(100)
    .exitProcess(false)
    .showHelpOnFail(false)
    .version(version)
    .parserConfiguration({
      'boolean-negation': false,
      'camel-case-expansion': false,
      'dot-notation': false,
      'parse-numbers': false,
      'parse-positional-numbers': false,
    })
    .strict()
    .demandCommand(1)
    .fail((message, error) => {
      throw usageProblem(argv, commands, message ?? error.message);
    });
  for (const command of commands) {
    parser.command(
      [command.name, ...command.words.map(yargsWord)].join(' '),
      command.about,
      (builder) => {
        builder.usage(['longnight', command.name, ...command.words].join(' '));
        for (const name of command.options) builder.option(name, yargsOption(OPTIONS[name]));
      },
      (parsed) => {
        asked = { command, args: argumentsOf(command, parsed) };
      },
    );
  }
  let printed = '';
  const parsed = await parser.parseAsync([...argv], {}, (_error, _parsed, output) => {
    printed = output;
  });
  if (printed !== '') {
    const command = commands.find((candidate) => candidate.name === parsed._[0]);
    const examples = parsed.version !== true ? `${helpExamples(commands, command)}\n` : '';
    return { text: `${examples}${printed}\n` };
  }
  const emptied = argv.find((word) => /^--[^=]+=/.test(word) && !isTextWithValue(word));
  if (asked === undefined || emptied !== undefined) throw usageProblem(argv, commands, '');
  return asked;
}

/** `SCENARIO` as yargs writes a word that is needed, `SCENARIO...` as one that may be repeated. */
function yargsWord(word: string): string {
  return word.startsWith('[') ? word : `<${word.replace('...', '..')}>`;
}

function yargsOption(facts: OptionFacts) {
  return facts.kind === 'switch'
    ? { type: 'boolean' as const, describe: facts.about }
    : { type: 'string' as const, describe: `${facts.about}: ${facts.example}`, requiresArg: true };
}

/** Whether `--name=value` gives a value, not an empty one, to an option that takes one. */
function isTextWithValue(word: string): boolean {
  const [name = '', value = ''] = word.slice(2).split('=', 2);
  return (
    Object.entries(OPTIONS).some(([known, facts]) => known === name && facts.kind === 'text') && value !== ''
  );
}

function argumentsOf(command: Command, parsed: Record<string, unknown>): Arguments {
  const words: string[] = [];
  for (const word of command.words) {
    const value = parsed[word.replace(/[[\].]/g, '')];
    if (typeof value === 'string') words.push(value);
    else if (Array.isArray(value)) words.push(...value.map(String));
  }
  return {
    words,
    has: (option) => last(parsed[option]) === true,
    text: (option) => {
      const value = last(parsed[option]);
      return typeof value === 'string' ? value : undefined;
    },
  };
}

/** Of an option typed more than once the last counts. */
function last(value: unknown): unknown {
  return Array.isArray(value) ? value.at(-1) : value;
}
