import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import { runAll } from '../../sim/trial/runAll.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const text = readFileSync(join(root, 'scenarios/invented-garden.yaml'), 'utf8')
  .replaceAll('../data-samples/', join(root, 'data-samples/'))
  .replace(/\n *# Twice of each[\s\S]*$/, '\n');
const lid = 'cover: { part: flat-lid }';

const CHANGES: readonly (readonly [what: string, from: string, to: string])[] = [
  ['the demo', '', ''],
  ['an evenly bright sky (`sky_model: isotropic`)', lid, `${lid}\n    sky_model: isotropic`],
  ['no cover', lid, 'cover: { kind: none }'],
  ["no loss at the cell's front (`cell_front: none`)", lid, `${lid}\n    cell_front: none`],
  ['a textured front, not a flat one', lid, `${lid}\n    cell_front: textured`],
  ['dirt takes a tenth', lid, 'cover: { part: flat-lid, dirt_loss: 0.1 }'],
  ['a cell worse in dim light (`shunt_V: 50`, not 200)', 'part: small-cell', 'part: small-cell, shunt_V: 50'],
  ['a cell better in dim light (`shunt_V: 1000`)', 'part: small-cell', 'part: small-cell, shunt_V: 1000'],
  [
    'a diode of 0.3 V at 10 mA, not 0.2 V',
    'part: small-schottky',
    'part: small-schottky, forward_drop: [{ current_mA: 10, drop_V: 0.3 }]',
  ],
  ['320 F, not 360 F', 'part: medium-capacitor', 'part: medium-capacitor, capacitance_F: 320'],
  ['400 F', 'part: medium-capacitor', 'part: medium-capacitor, capacitance_F: 400'],
  ['no delayed charge', 'part: medium-capacitor', 'part: medium-capacitor, delayed_share: 0'],
  ['three times the leakage', 'part: medium-capacitor', 'part: medium-capacitor, leakage_uA: 2100'],
  ['leakage as a resistance', 'part: medium-capacitor', 'part: medium-capacitor, leakage_law: resistance'],
  ['25 degC all year', 'part: small-jar', 'part: small-jar, fixed_degC: 25'],
  ['a poor driver (`part: poor-driver`)', 'part: inductor-driver', 'part: poor-driver'],
  ['a good driver', 'part: inductor-driver', 'part: good-driver'],
  ['a poor LED (`part: poor-led`)', 'part: white-led', 'part: poor-led'],
  ['a good LED', 'part: white-led', 'part: good-led'],
  ['0.45 lm is enough, not 0.65 lm', 'least_lumen: 0.65', 'least_lumen: 0.45'],
];

/** The table of what one change does to the lamp with one capacitor of the demo, in Markdown. */
export async function changesTable(): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), 'longnight-changes-'));
  const rows: string[] = [];
  for (const [what, from, to] of CHANGES) {
    if (!text.includes(from)) throw new Error(`the demo holds no "${from}"`);
    const file = join(folder, 'changed.yaml');
    writeFileSync(file, text.replaceAll(from, to));
    const { trials } = await runAll(loadScenario(file), { withChanges: false });
    const cells = trials.map(({ nights }) => {
      const failed = nights.filter(({ outcome }) => outcome === 'failed').length;
      const short_h = nights.reduce((total, night) => total + night.short_h, 0);
      return `${failed} night${failed === 1 ? '' : 's'}, ${short_h.toFixed(1)} h`;
    });
    rows.push(`| ${[what, ...cells].join(' | ')} |`);
  }
  rmSync(folder, { recursive: true });
  return ['| one change | on the lawn | on the north side |', '|---|---|---|', ...rows, ''].join('\n');
}
