import type { Figure } from './figures/Figure.ts';
import { standaloneSvg } from './figures/standaloneSvg.ts';
import { writeFiles } from './writeFiles.ts';

/** A picture and the name of its file. */
export interface FigureFile {
  name: string;
  figure: Figure;
}

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
