import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { expect } from 'vitest';
import { runMain } from '../cli/runMain.ts';
import { type SmallGarden, smallGarden } from '../cli/smallGarden.ts';
import type { Property } from '../properties/Property.ts';
import { choiceGarden } from '../sizing/choiceGarden.ts';
import { damagedScenario } from './scenarioDamage.ts';

/** What a maker types for a damaged scenario, and where. */
interface Typed {
  words: readonly string[];
  /** A folder with the sound scenario small.yaml. */
  garden: () => SmallGarden;
  title: string;
  runs: number;
}

/** Carries out a command on a damaged scenario, and throws where it is neither done nor refused, or says nonsense. */
async function doDamaged(words: readonly string[], folder: string, text: string): Promise<void> {
  const [command = '', ...options] = words;
  const out = join(folder, 'out');
  writeFileSync(join(folder, 'damaged.yaml'), text);
  const argv = [command, join(folder, 'damaged.yaml'), '--out', out, '--json', ...options];
  const { code, stdout, stderr } = await runMain(argv, { cwd: folder });
  if (/this is a defect|\n\s+at .*:\d+:\d+/.test(stdout + stderr)) throw new Error(`${stdout}${stderr}`);
  expect([0, 2], stderr).toContain(code);
  if (code === 2) return;
  JSON.parse(stdout);
  for (const said of [stdout, ...tablesIn(out)]) {
    const nonsense = /NaN|Infinity|undefined|\[object/.exec(said)?.[0];
    if (nonsense !== undefined && !text.includes(nonsense)) throw new Error(`a result says ${nonsense}`);
  }
}

/** The tables that a command wrote into folders below one, but for those of hours. */
function tablesIn(out: string): string[] {
  return readdirSync(out, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.csv') && !name.endsWith('hours.csv'))
    .map((name) => readFileSync(join(out, name), 'utf8'));
}

const TYPED: readonly Typed[] = [
  {
    title: 'a scenario, however damaged, runs or is refused in words, and no result says nonsense',
    words: ['run'],
    garden: smallGarden,
    runs: 160,
  },
  {
    title: 'of a scenario with choices, however damaged, the lamp is sized or it is refused in words',
    words: ['size'],
    garden: choiceGarden,
    runs: 24,
  },
  {
    title: 'lamps of a scenario, however damaged, are followed through winters or it is refused in words',
    words: ['life', '--years', '2'],
    garden: () => smallGarden(365),
    runs: 24,
  },
];

/** Scenarios, however damaged. The folder the runs are in is made and cleared by each check. */
export const RUN_FUZZ: Property[] = TYPED.map(({ title, words, garden: plant, runs }) => ({
  title,
  runs,
  check: async (numRuns, seed = 20260103) => {
    const garden = plant();
    const small = readFileSync(join(garden.folder, 'small.yaml'), 'utf8');
    const earlier = join(garden.folder, 'out');
    try {
      await fc.assert(
        fc.asyncProperty(damagedScenario(small), async ({ text }) => {
          await doDamaged(words, garden.folder, text);
          if (existsSync(earlier)) rmSync(earlier, { recursive: true });
        }),
        { numRuns, seed },
      );
    } finally {
      garden.remove();
    }
  },
}));
