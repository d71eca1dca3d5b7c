import { join } from 'node:path';
import { visibleJson } from '../common/visibleText.ts';
import type { FigureFile } from '../output/figures/standaloneSvg.ts';
import { wrapText } from '../output/textTable.ts';
import { writeFigures } from '../output/writeFiles.ts';
import type { Arguments } from './Command.ts';
import type { Interruption } from './Interruption.ts';
import { EXIT, type Io, pathFrom } from './Io.ts';

/** A result, to be written and said. */
export interface Result {
  /** Writes its files: the name of its own folder below that of all, their names, the JSON among them. */
  write: () => { folder: string; files: string[]; json: string };
  figures: () => FigureFile[];
  /** What a person reads. */
  text: (colour: boolean) => string;
  /** Whether a trial falls short of what `--must-keep` asks for. */
  broken: boolean;
}

const PAGE = 'report.html';

/** The folder that gets one folder per result, as it was typed or not. */
export function outFolder(args: Arguments, io: Io): string {
  return pathFrom(io, outTyped(args));
}

function outTyped(args: Arguments): string {
  return args.text('out') ?? 'out';
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
    io.stderr(`${[...files.map((file) => join(folder, file)), ...drawn].join('\n')}\n`);
  } else {
    io.stdoutInColour(result.text);
    if (pictures.length > 0) io.stdout(`${pictures.length} pictures in ${figures}\n`);
    const others = `Beside the page to look at: ${files.filter((file) => file !== PAGE).join(', ')}`;
    io.stdout(`${wrapText(others, 0, 2, 80).join('\n')}\n`);
    io.stdout(`${join(folder, PAGE)}\n`);
  }
  if (await interruption.end()) return EXIT.interrupted;
  return result.broken ? EXIT.promiseBroken : EXIT.ran;
}

/** A value as the text of a JSON file, everything in it seen. */
export function jsonText(value: object): string {
  return `${visibleJson(JSON.stringify(value, null, 2))}\n`;
}
