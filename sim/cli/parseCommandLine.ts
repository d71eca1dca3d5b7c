import yargs from 'yargs';
import { nearestWord } from '../common/hints.ts';
import type { Arguments, Command } from './Command.ts';
import { EXIT_WORDS, STREAM_WORDS, VARIABLES } from './helpFacts.ts';
import { numberWithin } from './numberWithin.ts';
import { COMMON_OPTIONS, OPTIONS, type OptionFacts, type OptionName, optionFacts } from './options.ts';
import { usageMistake, usageProblem } from './usageProblem.ts';

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
  let asked: Exclude<Asked, { text: string }> | undefined;
  const parser = emptyParser(version).fail((message, error) => {
    throw usageProblem(argv, commands, message ?? error.message);
  });
  for (const command of commands) {
    parser.command(
      [command.name, ...command.words.map(yargsWord)].join(' '),
      command.about,
      (builder) => {
        builder.usage(['longnight', command.name, ...command.words].join(' '));
        for (const name of [...command.options, ...COMMON_OPTIONS])
          builder.option(name, yargsOption(OPTIONS[name]));
      },
      (parsed) => {
        asked = { command, args: argumentsOf(command, parsed) };
      },
    );
  }
  let printed = '';
  const parsed = await parser.parseAsync(withValues(asOption(argv)), {}, (_error, _parsed, output) => {
    printed = output;
  });
  if (printed !== '') {
    const command = commands.find((candidate) => candidate.name === parsed._[0]);
    const examples = parsed.version === true ? '' : helpExamples(commands, command);
    return { text: `${examples}${printed}\n` };
  }
  const odd = argv.find((word) => /^--[^=]+=/.test(word) && !isTextWithValue(word));
  if (asked === undefined || odd !== undefined) throw usageProblem(argv, commands, '');
  const emptied = asked.command.options.find((option) => [parsed[option]].flat().includes(''));
  if (emptied !== undefined) throw usageProblem(argv, commands, `Not enough arguments following: ${emptied}`);
  return asked;
}

/** 'help' and 'help run' as what they stand for. */
function asOption(argv: readonly string[]): readonly string[] {
  return argv[0] === 'help' ? [...argv.slice(1), '--help'] : argv;
}

/** Stands in for '-', which the parser takes for an option without a name. */
const DASH = '\u0000';

/** Stands in for the value of an option that was typed without its optional one. */
const NO_VALUE = 'without';

/** Words of a command line, options that may stand without their value joined to it, so that no word after them is taken for it. */
function withValues(argv: readonly string[]): string[] {
  return argv.flatMap((word, k) => {
    const before = argv[k - 1] ?? '';
    if (mayStandAlone(before) && isNumber(word)) return [];
    if (!mayStandAlone(word)) return [word === '-' ? DASH : word];
    const next = argv[k + 1] ?? '';
    return [`${word}=${isNumber(next) ? next : NO_VALUE}`];
  });
}

function mayStandAlone(word: string): boolean {
  return word.startsWith('--') && optionFacts(word.slice(2))?.optional === true;
}

function isNumber(word: string): boolean {
  return /^-?[\d.,]+ *%?$/.test(word);
}

const EPILOGUE = [
  STREAM_WORDS,
  `Exit codes: ${EXIT_WORDS.map(([code, words]) => `${code} ${words}`).join('; ')}.`,
  `Variables: ${VARIABLES.map(([name, words]) => `${name}, ${words}`).join('; ')}.`,
].join('\n');

function emptyParser(version: string) {
  return yargs()
    .scriptName('longnight')
    .usage('longnight COMMAND ...')
    .locale('en')
    .wrap(100)
    .exitProcess(false)
    .showHelpOnFail(false)
    .version(version)
    .alias({ help: 'h', version: 'V' })
    .epilogue(EPILOGUE)
    .parserConfiguration({
      'boolean-negation': false,
      'camel-case-expansion': false,
      'dot-notation': false,
      'parse-numbers': false,
      'parse-positional-numbers': false,
    })
    .strict()
    .demandCommand(1);
}

/** The examples that lead a help text, each under what it is for: those of a command, or the first of each. */
function helpExamples(commands: readonly Command[], command: Command | undefined): string {
  const examples = command?.examples ?? commands.flatMap((each) => each.examples.slice(0, 1));
  return `Examples\n${examples.map(([typed, purpose]) => `  # ${purpose}\n  ${typed}\n`).join('')}\n`;
}

/** `SCENARIO` as yargs writes a word that is needed, `SCENARIO...` as one that may be repeated. */
function yargsWord(word: string): string {
  const repeated = word.replace('...', '..');
  return word.startsWith('[') ? repeated : `<${repeated}>`;
}

function yargsOption(facts: OptionFacts) {
  return facts.unit === undefined
    ? { type: 'boolean' as const, describe: facts.about }
    : { type: 'string' as const, describe: `${facts.about}: ${facts.example}`, requiresArg: true };
}

/** Whether `--name=value` gives a value, not an empty one, to an option that takes one. */
function isTextWithValue(word: string): boolean {
  const [name = '', value = ''] = word.slice(2).split('=', 2);
  return optionFacts(name)?.unit !== undefined && value !== '';
}

function argumentsOf(command: Command, parsed: Record<string, unknown>): Arguments {
  // Of an option typed more than once the last counts.
  const last = (option: OptionName) => [parsed[option]].flat().at(-1);
  const text = (option: OptionName) => {
    const value = last(option);
    return typeof value === 'string' && value !== NO_VALUE ? typed(value) : undefined;
  };
  return {
    words: command.words.flatMap((word) => parsed[word.replace(/[[\].]/g, '')] ?? []).map(typed),
    has: (option) =>
      last(option) === true || (typeof last(option) === 'string' && optionFacts(option)?.optional === true),
    all: (option) => [parsed[option] ?? []].flat().map(typed),
    ...readingsOf(text),
  };
}

/** What is read of the values that options have. in: text, the value of an option; undefined where it has none */
export function readingsOf(text: Arguments['text']): Pick<Arguments, 'text' | 'oneOf' | 'number'> {
  return {
    text,
    oneOf: (option, words) => oneOf(option, text(option), words),
    number: (option, from, to) => {
      const value = text(option);
      const unit = optionFacts(option)?.unit ?? '';
      return value === undefined ? undefined : numberWithin(value, `--${option} ${value}`, from, to, unit);
    },
  };
}

/** A word as it was typed. */
function typed(word: unknown): string {
  return word === DASH ? '-' : String(word);
}

function oneOf<Word extends string>(option: OptionName, text: string | undefined, words: readonly Word[]) {
  const word = words.find((known) => known === text);
  if (text === undefined || word !== undefined) return word;
  const near = nearestWord(text, words);
  const fix = near === undefined ? `--${option} ${words[0]}` : `did you mean --${option} ${near}?`;
  throw usageMistake(`--${option} ${text}`, words.map((each) => `--${option} ${each}`).join(' or '), fix);
}
