import { describe, expect, test } from 'vitest';
import { answerToError, ioOf, type World } from '../../sim/cli/Io.ts';
import { InputProblem } from '../../sim/common/InputProblem.ts';

async function answer(error: unknown, env: World['env'] = {}): Promise<{ code: number; stderr: string }> {
  let stderr = '';
  const code = await answerToError(
    error,
    ioOf({
      stdout: () => {
        throw new Error('an error must not go to stdout');
      },
      stderr: (text) => {
        stderr += text;
      },
      isTTY: { stdout: false, stderr: false },
      columns: undefined,
      onInterrupt: () => () => {},
      env,
      stdin: async function* () {},
      clock_s: () => 0,
      cwd: '',
    }),
  );
  return { code, stderr };
}

describe('the answer to an error', () => {
  test('gives all problems of an input, two lines each, and 2', async () => {
    const problem = { code: 'WEATHER_GAP', file: 'a.csv', got: 'no 03:00', expected: 'every hour' } as const;
    const { code, stderr } = await answer(new InputProblem([problem, { ...problem, line: 9 }]));
    expect(code).toBe(2);
    expect(stderr.trimEnd().split('\n')).toHaveLength(4);
    expect(stderr).toContain('  a.csv:9\n');
  });

  test('gives one line and 1 for anything else, and calls it a defect', async () => {
    expect(await answer(new Error('charge does not close\nat all'))).toEqual({
      code: 1,
      stderr: 'longnight failed: charge does not close; this is a defect\n',
    });
    expect((await answer('thrown text')).stderr).toContain('thrown text');
  });

  test('gives the stack only where LONGNIGHT_TRACE is 1', async () => {
    expect((await answer(new Error('odd'))).stderr).not.toContain('Io.test');
    expect((await answer(new Error('odd'), { LONGNIGHT_TRACE: '1' })).stderr).toContain('Io.test');
  });
});

describe('what is said', () => {
  /** What a world hears that takes colours or not. */
  const heard = (say: (io: ReturnType<typeof ioOf>) => void, tty: boolean): string => {
    let all = '';
    const hear = (text: string) => {
      all += text;
    };
    const isTTY = { stdout: tty, stderr: tty };
    say(
      ioOf({
        stdout: hear,
        stderr: hear,
        isTTY,
        columns: undefined,
        onInterrupt: () => () => {},
        env: {},
        stdin: async function* () {},
        clock_s: () => 0,
        cwd: '',
      }),
    );
    return all;
  };
  const nightOf =
    (name: string) =>
    ({ colour = false }: { colour?: boolean }) =>
      `${colour ? '\u001b[1m' : ''}${name}${colour ? '\u001b[22m' : ''}\nkept\n`;

  test('shows by its number what a terminal would obey, and keeps line breaks', () => {
    for (const tty of [true, false]) {
      expect(heard((io) => io.stdout('\u001b[2Ja\r\nb'), tty)).toBe('\\u{1b}[2Ja\\u{d}\nb');
      expect(heard((io) => io.stderr('\u202ea\u2028'), tty)).toBe('\\u{202e}a\\u{2028}');
    }
  });

  test('keeps our own colours, on a terminal alone', () => {
    expect(heard((io) => io.stdoutLaidOut(nightOf('la\u200fwn')), true)).toBe(
      '\u001b[1mla\\u{200f}wn\u001b[22m\nkept\n',
    );
    expect(heard((io) => io.stdoutLaidOut(nightOf('lawn')), false)).toBe('lawn\nkept\n');
  });

  test('takes no colour from a name', () => {
    expect(heard((io) => io.stdoutLaidOut(nightOf('\u001b[31mlawn')), true)).toBe('\\u{1b}[31mlawn\nkept\n');
  });

  test('writes progress over, where a person watches', () => {
    const work = (io: ReturnType<typeof ioOf>) => {
      io.progress('trial \u001b[5m 1 of 2');
      io.progress('');
    };
    expect(heard(work, true)).toBe('\rtrial \\u{1b}[5m 1 of 2 \r\u001b[K');
    expect(heard(work, false)).toBe('');
  });
});
