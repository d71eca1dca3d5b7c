import { parseArgs } from 'node:util';
import { FUZZ } from './all.ts';

// Tries as many damaged inputs as are asked for, and prints the seed and the smallest input that does not hold:
// npm run fuzz -- --seed 7 --cases 20000
const { values } = parseArgs({
  options: { seed: { type: 'string', default: '' }, cases: { type: 'string', default: '2000' } },
});
const seed = values.seed === '' ? Date.now() % 1_000_000 : Number(values.seed);
const cases = Number(values.cases);
if (!Number.isInteger(seed) || !Number.isInteger(cases) || cases < 1) {
  console.error('fuzz: --seed and --cases are whole numbers');
  process.exit(2);
}
const all = FUZZ.reduce((sum, { runs }) => sum + runs, 0);
let failed = 0;
for (const { title, runs, check } of FUZZ) {
  const share = Math.ceil((cases * runs) / all);
  const began_ms = performance.now();
  try {
    await check(share, seed);
    const took_s = (performance.now() - began_ms) / 1000;
    console.log(`held in ${share} cases, seed ${seed}, ${took_s.toFixed(0)} s: ${title}`);
  } catch (error) {
    failed++;
    console.error(
      `DOES NOT HOLD, seed ${seed}: ${title}\n${String((error as Error).message)}\n${String((error as Error).cause ?? '')}`,
    );
  }
}
process.exitCode = failed === 0 ? 0 : 1;
