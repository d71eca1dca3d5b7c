import { type FigureFile, standaloneSvg } from './figures/standaloneSvg.ts';
import { writeFiles } from './writeFiles.ts';

/**
 * Writes pictures as SVG files into a folder, all of them or none; files of other names there stay.
 *
 * in: folder; files
 * out: names of the files
 * throws: Error of the disk
 */
export function writeFigures(folder: string, files: readonly FigureFile[]): string[] {
  const toWrite = files.map(({ name, figure }) => ({ name, pieces: () => [standaloneSvg(figure)] }));
  const names = files.map(({ name }) => name);
  writeFiles(folder, toWrite, names);
  return names;
}
