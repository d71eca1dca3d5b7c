import { expect, it } from 'vitest';
import { plansRunForward } from './plansRunForward.ts';

it('every plan of a year runs forward in time, whatever the zone, season and schedule', () => {
  expect.hasAssertions();
  plansRunForward(Date.UTC(2025, 0, 1), 365);
});
