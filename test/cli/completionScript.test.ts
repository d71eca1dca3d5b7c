import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { COMMANDS } from '../../sim/cli/commands.ts';
import { completionScript } from '../../sim/cli/completionScript.ts';
import { OPTIONS, type OptionFacts } from '../../sim/cli/options.ts';
import { runMain } from './runMain.ts';

const folder = mkdtempSync(join(tmpdir(), 'completion-'));
for (const name of ['garden.yaml', 'my garden.yml', 'log.csv']) writeFileSync(join(folder, name), '');
afterAll(() => rmSync(folder, { recursive: true }));

const hasBash = spawnSync('bash', ['--version']).status === 0;

/** What bash offers where these words stand, the last one begun. */
function offered(...words: string[]): string[] {
  const script = `${completionScript('bash', COMMANDS)}
COMP_WORDS=("$@"); COMP_CWORD=$(( $# - 1 )); _longnight; printf '%s\\n' "\${COMPREPLY[@]}"`;
  const { stdout, stderr } = spawnSync('bash', ['-c', script, 'bash', 'longnight', ...words], {
    cwd: folder,
    encoding: 'utf8',
  });
  expect(stderr).toBe('');
  return stdout.split('\n').filter((line) => line !== '');
}

describe.skipIf(!hasBash)('completion in bash', () => {
  test('offers commands, then the options of the one that was typed', () => {
    expect(offered('co')).toEqual(['compare', 'completion']);
    expect(offered('run', '--no')).toEqual(['--no-files', '--no-color']);
    expect(offered('check', '--bud')).toEqual([]);
    expect(offered('size', '--bud')).toEqual(['--budget']);
    expect(offered('help', 'we')).toEqual(['weather']);
  });

  test('offers the values of a choice, joined to its option or not', () => {
    expect(offered('weather', 'x.csv', '--marks', '')).toEqual(['start', 'middle', 'end']);
    expect(offered('weather', 'x.csv', '--marks', '=', 'm')).toEqual(['middle']);
    expect(offered('completion', '')).toEqual(['bash', 'zsh']);
  });

  test('offers scenarios where one is wanted, any file after an option that takes one', () => {
    expect(offered('run', '')).toEqual(['garden.yaml', 'my garden.yml']);
    expect(offered('run', '--weather', '')).toContain('log.csv');
    expect(offered('run', '--winters', '')).toEqual([]);
  });
});

test('the script for zsh names every command, and every option within quotes', () => {
  const script = completionScript('zsh', COMMANDS);
  for (const { name, options } of COMMANDS) {
    const [, own = ''] = script.split(`\n    ${name})\n`);
    const [block = ''] = own.split(';;');
    for (const option of options)
      expect(block, `${name} ${option}`).toMatch(new RegExp(`'\\*?--${option}\\[`));
    for (const line of block.split('\n')) expect(line.replaceAll("'\\''", '').split("'").length % 2).toBe(1);
  }
});

test('options with a choice name its words in their help too', () => {
  for (const { unit = '', choices = [] } of Object.values(OPTIONS) as OptionFacts[])
    for (const choice of choices) expect(unit).toContain(choice);
});

test('another shell is refused', async () => {
  const { code, stderr } = await runMain(['completion', 'tcsh']);
  expect(code).toBe(2);
  expect(stderr).toContain('expected bash or zsh');
});
