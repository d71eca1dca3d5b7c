import { expect, test } from 'vitest';
import { comparisonFolder, distinctNames } from '../../sim/trial/scenarioDifferences.ts';

const named = (...names: string[]) => names.map((name) => ({ name, file: `${name}.yaml` }));

test('names that make a folder of 255 bytes are compared, of 256 they are refused before anything is run', () => {
  const most = named('a'.repeat(123), 'b'.repeat(123));
  expect(comparisonFolder(most)).toHaveLength(255);
  expect(() => distinctNames(most)).not.toThrow();
  expect(() => distinctNames(named('a'.repeat(123), 'b'.repeat(124)))).toThrow(/256 bytes/);
  expect(() => distinctNames(named('庭'.repeat(60), '園'.repeat(60)))).toThrow(/shorter names/);
});
