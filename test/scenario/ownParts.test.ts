import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { lampPrice } from '../../sim/lamp/partsList.ts';
import { LIBRARY } from '../../sim/scenario/PartShelf.ts';
import { changed, folder, load, placeOf, refused, SOUND } from './writeScenario.ts';

const OWN = `format: 1
currency: EUR
parts:
  cell:
    window-cell:
      note: cut from a garden light
      short_circuit_mA: 0.38 A
      open_circuit_V: 2.4
      best_current_mA: 350
      best_voltage_V: 1.9
      cells_in_series: 4
      price: 2.4
      pack: 5
      in_drawer: 3
  capacitor:
    big-one: { capacitance_F: 600, leakage_uA: 900, rated_V: 2.7, price: 8.5 }
  driver:
    bare-driver: { kind: power, power_mW: 60, price: 1 }
  jar:
    tall-jar:
      readings: { points: [{ light_W_m2: 800, outside_degC: 20, inside_degC: 38 }] }
  cover:
    thick-lid: { refractive_index: 1.5, absorption_per_m: 8, thickness_mm: 0.6 cm }
`;
const USED = [
  ['weather:', 'parts: { file: my-parts.yaml }\nweather:'],
  ['cell: { part: small-cell }', 'cell: { part: window-cell, parallel: 2 }'],
  ['capacitor: { part: medium-capacitor }', 'capacitor: { part: big-one, esr_mohm: 4 }'],
  ['led: { part: white-led }', 'led: { part: white-led }\n    jar: { part: tall-jar }'],
  ['    cell_tilt_deg: 10', '    cell_tilt_deg: 10\n    cover: { part: thick-lid }'],
] as const;
const SCENARIO = changed(...USED);

function own(text: string): void {
  writeFileSync(join(folder, 'my-parts.yaml'), text);
}

/** The own file with pieces of its text replaced; each must be there. */
function with_(...changes: readonly (readonly [from: string, to: string])[]): string {
  const text = changes.reduce((before, [from, to]) => {
    if (!before.includes(from)) throw new Error(`no "${from}" in the parts`);
    return before.replace(from, to);
  }, OWN);
  own(text);
  return text;
}

describe('own parts', () => {
  it('are merged as those of the library, what stands beside them winning', () => {
    own(OWN);
    const { lamps, spots, shelf, currency } = load(SCENARIO);
    const { cell, capacitor, jar } = lamps[0]!.section;
    expect(cell).toMatchObject({ part: 'window-cell', short_circuit_mA: 380, parallel: 2, in_drawer: 3 });
    expect(cell).not.toHaveProperty('note');
    expect(capacitor).toMatchObject({ capacitance_F: 600, esr_mohm: 4, price: 8.5 });
    expect(jar.readings!.points).toHaveLength(1);
    expect(lamps[0]!.settled.jar.rise_K_full_sun).toBeCloseTo(22.5, 1);
    expect(spots[0]!.params.cover).toMatchObject({ thickness_m: 0.006, refractiveIndex: 1.5 });
    expect(currency).toBe('EUR');
    expect(shelf.cell['window-cell']).toMatchObject({ note: 'cut from a garden light', own: true });
    expect(shelf.cell['small-cell']).toMatchObject({ own: false });
  });

  it('say where each of their values stands, and the digest of their file', () => {
    own(OWN);
    const { origins, resolved, assumptions } = load(SCENARIO);
    const from = (path: string) => origins.find((origin) => origin.path.join('.') === path);
    const { line, column } = placeOf(OWN, 'capacitance_F');
    const cell = placeOf(OWN, 'short_circuit_mA');
    expect(from('lamps.single.capacitor.capacitance_F')).toMatchObject({
      kind: 'own part',
      from: `own part big-one (my-parts.yaml:${line}:${column})`,
    });
    expect(from('lamps.single.cell.short_circuit_mA')!.from).toBe(
      `own part window-cell (my-parts.yaml:${cell.line}:${cell.column}: 0.38 A)`,
    );
    expect(from('spots.lawn.cover.thickness_mm')!.from).toMatch(/^own part thick-lid \(my-parts.*0\.6 cm\)$/);
    expect(from('lamps.single.capacitor.esr_mohm')!.kind).toBe('scenario');
    expect(from('currency')).toMatchObject({ value: 'EUR', from: 'own parts (my-parts.yaml:2:1)' });
    expect(from('parts.sha256')!.from).toBe('own parts (my-parts.yaml)');
    expect(resolved.parts).toEqual({
      file: 'my-parts.yaml',
      sha256: createHash('sha256').update(OWN).digest('hex'),
    });
    expect(JSON.stringify([resolved, origins])).not.toContain(folder);
    expect(assumptions.join()).not.toContain('window-cell');
  });

  it('take what they lack from beside them, and are refused in the scenario without', () => {
    with_([', rated_V: 2.7', '']);
    const beside = SCENARIO.replace('esr_mohm: 4', 'rated_V: 3 V');
    expect(load(beside).lamps[0]!.section.capacitor.rated_V).toBe(3);
    const { problems, file } = refused(SCENARIO);
    expect(problems).toMatchObject([
      { file, code: 'SCENARIO_MISSING_KEY', field: 'lamps.single.capacitor.rated_V' },
    ]);
  });

  it('of a name that neither has offer the nearest of both', () => {
    own(OWN);
    const { problems } = refused(SCENARIO.replace('part: big-one', 'part: big-on'));
    expect(problems).toMatchObject([
      {
        code: 'SCENARIO_UNKNOWN_PART',
        expected: expect.stringMatching(
          /^a capacitor of the parts library or of your own parts: big-one, med/,
        ),
        fix: 'did you mean "big-one"?',
      },
    ]);
  });
});

describe('the files of parts that come along', () => {
  const read = (name: string) => readFileSync(new URL(`../../data-samples/${name}`, import.meta.url), 'utf8');

  it('hold the library to the last value', () => {
    // Every name twice as long, for those of the library are taken.
    own(read('generic-parts.yaml').replace(/^( {4})(\S+):$/gm, '$1own-$2:'));
    const { shelf } = load(SOUND.replace('weather:', 'parts: { file: my-parts.yaml }\nweather:'));
    for (const [kind, parts] of Object.entries(LIBRARY)) {
      for (const [name, { note, values }] of Object.entries(parts)) {
        expect(shelf[kind as 'cell'][`own-${name}`]).toMatchObject({ note, own: true });
        expect(shelf[kind as 'cell'][`own-${name}`]!.values).toEqual(values);
      }
    }
  });

  it('are refused as they are, for their names are taken', () => {
    own(read('generic-parts.yaml'));
    const { problems } = refused(SOUND.replace('weather:', 'parts: { file: my-parts.yaml }\nweather:'));
    expect(new Set(problems.map(({ code }) => code))).toEqual(new Set(['SCENARIO_CONFLICT']));
  });

  it('make a lamp of an invented drawer', () => {
    own(read('invented-parts.yaml'));
    const text = changed(
      USED[0],
      ['part: small-cell', 'part: window-cell, parallel: 4'],
      ['part: small-schottky', 'part: drawer-schottky'],
      ['part: medium-capacitor', 'part: tall-can'],
      ['part: white-led', 'part: warm-led'],
    );
    const { lamps, currency } = load(text);
    expect(currency).toBe('EUR');
    // One cell more than the drawer has, the capacitor, a driver of the library, the LED; diode and jar at hand.
    expect(lampPrice(lamps[0]!.section)).toBeCloseTo(2.4 + 8.5 + 1.5 + 0.25, 9);
  });
});

describe('a file of own parts is refused by its own lines', () => {
  it.each([
    ['an unknown key', ['pack: 5', 'packs: 5'], 'SCENARIO_UNKNOWN_KEY', 'packs', 'did you mean "pack"?'],
    ['another unit', ['pack: 5', 'shunt_mV: 200'], 'SCENARIO_WRONG_UNIT', 'shunt_mV', 'write shunt_V: 0.2.'],
    ['another quantity', ['0.38 A', '0.38 V'], 'SCENARIO_WRONG_UNIT', '0.38 V', 'write it in A, mA, uA, nA'],
    ['a value out of range', ['price: 2.4', 'price: -1'], 'SCENARIO_OUT_OF_RANGE', '-1', 'check the value.'],
    ['an unknown kind', ['  jar:', '  jars:'], 'SCENARIO_UNKNOWN_KEY', 'jars', 'did you mean "jar"?'],
    [
      'an unknown key of the file',
      ['currency:', 'curency:'],
      'SCENARIO_UNKNOWN_KEY',
      'curency',
      '"currency"?',
    ],
    [
      'two words of money',
      ['currency: EUR', 'currency: so much'],
      'SCENARIO_WRONG_TYPE',
      'so much',
      undefined,
    ],
    ['another format', ['format: 1', 'format: 2'], 'SCENARIO_WRONG_TYPE', '2', 'format: 1'],
    ['a driver of no kind', ['kind: power, ', ''], 'SCENARIO_MISSING_KEY', 'bare-driver', 'kind'],
    [
      'a name of the library',
      ['big-one', 'good-capacitor'],
      'SCENARIO_CONFLICT',
      'good-capacitor',
      'own-good',
    ],
    ['how many a lamp has', ['pack: 5', 'parallel: 2'], 'SCENARIO_CONFLICT', '2', 'beside part: window-cell'],
    ['no part but a number', ['big-one: {', 'big-one: 5 # {'], 'SCENARIO_WRONG_TYPE', '5 #', undefined],
    ['half a reading', ['inside_degC: 38', ''], 'SCENARIO_MISSING_KEY', '{ light_W_m2', 'inside_degC'],
    ['a text that is none', ['note: cut', 'note: 5 #'], 'SCENARIO_WRONG_TYPE', '5 # from', 'quotes'],
  ] as const)('%s', (_, change, code, at, fix) => {
    const text = with_(change);
    const used = SCENARIO.replace('part: big-one', 'part: big-one, rated_V: 2.7, capacitance_F: 5');
    const { problems } = refused(code === 'SCENARIO_CONFLICT' && at.startsWith('good') ? SCENARIO : used);
    const [first] = problems.filter(({ file }) => file === 'my-parts.yaml');
    const { line } = placeOf(text, at.replace(/^2$/, change[1]));
    expect(first).toMatchObject({ code, line });
    if (fix !== undefined) expect(first!.fix).toContain(fix);
    expect(
      problems.filter(({ file, line: other }) => file === 'my-parts.yaml' && other === line),
    ).toHaveLength(1);
  });

  it('readings that cannot be, found when the lamp is made, once for two lamps', () => {
    const text = with_(['inside_degC: 38', 'inside_degC: 128'], ['light_W_m2: 800', 'light_W_m2: 100']);
    const two = `${SCENARIO}  other:${SCENARIO.slice(SCENARIO.indexOf('  single:') + '  single:'.length)}`;
    const { problems } = refused(two);
    expect(problems).toEqual([
      expect.objectContaining({
        code: 'SCENARIO_CONFLICT',
        file: 'my-parts.yaml',
        line: placeOf(text, 'readings').line,
        field: 'parts.jar.tall-jar.readings',
      }),
    ]);
  });

  it('YAML that is none, and says nothing of the parts that were in it', () => {
    own('parts: [');
    const { problems } = refused(SCENARIO);
    expect(problems.map(({ code, file }) => [code, file])).toEqual([['YAML_SYNTAX', 'my-parts.yaml']]);
  });

  it('a file that is not there, at the line that names it', () => {
    const text = SCENARIO.replace('my-parts.yaml', 'no-parts.yaml');
    const { problems } = refused(text);
    expect(problems).toMatchObject([{ code: 'FILE_MISSING', line: placeOf(text, 'no-parts').line }]);
  });

  it('two currencies, at the line of the scenario', () => {
    own(OWN);
    const text = SCENARIO.replace('parts:', 'currency: USD\nparts:');
    expect(refused(text).problems).toMatchObject([
      {
        code: 'SCENARIO_CONFLICT',
        field: 'currency',
        line: placeOf(text, 'currency').line,
        got: 'USD, and EUR in my-parts.yaml:2:1',
      },
    ]);
    expect(load(text.replace('USD', 'EUR')).currency).toBe('EUR');
  });
});
