import { expect, test } from 'vitest';
import { known, off, PLACE, understand } from './knownYear.ts';
import { problemsOf } from './recognise/readText.ts';

test('a clock an hour off is refused with the correction, which can be accepted, or the file insisted on', async () => {
  const [problem] = await problemsOf(understand('start utc', 60));
  expect(problem).toMatchObject({ code: 'WEATHER_CLOCK', file: 'made-up.csv' });
  expect(problem!.got).toContain('by the sun that is a clock 60 minutes fast (to 4 minutes)');
  expect(problem!.fix).toBe(
    "--believe sun or --marks end or --zone +01:00 takes the sun's correction; " +
      "--believe file insists on the file's word (in a scenario, weather.zone, weather.marks, weather.believe).",
  );

  const corrected = await understand('start utc', 60, { ...PLACE, believe: 'sun' });
  expect(corrected.record!.start_ms).toBe(known.start_ms);
  expect(off(corrected.record!.ghi_W_m2)).toBeLessThan(0.001);
  expect(corrected.record!.origin.options.clock).toContain('accepted by the user');
});

test('where the file says the zone alone the sun says what stamps mark', async () => {
  for (const minutes of [0, 30, 60]) {
    const { record, report } = await understand('time utc', minutes);
    expect(report.clock.offset_min).toBe(minutes - 30);
    expect(record!.start_ms).toBe(known.start_ms);
  }
});

test('where the file says neither zone nor mark, readings that give the same hours are taken, whatever of them is said', async () => {
  for (const option of [{}, { zone: 'UTC' }, { marks: 'end' }, { marks: 'start' }] as const) {
    const { record } = await understand('time', 60, { ...PLACE, ...option });
    expect(record!.start_ms).toBe(known.start_ms);
    expect(off(record!.ghi_W_m2)).toBeLessThan(0.001);
  }
});

test('what the user says and what was believed stand in the options of the record', async () => {
  const { record } = await understand('start utc', 60, { ...PLACE, believe: 'sun', acceptFilled: true });
  expect(record!.origin.options).toMatchObject({
    believe: 'the sun, as the user states',
    'accept filled': 'months of which much is filled, as the user states',
  });
  const plain = await understand('start utc', 0);
  expect(plain.record!.origin.options).not.toHaveProperty('believe');
  expect(plain.record!.origin.options).not.toHaveProperty('accept filled');
});
