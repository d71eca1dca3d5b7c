import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { expect } from 'vitest';
import { runMain } from '../cli/runMain.ts';
import { smallGarden } from '../cli/smallGarden.ts';
import type { Property } from '../properties/Property.ts';
import { damagedScenario } from './scenarioDamage.ts';

/** Runs a damaged scenario over two weeks through the command line, and throws where it neither runs nor is refused. */
async function runDamaged(folder: string, text: string): Promise<void> {
  const file = join(folder, 'damaged.yaml');
  const out = join(folder, 'out');
  writeFileSync(file, text);
  const { code, stdout, stderr } = await runMain(['run', file, '--out', out, '--json'], { cwd: folder });
  if (/this is a defect|\n\s+at .*:\d+:\d+/.test(stdout + stderr)) throw new Error(`${stdout}${stderr}`);
  expect([0, 2], stderr).toContain(code);
  if (code === 2) return;
  JSON.parse(stdout);
  const nights = readFileSync(join(out, JSON.parse(stdout).scenario.name, 'nights.csv'), 'utf8');
  for (const words of [nights, stdout]) {
    const nonsense = /NaN|Infinity|undefined|\[object/.exec(words)?.[0];
    if (nonsense !== undefined && !text.includes(nonsense)) throw new Error(`a result says ${nonsense}`);
  }
}

/** Scenarios, however damaged. in: folder the runs are in, made and cleared by each check */
export const RUN_FUZZ: Property[] = [
  {
    title: 'a scenario, however damaged, runs or is refused in words, and no result says nonsense',
    runs: 160,
    check: async (runs, seed = 20260103) => {
      const garden = smallGarden();
      const small = readFileSync(join(garden.folder, 'small.yaml'), 'utf8');
      const earlier = join(garden.folder, 'out');
      try {
        await fc.assert(
          fc.asyncProperty(damagedScenario(small), async ({ text }) => {
            await runDamaged(garden.folder, text);
            if (existsSync(earlier)) rmSync(earlier, { recursive: true });
          }),
          { numRuns: runs, seed },
        );
      } finally {
        garden.remove();
      }
    },
  },
];
