import { expect, it } from 'vitest';
import { winterOf } from '../../sim/sun/winterOf.ts';

it('winterOf runs from July to June north of the equator and with the year south of it', () => {
  expect(winterOf('2024-06-30', 54)).toBe('2023/24');
  expect(winterOf('2024-07-01', 54)).toBe('2024/25');
  expect(winterOf('2025-01-15', 54)).toBe('2024/25');
  expect(winterOf('1999-12-31', 54)).toBe('1999/00');
  expect(winterOf('2025-01-15', -36)).toBe('2025');
  expect(winterOf('2025-12-31', -36)).toBe('2025');
});
