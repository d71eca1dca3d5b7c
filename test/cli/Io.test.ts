import { describe, expect, test } from 'vitest';
import { answerToError, type Io } from '../../sim/cli/Io.ts';
import { InputProblem } from '../../sim/common/InputProblem.ts';

function answer(error: unknown, env: Io['env'] = {}): { code: number; stderr: string } {
  let stderr = '';
  const code = answerToError(error, {
    stdout: () => {
      throw new Error('an error must not go to stdout');
    },
    stderr: (text) => {
      stderr += text;
    },
    isTTY: { stdout: false, stderr: false },
    onInterrupt: () => () => {},
    env,
    cwd: '',
  });
  return { code, stderr };
}

describe('the answer to an error', () => {
  test('gives all problems of an input, two lines each, and 2', () => {
    const problem = { code: 'WEATHER_GAP', file: 'a.csv', got: 'no 03:00', expected: 'every hour' } as const;
    const { code, stderr } = answer(new InputProblem([problem, { ...problem, line: 9 }]));
    expect(code).toBe(2);
    expect(stderr.trimEnd().split('\n')).toHaveLength(4);
    expect(stderr).toContain('line 9');
  });

  test('gives one line and 1 for anything else, and calls it a defect', () => {
    expect(answer(new Error('charge does not close\nat all'))).toEqual({
      code: 1,
      stderr: 'longnight failed: charge does not close; this is a defect\n',
    });
    expect(answer('thrown text').stderr).toContain('thrown text');
  });

  test('gives the stack only where LONGNIGHT_TRACE is 1', () => {
    expect(answer(new Error('odd')).stderr).not.toContain('Io.test');
    expect(answer(new Error('odd'), { LONGNIGHT_TRACE: '1' }).stderr).toContain('Io.test');
  });
});
