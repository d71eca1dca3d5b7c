import { join } from 'node:path';
import type { FigureFile } from '../output/figures/standaloneSvg.ts';
import { program } from '../output/program.ts';
import { type Grounds, sameAgain } from '../output/sameAgain.ts';
import { type Look, wrapText } from '../output/textTable.ts';
import { writeFigures } from '../output/writeFiles.ts';
import type { Arguments } from './Command.ts';
import type { Interruption } from './Interruption.ts';
import { EXIT, type Io, pathFrom } from './Io.ts';
import { makableFolder } from './makableFolder.ts';
import { COMMON_OPTIONS, OPTIONS, type OptionName } from './options.ts';
import { typedAgain } from './typedAgain.ts';
import { usageMistake } from './usageProblem.ts';

/** A result, to be written and said. */
export interface Result {
  /** Writes its files: the name of its own folder below that of all, their names, the JSON among them. */
  write: () => { folder: string; files: string[]; json: string };
  figures: () => FigureFile[];
  /** What a person reads. */
  text: (look: Look) => string;
  /** What it rests on. */
  grounds: Grounds;
  /** Whether a trial falls short of what `--must-keep` asks for. */
  broken: boolean;
}

const PAGE = 'report.html';

/** Options that say how files are written. */
const OF_FILES = ['out', 'figures', 'hours'] as const satisfies OptionName[];

/**
 * The folder that gets one folder per result, as it was typed or not; undefined where nothing is to be written.
 *
 * throws: USAGE where files are asked for and refused at once, or their folder cannot be made
 */
export function outFolder(args: Arguments, io: Io): string | undefined {
  if (!args.has('no-files')) {
    const figures = args.text('figures');
    if (figures !== undefined) makableFolder(figures, `--figures ${figures}`, OPTIONS.figures.example, io);
    const out = outTyped(args);
    return makableFolder(out, `--out ${out}`, OPTIONS.out.example, io);
  }
  const asked = OF_FILES.filter((option) => args.has(option) || args.text(option) !== undefined);
  if (asked.length === 0) return undefined;
  const both = ['no-files', ...asked].map((option) => `--${option}`).join(' and ');
  throw usageMistake(both, 'files or none', 'leave --no-files away');
}

function outTyped(args: Arguments): string {
  return args.text('out') ?? 'out';
}

/** Options that say only what becomes of a result, or how it is told. */
const TELLING: readonly OptionName[] = [
  ...OF_FILES,
  ...COMMON_OPTIONS,
  'json',
  'no-files',
  'details',
  'card',
];
const MOVING = (Object.keys(OPTIONS) as OptionName[]).filter((option) => !TELLING.includes(option));

/** What was written, the page to look at last, so that a terminal opens it. */
function fileLines(folder: string, files: readonly string[], columns: number | undefined): string[] {
  const others = `Beside the page to look at: ${files.filter((file) => file !== PAGE).join(', ')}`;
  return [...wrapText(others, 0, 2, columns), join(folder, PAGE)];
}

/**
 * Writes a result and says it: text for a person, or the JSON alone with the paths on stderr.
 *
 * in: result; args; io; interruption, so that the first Ctrl-C does not come between the files
 * out: exit code
 */
export async function giveResult(
  result: Result,
  args: Arguments,
  io: Io,
  interruption: Interruption,
): Promise<number> {
  const figures = args.text('figures');
  const { folder: name, files, json } = result.write();
  const folder = join(outTyped(args), name);
  const pictures = figures === undefined ? [] : writeFigures(pathFrom(io, figures), result.figures());
  if (args.has('json')) {
    const drawn = pictures.map((picture) => join(figures ?? '', picture));
    io.stdout(json);
    if (files.length > 0) io.stderr(`${[...files.map((file) => join(folder, file)), ...drawn].join('\n')}\n`);
  } else {
    const filed = files.length > 0;
    const details = args.has('details');
    io.stdoutLaidOut((look) => result.text({ ...look, details, filed }));
    const moved = typedAgain(args, MOVING);
    io.stdoutLaidOut(({ columns }) => {
      const words = sameAgain(result.grounds, program(), moved);
      return `${wrapText(words, 0, 2, columns).join('\n')}\n`;
    });
    if (pictures.length > 0) io.stdout(`${pictures.length} pictures in ${figures}\n`);
    if (files.length > 0)
      io.stdoutLaidOut(({ columns }) => `${fileLines(folder, files, columns).join('\n')}\n`);
  }
  if (await interruption.end()) return EXIT.interrupted;
  return result.broken ? EXIT.promiseBroken : EXIT.ran;
}
