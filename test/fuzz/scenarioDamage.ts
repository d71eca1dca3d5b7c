import fc from 'fast-check';

/** A scenario's text with something wrong, and in words what. */
export interface DamagedScenario {
  text: string;
  what: string[];
}

/** Values that a slip, a spreadsheet or a bad hand leaves behind. */
const VALUES = [
  '',
  '~',
  '-1',
  '0',
  '1e-9',
  '1e9',
  '1e400',
  '.nan',
  '.inf',
  'yes',
  '2025-01-01',
  '"',
  "'",
  '[',
  '{}',
  '[1, 2]',
  '*a',
  '&a 1',
  '12 V',
  '7 bananas',
  '1,5',
  '=1+1',
  '"\\e[31mred"',
  '\u202egnp',
  'x'.repeat(3000),
  '!!binary aGk=',
  '|',
  '0x10',
  '1_000',
  '{ part: small-cell }',
  '__proto__',
  'constructor',
  'null',
  'NaN',
  '90 %',
  '-0',
  'dusk',
  '"12:61"',
  'Mars/Olympus',
];

type Damage = (lines: string[], at: number, value: string) => string;

const rowAt = (lines: readonly string[], at: number) =>
  Math.min(Math.floor(at * lines.length), lines.length - 1);

/** Each changes the lines in place and says what it did. */
const DAMAGES: Record<string, Damage> = {
  value: (lines, at, value) => {
    const row = rowAt(lines, at);
    lines[row] = lines[row]!.replace(/:( [^{}]*)?$/, () => `: ${value}`);
    return `line ${row} says ${value.slice(0, 20)}`;
  },
  inner: (lines, at, value) => {
    const row = rowAt(lines, at);
    const keys = [...lines[row]!.matchAll(/(\w+): [^,{}]+/g)];
    const one = keys[Math.floor(at * 997) % Math.max(keys.length, 1)];
    if (one !== undefined) lines[row] = lines[row]!.replace(one[0], () => `${one[1]}: ${value}`);
    return `${one?.[1] ?? 'nothing'} in line ${row} says ${value.slice(0, 20)}`;
  },
  key: (lines, at, value) => {
    const row = rowAt(lines, at);
    lines[row] = lines[row]!.replace(/\w+:/, () => `${value.slice(0, 40)}:`);
    return `a key of line ${row} is ${value.slice(0, 20)}`;
  },
  lost: (lines, at) => {
    const row = rowAt(lines, at);
    lines.splice(row, 1);
    return `line ${row} lost`;
  },
  doubled: (lines, at) => {
    const row = rowAt(lines, at);
    lines.splice(row, 0, lines[row]!);
    return `line ${row} doubled`;
  },
  shifted: (lines, at) => {
    const row = rowAt(lines, at);
    lines[row] = at > 0.5 ? `  ${lines[row]}` : lines[row]!.trimStart();
    return `line ${row} shifted`;
  },
  cut: (lines, at) => {
    lines.length = rowAt(lines, at);
    return 'cut off';
  },
};

const share = fc.integer({ min: 0, max: 9999 }).map((k) => k / 10_000);

/** The lines of a scenario with up to three things wrong. */
export function damagedScenario(text: string): fc.Arbitrary<DamagedScenario> {
  const one = fc.tuple(fc.constantFrom(...Object.keys(DAMAGES)), share, fc.constantFrom(...VALUES));
  return fc.array(one, { minLength: 1, maxLength: 3 }).map((damages) => {
    const lines = text.trimEnd().split('\n');
    const what = damages.map(([name, at, value]) =>
      lines.length === 0 ? '' : DAMAGES[name]!(lines, at, value),
    );
    return { text: `${lines.join('\n')}\n`, what };
  });
}
