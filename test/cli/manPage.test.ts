import { spawnSync } from 'node:child_process';
import { expect, test } from 'vitest';
import { COMMANDS } from '../../sim/cli/commands.ts';
import { manPage } from '../../sim/cli/manPage.ts';
import { OPTIONS } from '../../sim/cli/options.ts';

const page = manPage({ commands: COMMANDS, version: '1.2.3', about: 'Steps a lamp.' });
const plain = (text: string) => text.replaceAll('\\-', '-').replaceAll('\\(dq', '"');

test('the manual names every command, option and exit code', () => {
  for (const { name } of COMMANDS) expect(page).toContain(`.SS "longnight ${name}`);
  for (const option of Object.keys(OPTIONS))
    expect(plain(page)).toMatch(new RegExp(`^\\.B --${option}\\b`, 'm'));
  for (const heading of ['NAME', 'SYNOPSIS', 'EXIT STATUS', 'ENVIRONMENT', 'FILES'])
    expect(page).toContain(`\n.SH ${heading}\n`);
  expect(page).toContain('longnight \\- steps a lamp\n');
});

test('no line of words is taken for a request, nor a backslash or quote for roff', () => {
  for (const line of page.split('\n')) {
    if (/^[.']/.test(line)) expect(line).toMatch(/^\.(TH|SH|SS|TP|PP|br|B)\b/);
    expect(line.replace(/\\(-|e|&|\(dq)/g, '')).not.toContain('\\');
  }
});

test.skipIf(spawnSync('groff', ['--version']).status !== 0)('groff reads it without a warning', () => {
  const { stdout, stderr } = spawnSync('groff', ['-man', '-Tascii', '-ww', '-z'], {
    input: page,
    encoding: 'utf8',
  });
  expect({ stdout, stderr }).toEqual({ stdout: '', stderr: '' });
});
