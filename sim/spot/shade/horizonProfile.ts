import { nearestWord } from '../../common/hints.ts';
import { InputProblem, type Problem } from '../../common/InputProblem.ts';
import { fewProblems } from '../../common/problemList.ts';
import { cellRows, findHeading } from '../../tables/csvRows.ts';
import { decodeText } from '../../tables/decodeText.ts';
import { parseNumber } from '../../tables/parseNumber.ts';
import type { HorizonProfile } from './horizonScreen.ts';

const HEADINGS = ['bearing_deg', 'elevation_deg'] as const;
const OPTIONAL = 'transmittance';
/** Three points are the fewest that go around. */
const FEWEST_ROWS = 3;

interface Point {
  line: number;
  bearing_deg: number;
  elevation_deg: number;
  transmittance: number;
}

/**
 * A horizon profile from a CSV file with the columns bearing_deg and elevation_deg, in degrees, and where something
 * lets light through (trees) transmittance, a share. Rows may start at any bearing and pass north once; between rows the horizon is a straight line, also from the last row to the first.
 *
 * in: file, name as the user wrote it and its bytes
 * out: the profile, its bearings rising from the one nearest after north
 * throws: SPOT_PROFILE, all of a file together; FILE_NOT_TEXT
 */
export function horizonProfile(file: { name: string; bytes: Uint8Array }): HorizonProfile {
  const problems: Problem[] = [];
  const points = pointsOf(file, problems);
  checkOrder(file.name, points, problems);
  if (problems.length === 0 && points.length < FEWEST_ROWS) {
    problems.push({
      code: 'SPOT_PROFILE',
      file: file.name,
      got: `${points.length} ${points.length === 1 ? 'row' : 'rows'}`,
      expected: `at least ${FEWEST_ROWS} rows that go around the spot`,
      fix: 'measure the elevation at more bearings; 0 where the view is free.',
    });
  }
  if (problems.length > 0) throw new InputProblem(fewProblems(problems));
  const sorted = points.toSorted((a, b) => a.bearing_deg - b.bearing_deg);
  return {
    bearing_deg: Float64Array.from(sorted, (point) => point.bearing_deg),
    elevation_deg: Float64Array.from(sorted, (point) => point.elevation_deg),
    transmittance: Float64Array.from(sorted, (point) => point.transmittance),
  };
}

/** The rows of the file; those that are no points become problems. */
function pointsOf(file: { name: string; bytes: Uint8Array }, problems: Problem[]): Point[] {
  const text = file.bytes.length === 0 ? '' : decodeText(file);
  const found = findHeading(text, HEADINGS);
  const heading = found.cells;
  const fields = HEADINGS.map((name) => heading.indexOf(name));
  const passField = heading.indexOf(OPTIONAL);
  HEADINGS.forEach((name, i) => {
    if (fields[i]! >= 0) return;
    const stem = name.slice(0, name.indexOf('_'));
    const near = nearestWord(name, heading) ?? heading.find((other) => other.toLowerCase().startsWith(stem));
    problems.push({
      code: 'SPOT_PROFILE',
      file: file.name,
      line: found.line,
      field: name,
      got: heading.length === 0 ? 'an empty file' : `the headings ${heading.join(', ')}`,
      expected: 'a heading row with bearing_deg and elevation_deg',
      fix: near === undefined ? `name a column ${name}.` : `rename "${near}" to ${name}.`,
    });
  });
  if (problems.length > 0) return [];
  return cellRows(file.name, text, found).map(({ cells, line }) => {
    const read = (name: keyof typeof REMEDIES, field: number, most: number, unit: string): number => {
      const cell = cells[field] ?? '';
      const value = parseNumber(cell);
      if (value >= 0 && value <= most) return value;
      problems.push({
        code: 'SPOT_PROFILE',
        file: file.name,
        line,
        column: field + 1,
        field: name,
        got: cell === '' ? 'nothing' : cell,
        expected: `a number from 0 to ${most}${unit}`,
        fix: Number.isNaN(value) ? 'write a number with a decimal point.' : REMEDIES[name](value),
      });
      return Number.NaN;
    };
    return {
      line,
      bearing_deg: read('bearing_deg', fields[0]!, 360, ' degrees'),
      elevation_deg: read('elevation_deg', fields[1]!, 90, ' degrees'),
      transmittance: passField < 0 ? 0 : read(OPTIONAL, passField, 1, ''),
    };
  });
}

const REMEDIES: Record<(typeof HEADINGS)[number] | typeof OPTIONAL, (value: number) => string> = {
  transmittance: (value) =>
    value < 0 ? 'write 0 where nothing passes.' : 'write a share: 0.4 for 40 percent.',
  bearing_deg: (value) =>
    value < 0
      ? 'add 360: bearings run clockwise from north.'
      : 'subtract 360, or give the compass bearing in degrees, clockwise from true north.',
  elevation_deg: (value) =>
    value < 0
      ? 'write 0 where the ground falls away.'
      : 'give the angle above the horizontal; straight up is 90.',
};

/** Bearings rise from row to row and go around once at most. A last row at 360 that repeats a first at 0 is dropped. */
function checkOrder(name: string, points: Point[], problems: Problem[]): void {
  const [first] = points;
  const closing = points.at(-1);
  if (first?.bearing_deg === 0 && closing?.bearing_deg === 360) {
    points.pop();
    if (closing.elevation_deg !== first.elevation_deg) {
      problems.push({
        code: 'SPOT_PROFILE',
        file: name,
        line: closing.line,
        field: 'elevation_deg',
        got: `${closing.elevation_deg} at bearing 360`,
        expected: `${first.elevation_deg}, as at bearing 0`,
        fix: 'drop the last row: 360 is 0.',
      });
    }
  }
  for (const point of points) if (point.bearing_deg === 360) point.bearing_deg = 0;
  let turned = false;
  for (let i = 1; i < points.length; i++) {
    const before = points[i - 1]!.bearing_deg;
    const { bearing_deg, line } = points[i]!;
    if (Number.isNaN(before) || Number.isNaN(bearing_deg)) continue;
    if (!turned && bearing_deg < before && bearing_deg < first!.bearing_deg) turned = true;
    else if (bearing_deg <= before || (turned && bearing_deg >= first!.bearing_deg)) {
      problems.push({
        code: 'SPOT_PROFILE',
        file: name,
        line,
        field: 'bearing_deg',
        got: `${bearing_deg} after ${before}`,
        expected: 'bearings that increase from row to row, once around at most',
        fix: 'sort the rows by bearing; for an upright edge give two bearings a little apart.',
      });
    }
  }
}
