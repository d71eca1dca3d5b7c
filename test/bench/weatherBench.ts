import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { BUILT, built } from './built.ts';
import { longWeather } from './longWeather.ts';

// Measures and prints how fast weather of unknown layout is understood; nothing here is asserted.

const { fileSource, importWeather, readRecognised, recognise } = built;

const ROWS = 5_000_000;
const PLACE = { latitude_deg: 54, longitude_deg: 10 };
const root = fileURLToPath(new URL('../..', import.meta.url));
const place = JSON.stringify(PLACE);
const SAID = { place: PLACE };
const said = JSON.stringify(SAID);
/** What a child does with its sources. */
const READINGS = [
  [
    'recognised and read',
    `const series = await readRecognised(sources, await recognise(sources, ${said}), ${place});
     const rows = series.files[0].rows;`,
  ],
  [
    'the whole of it: sun, quality and gaps too',
    `const { report } = await importWeather(sources, ${said});
     const rows = report.files[0].rows;`,
  ],
] as const;
const row = (what: string, value: string) => process.stdout.write(`  ${what.padEnd(52)} ${value}\n`);

process.stdout.write('\nWeather of unknown layout, 8760 rows in this process; median of 15 after 5\n');
{
  const source = fileSource(join(root, 'data-samples/invented-year-semicolon.csv'));
  await timed('recognised and read', async () => {
    await readRecognised([source], await recognise([source], SAID), PLACE);
  });
  await timed('the whole of it: sun, quality and gaps too', async () => {
    await importWeather([source], SAID);
  });
}

process.stdout.write(`\n${ROWS / 1e6} million one-minute rows, each reading in a process of its own\n`);
const folder = mkdtempSync(join(tmpdir(), 'longnight-weather-'));
try {
  for (const columns of [2, 11] as const) {
    const path = join(folder, `${columns}.csv`);
    const longest = longWeather(path, ROWS, columns);
    const megabytes = (statSync(path).size / 1e6).toFixed(0);
    row(`stamp and ${columns} values`, `${megabytes} MB, at most ${longest} bytes a row`);
    for (const [what, code] of READINGS) row(`  ${what}`, inChild(code, path));
    rmSync(path);
  }
} finally {
  rmSync(folder, { recursive: true });
}

function inChild(code: string, path: string): string {
  const script = `
    const { fileSource, importWeather, readRecognised, recognise } = await import(${JSON.stringify(BUILT.href)});
    const sources = [fileSource(${JSON.stringify(path)})];
    const from = performance.now();
    ${code}
    const seconds = (performance.now() - from) / 1000;
    const megabytes = process.resourceUsage().maxRSS / 1024;
    console.log(rows + ' rows, ' + seconds.toFixed(1) + ' s, at most ' + megabytes.toFixed(0) + ' MB of memory');`;
  const { status, stdout, stderr } = spawnSync(process.execPath, ['--input-type=module', '-e', script], {
    encoding: 'utf8',
  });
  if (status !== 0) throw new Error(stderr);
  return stdout.trim();
}

async function timed(what: string, call: () => Promise<void>): Promise<void> {
  for (let i = 0; i < 5; i++) await call();
  const times: number[] = [];
  for (let i = 0; i < 15; i++) {
    const from = performance.now();
    await call();
    times.push(performance.now() - from);
  }
  times.sort((a, b) => a - b);
  row(what, `${times[7]!.toFixed(0)} ms (least ${times[0]!.toFixed(0)})`);
}
