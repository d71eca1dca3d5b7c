import { expect, it } from 'vitest';
import { LIFE_LAWS } from '../../sim/ageing/capacitorWear.ts';
import { apart, oldGarden } from './oldGarden.ts';

it.each(['invented-garden', 'dusk-to-dawn', 'hedge-and-apple-tree'])(
  'every winter of %s that is not run lies within a night and a hundredth of the capacitance, over 40 of them',
  async (name) => {
    const { scenario, life } = await oldGarden(`scenarios/${name}.yaml`);
    for (const spot of scenario.spots)
      for (const lamp of scenario.lamps)
        for (const law of [0, 1, 2] as const) {
          const { life: exact } = life(spot.name, lamp.name, { years: 40, law, exact: true });
          const { life: fast } = life(spot.name, lamp.name, { years: 40, law });
          const { capacitance, nights } = apart(fast, exact);
          const what = `${lamp.name} in ${spot.name}, ${LIFE_LAWS[law]!.name}`;
          expect(capacitance, what).toBeLessThan(0.01);
          expect(nights, what).toBeLessThanOrEqual(1);
          expect(fast.breaks, what).toBe(exact.breaks);
        }
  },
  600_000,
);
