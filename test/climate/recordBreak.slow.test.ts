import { expect, it } from 'vitest';
import { recordedDays } from '../../sim/climate/RecordedDays.ts';
import { recordBreak } from '../../sim/climate/recordBreak.ts';
import { longRecord, NORTH } from './longRecords.ts';

it('a break is seen in at most one of fifty made records that have none, dull and bright, of winters alike and not', () => {
  const climates = [0.2, 0.35, 0.5].flatMap((mean) => [0.01, 0.06].map((own) => ({ mean, own })));
  const records = climates.flatMap((climate) =>
    Array.from({ length: 25 }, (_, seed) => longRecord(6 + (seed % 7), seed, climate)),
  );
  const seen = records.filter((record) => recordBreak(recordedDays(record, NORTH)) !== undefined);
  expect(records).toHaveLength(150);
  expect(seen.length).toBeLessThanOrEqual(3);
});
