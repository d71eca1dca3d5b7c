import { nearestWord } from '../common/hints.ts';
import { InputProblem, type Problem } from '../common/InputProblem.ts';
import type { Command } from './Command.ts';
import { COMMON_OPTIONS, optionFacts } from './options.ts';

/**
 * A command line that cannot be understood, as bad input.
 *
 * in: got, what was typed; expected, what could stand there; fix, the likely fix
 * out: the error, to be thrown
 */
export function usageMistake(got: string, expected: string, fix: string): InputProblem {
  return new InputProblem({ code: 'USAGE', file: 'command line', got, expected, fix });
}

type Mistake = Pick<Problem, 'got' | 'expected' | 'fix'>;

/**
 * What is wrong with a command line, as bad input with suggestions.
 *
 * in: argv, as typed; commands, those there are; message, of the parser ('' where it saw nothing wrong)
 * out: the error, to be thrown
 */
export function usageProblem(
  argv: readonly string[],
  commands: readonly Command[],
  message: string,
): InputProblem {
  const mistakes = mistakesOf(argv, commands, message);
  return new InputProblem(mistakes.map((mistake) => ({ code: 'USAGE', file: 'command line', ...mistake })));
}

function mistakesOf(argv: readonly string[], commands: readonly Command[], message: string): Mistake[] {
  const first = argv.find((word) => !word.startsWith('-'));
  const command = commands.find((candidate) => candidate.name === first);
  const names = commands.map((candidate) => candidate.name);
  if (first === undefined)
    return [{ got: 'no command', expected: names.join(', '), fix: 'longnight --help' }];
  if (command === undefined) {
    const near = nearestWord(first, names);
    return [{ got: `"${first}"`, expected: `a command: ${names.join(', ')}`, fix: meant(near) }];
  }
  const unknown = /^Unknown arguments?: (.*)$/.exec(message)?.[1];
  if (unknown !== undefined) {
    const words = unknown.split(', ');
    const place = command.options.includes('place') ? oldPlace(argv) : undefined;
    const others = place === undefined ? words : words.filter((word) => !PLACE_WORDS.includes(word));
    return [...(place ?? []), ...others.map((word) => unknownWord(word, argv, command))];
  }
  const help = `longnight ${command.name} --help`;
  const hungry = /^Not enough arguments following: (.*)$/.exec(message)?.[1];
  if (hungry !== undefined) return [withoutValue(hungry, help)];
  if (message.startsWith('Not enough non-option arguments')) {
    // An option that is misspelt may have taken the word for its value.
    const strange = unknownOptions(argv, command);
    if (strange.length > 0) return strange.map((word) => unknownWord(word, argv, command));
    return [
      { got: `nothing after ${command.name}`, expected: command.words.join(' '), fix: firstExample(command) },
    ];
  }
  const odd = argv
    .find((word) => /^--[^=]+=/.test(word))
    ?.slice(2)
    .split('=', 1)[0];
  if (message === '' && odd !== undefined) return [oddValue(odd, help)];
  return [{ got: `"${argv.join(' ')}"`, expected: message === '' ? 'a command' : message, fix: help }];
}

/** What a place was typed with, one option for each number, before there was `--place`. */
const PLACE_WORDS = ['latitude', 'longitude', 'elevation'];

/** A place in the old way, and how it is typed now. */
function oldPlace(argv: readonly string[]): Mistake[] | undefined {
  const typed = PLACE_WORDS.map((word) => {
    const at = argv.findLastIndex((each) => each === `--${word}` || each.startsWith(`--${word}=`));
    return argv[at]?.split('=')[1] ?? (at < 0 ? undefined : argv[at + 1]);
  });
  const got = PLACE_WORDS.flatMap((word, k) => (typed[k] === undefined ? [] : `--${word} ${typed[k]}`));
  if (got.length === 0) return undefined;
  const [latitude = 'LAT', longitude = 'LON', elevation] = typed;
  const now = [latitude, longitude, elevation ?? []].flat().join(',');
  return [{ got: got.join(' '), expected: 'the place in one option', fix: `--place ${now}` }];
}

/** Names of options that were typed and are none of the command's. */
function unknownOptions(argv: readonly string[], { options }: Command): string[] {
  const known: readonly string[] = [...options, ...COMMON_OPTIONS, 'help', 'version'];
  const typed = argv.flatMap((word) => /^--([^=]+)/.exec(word)?.[1] ?? []);
  return typed.filter((name) => !known.includes(name));
}

function unknownWord(word: string, argv: readonly string[], command: Command): Mistake {
  const typed = argv.find(
    (each) => each.replace(/^-+/, '').split('=', 1)[0] === word && each.startsWith('-'),
  );
  if (typed === undefined) {
    const words = command.words.length === 0 ? 'no word' : `only ${command.words.join(' ')}`;
    return {
      got: `a further word "${word}"`,
      expected: `${words} after ${command.name}`,
      fix: 'put quotes around a name with blanks.',
    };
  }
  const options = [...command.options, ...COMMON_OPTIONS].map((option) => `--${option}`);
  const near = nearestWord(`--${word}`, options);
  return {
    got: `an unknown option ${typed.split('=', 1)[0]}`,
    expected: `an option of ${command.name}: ${options.join(', ')}`,
    fix: meant(near),
  };
}

function withoutValue(option: string, help: string): Mistake {
  const facts = optionFacts(option);
  return {
    got: `--${option} without a value`,
    expected: `a ${facts?.unit ?? 'value'} after it`,
    fix: facts?.example ?? help,
  };
}

function oddValue(option: string, help: string): Mistake {
  const facts = optionFacts(option);
  return facts !== undefined && facts.unit === undefined
    ? { got: `--${option} with a value`, expected: 'a switch, which takes none', fix: facts.example }
    : withoutValue(option, help);
}

function meant(near: string | undefined): string {
  return near === undefined ? 'longnight --help' : `did you mean ${near}?`;
}

function firstExample(command: Command): string {
  return command.examples[0]?.[0] ?? 'longnight --help';
}
