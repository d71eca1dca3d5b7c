import { COMMANDS } from '../../../sim/cli/commands.ts';
import { ioOf } from '../../../sim/cli/Io.ts';
import { parseCommandLine } from '../../../sim/cli/parseCommandLine.ts';
import { weatherWishes } from '../../../sim/cli/weatherWishes.ts';
import { InputProblem } from '../../../sim/common/InputProblem.ts';
import { bytesSource } from '../../../sim/tables/TableSource.ts';
import { importWeather, type WeatherReport } from '../../../sim/weather/importWeather.ts';
import type { ExportFile } from './exports.ts';

const HOUR = 3_600_000;

/** What came of a file, from best to worst. */
export const OUTCOMES = [
  /** Read rightly, or refused for good where nothing else is right, with the place alone. */
  'right',
  /** Refused, and a mend that was offered, typed as printed, led to the right reading. */
  'mended',
  /** Refused, and no mend leads anywhere. */
  'no way in',
  /** A mend that was typed brought the same refusal again. */
  'ring',
  /** Taken, and wrong. */
  'wrong',
  'crash',
] as const;

export interface Outcome {
  outcome: (typeof OUTCOMES)[number];
  /** What was typed beside the place. */
  typed: string[];
  note: string;
}

/** Mends are followed so far: each is to be a nearer question. */
const MOST_MENDS = 3;

/** Reads an export with its place alone, and types what its refusals offer until one reading is right. */
export async function outcomeOf(file: ExportFile): Promise<Outcome> {
  const { latitude_deg, longitude_deg } = file.place;
  return follow(file, [`--place ${latitude_deg},${longitude_deg}`], []);
}

async function follow(
  file: ExportFile,
  typed: readonly string[],
  before: readonly string[],
): Promise<Outcome> {
  const beside = typed.slice(1);
  let refusal: InputProblem;
  try {
    const report = await read(file, typed);
    const isUnasked = file.kind.startsWith('stations') && !typed.some((each) => each.startsWith('--station'));
    const off = isUnasked ? 'one of two stations taken unasked' : offOf(file, report);
    if (off === '') return { outcome: beside.length === 0 ? 'right' : 'mended', typed: beside, note: '' };
    // Whoever typed a choice that was not theirs chose so themselves.
    return { outcome: beside.length === 0 ? 'wrong' : 'no way in', typed: beside, note: off };
  } catch (error) {
    if (!(error instanceof InputProblem))
      return { outcome: 'crash', typed: beside, note: String((error as Error).stack) };
    refusal = error;
  }
  const note = refusal.message;
  if (before.includes(note)) return { outcome: 'ring', typed: beside, note };
  if (beside.length === 0 && mayBeRefused(file, note)) return { outcome: 'right', typed: beside, note };
  if (before.length === MOST_MENDS) return { outcome: 'no way in', typed: beside, note };
  const found: Outcome[] = [];
  for (const mend of refusal.problems.flatMap((problem) => problem.typed ?? [])) {
    if (!note.includes(mend)) return { outcome: 'no way in', typed: beside, note: `not printed: ${mend}` };
    // Insisting on the file's word is no correction.
    if (mend === '--believe file') continue;
    const outcome = await follow(file, [...typed, mend], [...before, note]);
    if (outcome.outcome === 'mended') return outcome;
    found.push(outcome);
  }
  const worst =
    found.find(({ outcome }) => outcome === 'crash') ?? found.find(({ outcome }) => outcome === 'ring');
  return (
    worst ?? {
      outcome: 'no way in',
      typed: beside,
      note: [note, ...found.map((each) => `${each.typed.join(' ')}: ${each.note}`)].join('\n      '),
    }
  );
}

/** What is understood of the file where this is typed after it, by the command line's own way. */
async function read(file: ExportFile, typed: readonly string[]): Promise<WeatherReport> {
  const words = typed.join(' ').match(/(?:[^\s"]|"[^"]*")+/g) ?? [];
  const plain = words.map((word) => word.replaceAll('"', ''));
  const asked = await parseCommandLine(['weather', 'export.csv', ...plain], COMMANDS, '');
  if ('text' in asked) throw new Error(asked.text);
  const silent = { stdout: () => {}, stderr: () => {}, isTTY: { stdout: false, stderr: false } };
  const io = ioOf({
    ...silent,
    columns: undefined,
    onInterrupt: () => () => {},
    env: {},
    stdin: async function* () {},
    clock_s: () => 0,
    cwd: '',
  });
  const bytes = new TextEncoder().encode(file.text);
  const { report } = await importWeather(
    [bytesSource({ name: 'export.csv', bytes })],
    weatherWishes(asked.args, io),
  );
  return report;
}

/** Months and what was made up may be refused for good, where the refusal says what is the matter. */
function mayBeRefused({ kind }: ExportFile, message: string): boolean {
  if (kind === 'months only') return /month/i.test(message);
  return kind === 'interpolated month' && /interpolat|straight|filled|made up/i.test(message);
}

/** Greatest share of the light by which hours (days, of sums of days) may differ: a clock off by 15 minutes makes 0.07. */
const MOST_OFF = 0.05;
const MOST_OFF_DEGC = 1;

/** In what the reading is wrong; '' where it is right. */
function offOf(file: ExportFile, { quality, filled }: WeatherReport): string {
  if (file.kind === 'months only') return 'taken, of months alone';
  const at = (filled.start_ms === file.start_ms ? 0 : file.start_ms - filled.start_ms) / HOUR;
  const step = file.kind === 'sums of days' ? 24 : 1;
  let [off, total, hours, absent, airOff, airHours] = [0, 0, 0, 0, 0, 0];
  for (let i = 0; i + step <= file.ghi_W_m2.length; i += step) {
    const [truth, got] = [sumOf(file.ghi_W_m2, i, step), sumOf(filled.ghi_W_m2, at + i, step)];
    if (Number.isNaN(truth)) continue;
    hours++;
    if (Number.isNaN(got)) absent++;
    else {
      off += Math.abs(got - truth);
      total += truth;
    }
    const air = filled.air_degC?.[at + i] ?? Number.NaN;
    if (Number.isNaN(air) || step > 1) continue;
    airOff += Math.abs(air - file.air_degC[i]!);
    airHours++;
  }
  if (file.madeUp !== undefined) {
    const [from, to] = file.madeUp;
    const passed = quality.columns.ghi_W_m2.subarray(at + from, at + to).filter((value) => value > 0).length;
    if (passed > (to - from) / 10) return `${passed} hours that were made up pass as measured`;
  }
  if (absent > hours / 10) return `${absent} of ${hours} hours are absent`;
  if (off / total > MOST_OFF)
    return `light off by ${(off / total).toFixed(3)}, from ${new Date(filled.start_ms).toISOString()}`;
  if (airHours > 0 && airOff / airHours > MOST_OFF_DEGC)
    return `air off by ${(airOff / airHours).toFixed(1)} degC`;
  return '';
}

function sumOf(values: Float64Array, from: number, count: number): number {
  let sum = 0;
  for (let i = from; i < from + count; i++) sum += values[i] ?? Number.NaN;
  return sum;
}
