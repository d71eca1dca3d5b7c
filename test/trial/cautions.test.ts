import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { fitScenario } from '../../sim/fitting/fitScenario.ts';
import { fitText } from '../../sim/output/fitText.ts';
import { CAUTION_LINES } from '../../sim/output/words.ts';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import { CAUTIONS, coverCautions } from '../../sim/trial/cautions.ts';

const at = (file: string) => fileURLToPath(new URL(`../../${file}`, import.meta.url));

it('fit carries the cautions, before what it found, and says where the capacitor is told how to be emptied', () => {
  const report = fitScenario(loadScenario(at('scenarios/bench-readings.yaml')));
  expect(report.cautions).toBe(CAUTIONS);
  const text = fitText(report);
  for (const line of [...CAUTION_LINES, '`longnight check SCENARIO --bench`']) {
    expect(text).toContain(line);
    expect(text.indexOf(line)).toBeLessThan(text.indexOf('measured, cell'));
  }
});

it("the README's own parts point to the cautions, which name what can hurt", () => {
  const readme = readFileSync(at('README.md'), 'utf8');
  const ownParts = readme.slice(
    readme.indexOf('**Your own parts.**'),
    readme.indexOf('**Your own weather.**'),
  );
  expect(ownParts).toContain('(#cautions)');
  const cautions = readme.slice(readme.indexOf('## Cautions'), readme.indexOf('## Licence'));
  for (const word of [
    'resistor',
    'vents',
    'parallel',
    'hybrid',
    'supply',
    'volt sockets',
    'dome',
    'frost',
    'drilled wet',
    'resin heats',
    'gloves',
    'LED',
    'children',
    'licensed practice',
  ])
    expect(cautions.toLowerCase()).toContain(word.toLowerCase());
});

it('a cover brings what can go wrong with it, whatever spot it lies on; no cover brings nothing', () => {
  const under = (...covers: unknown[]) =>
    coverCautions(covers.map((cover) => ({ params: { cover } }) as never));
  expect(under('none')).toEqual([]);
  expect(under({ kind: 'flat' })).toHaveLength(2);
  expect(under({ kind: 'flat' }, { kind: 'side-lit' })).toEqual(under({ kind: 'flat' }));
  expect(under('none', { kind: 'dome' })[0]).toContain('A glass dome');
  expect(under({ kind: 'resin' })).toEqual([expect.stringContaining('Resin heats as it sets')]);
});
