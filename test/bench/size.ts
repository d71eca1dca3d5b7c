import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { bareCode } from '../house/bareCode.ts';
import { filesBelow, type SourceFile } from '../house/simFiles.ts';

// What each capability costs in lines of sim/: npm run size [-- --write] writes the table into DEVELOPERS.md.

/** A file belongs to the first capability whose pattern fits. */
const CAPABILITIES: readonly (readonly [name: string, paths: RegExp])[] = [
  [
    'command line, trial, common',
    /^cli\/(?!commands\/(weather|compare|fit))(?!weatherWishes)|^(index|core)\.ts/,
  ],
  ['import of weather', /^(weather|tables)\/|^(cli|output|trial)\/.*[wW]eather/],
  [
    'measured light, service log, spread, changes',
    /^spot\/(measured\/|logged)|^fitting\/(serviceLog|readCapacitorLog|fitLog|[dD]iary|readDiary|log|lightOf|changedLamp)|^output\/(logFit|spread|change)|^trial\/(spread|\w*Spread|\w*[dD]raws?\b|rank|tolerance|change|Change|singleChange)/,
  ],
  [
    'what the verdict hangs on',
    /^trial\/(sensitivity|LeanTrials|partEnds|trialAssumptions|howToKnow)|^output\/(sensitivity|keyWords)|^scenario\/uncertain/,
  ],
  [
    'build and bench sheet',
    /^(trial|output|output\/page)\/(bench|spotSurvey|spotPart|cautions|overRating|loadResistor)/,
  ],
  ['pictures and page', /^output\/(figures|page)\/|^output\/writeFigures|^(spot|output)\/skyPicture/],
  [
    'compare',
    /[cC]ompar|^spot\/spotLimits|^trial\/(chargeClaim|monthlyLight|scenarioDiff)|^output\/(claim|limit|light|sideBy)/,
  ],
  ['sun and clear sky', /^sun\/|^spot\/sky\/[cC]lear/],
  ['light on the cell', /^spot\//],
  [
    'bench readings to parameters',
    /^fitting\/|^lamp\/(.*\/)?([rR]eadings?|fromReadings|\w*Reading|fit)|^common\/(fit|leastSq|Estimate)|^output\/(fit|estimate)|^cli\/commands\/fit/,
  ],
  ['lamp from datasheet', /^lamp\//],
  ['hourly loop', /^year\//],
  ['night ledger and statistics', /^(night|statistics)\//],
  ['scenario', /^scenario\//],
  ['terminal, CSV, JSON', /^output\//],
  ['climate, ageing, sizing', /^(climate|ageing|sizing)\//],
  ['command line, trial, common', /^(trial|common)\//],
];

const SECTION = /(<!-- npm run size -->\n)[\s\S]*?(<!-- end -->)/;

interface Size {
  files: number;
  /** Lines that are not empty: of code, and of comments alone. */
  code: number;
  comments: number;
}

function sizeOf({ text }: SourceFile): Size {
  const filled = (of: string): number => of.split('\n').filter((line) => line.trim() !== '').length;
  const code = filled(bareCode(text).code);
  return { files: 1, code, comments: filled(text) - code };
}

function sumOf(sizes: readonly Size[]): Size {
  const sum = { files: 0, code: 0, comments: 0 };
  for (const { files, code, comments } of sizes) {
    sum.files += files;
    sum.code += code;
    sum.comments += comments;
  }
  return sum;
}

function capabilityOf({ path }: SourceFile): string {
  const inside = path.slice('sim/'.length);
  const found = CAPABILITIES.find(([, paths]) => paths.test(inside));
  if (found === undefined) throw new Error(`${path} belongs to no capability of the list`);
  return found[0];
}

function rowOf(name: string, { files, code, comments }: Size): string {
  const share = (100 * comments) / Math.max(1, code + comments);
  return `| ${[name, files, code, `${share.toFixed(0)} %`].join(' | ')} |`;
}

function tableOf(files: readonly SourceFile[]): string {
  const names = [...new Set(CAPABILITIES.map(([name]) => name))];
  const rows = names.flatMap((name) => {
    const sizes = files.filter((file) => capabilityOf(file) === name).map(sizeOf);
    return sizes.length === 0 ? [] : [{ name, size: sumOf(sizes) }];
  });
  rows.sort((a, b) => b.size.code - a.size.code);
  const outside = files.filter(({ path }) => !path.startsWith('sim/weather/'));
  return [
    '| | files | lines of code | comments |',
    '|---|---|---|---|',
    ...rows.map(({ name, size }) => rowOf(name, size)),
    rowOf('**all of sim/**', sumOf(files.map(sizeOf))),
    rowOf('**outside sim/weather**', sumOf(outside.map(sizeOf))),
    '',
  ].join('\n');
}

function main(): void {
  const files = filesBelow('sim', '.ts');
  const table = tableOf(files);
  if (process.argv.includes('--write')) {
    const path = fileURLToPath(new URL('../../DEVELOPERS.md', import.meta.url));
    const text = readFileSync(path, 'utf8');
    if (!SECTION.test(text)) throw new Error('DEVELOPERS.md has no place for the table');
    writeFileSync(
      path,
      text.replace(SECTION, (_, begin, end) => `${begin}${table}${end}`),
    );
    return;
  }
  console.log(table);
  const largest = files.map((file) => ({ path: file.path, ...sizeOf(file) }));
  largest.sort((a, b) => b.code + b.comments - a.code - a.comments);
  console.log('largest files, lines of code and of comments');
  for (const { path, code, comments } of largest.slice(0, 12))
    console.log(`  ${code} + ${comments}  ${path}`);
}

main();
