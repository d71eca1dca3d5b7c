import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, it } from 'vitest';
import type { JarCard } from '../../sim/ageing/JarCard.ts';
import { runMain } from './runMain.ts';

const garden = fileURLToPath(new URL('../../scenarios/invented-garden.yaml', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'longnight-card-'));
afterAll(() => rmSync(folder, { recursive: true }));

it('life --card prints a card for each jar, and puts it on the page and into life.json', {
  timeout: 60_000,
}, async () => {
  const words = ['life', garden, '--years', '1', '--lamp', 'single', '--spot', 'lawn', '--out', folder];
  const { code, stdout, stderr } = await runMain([...words, '--card']);
  expect(stderr).toBe('');
  expect(code).toBe(0);
  expect(stdout).toContain('For the jar of single on lawn\n\nCare first\n');
  expect(stdout).toMatch(/To expect, by the published laws of ageing: winter 1: 1\.\d\d V\./);
  const file = (name: string) => readFileSync(join(folder, 'life-invented-garden', name), 'utf8');
  expect(file('report.html')).toContain('class="jarCard"');
  const { jar_cards } = JSON.parse(file('life.json')) as { jar_cards: JarCard[] };
  expect(jar_cards[0]!.readings.best!.steps[2]!.capacitance).toBe(0.7);
});
