import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { packedPlain } from '../../../sim/output/page/packedPlain.ts';
import { unpackedPlain } from '../../../sim/output/page/unpackedPlain.ts';
import { loadScenario } from '../../../sim/scenario/loadScenario.ts';
import { loadWeather } from '../../../sim/trial/loadWeather.ts';

const columns = fc.oneof(
  fc.array(fc.double({ noDefaultInfinity: false }), { maxLength: 40 }),
  fc.array(
    fc.integer({ min: -4e8, max: 4e8 }).map((whole) => whole / 1000),
    { maxLength: 40 },
  ),
  fc.array(fc.constantFrom(0, -0, 0.1, Number.NaN, 1e-7, -12.3, 536870911, 536870912, Infinity), {
    maxLength: 40,
  }),
);

describe('packed data', () => {
  it('comes back as it was, columns to the bit, wherever they stand', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(columns, { maxLength: 4 }), fc.jsonValue(), async (lists, beside) => {
        const data = {
          beside: JSON.parse(JSON.stringify(beside)),
          list: [{ '$a.b': lists.map((list) => Float64Array.from(list)) }, Uint8Array.of(0, 255, 7)],
        };
        const back = (await unpackedPlain(packedPlain(data))) as typeof data;
        expect(back.beside).toEqual(data.beside);
        expect(back).toStrictEqual(data);
      }),
      { numRuns: 200 },
    );
  });

  it('takes two bytes or so an hour of weather as a file has it', async () => {
    const weather = (await loadWeather(loadScenario('scenarios/invented-garden.yaml')))!;
    const { ghi_W_m2, air_degC } = weather;
    const packed = packedPlain({ ghi_W_m2, air_degC });
    expect(packed.length).toBeLessThan(8760 * 2 * 2);
    expect(await unpackedPlain(packed)).toStrictEqual({ ghi_W_m2, air_degC });
  });

  it('is one bare column too', async () => {
    expect(await unpackedPlain(packedPlain(Float64Array.of(1.5)))).toStrictEqual(Float64Array.of(1.5));
  });

  it('refuses what JSON would change', () => {
    expect(() => packedPlain({ a: { b: Number.NaN } })).toThrow('a.b is NaN');
  });
});
