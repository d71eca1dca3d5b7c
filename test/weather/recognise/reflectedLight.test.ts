import { expect, test } from 'vitest';
import { knownSeries } from './knownSeries.ts';
import { readText } from './readText.ts';

const known = knownSeries(Date.UTC(2025, 0, 1), 120);
const PLACE = { place: { latitude_deg: known.latitude_deg, longitude_deg: known.longitude_deg } };

test('beside a column of light without words a part of it is diffuse only where it is sometimes all of it', async () => {
  const lights = async (part: (i: number) => number): Promise<string[]> => {
    const rows = Array.from({ length: known.count }, (_, i) => {
      const time = new Date(known.start_ms + i * 3_600_000).toISOString().slice(0, 16);
      return `${time},${known.ghi_W_m2[i]!.toFixed(2)},${part(i).toFixed(2)}`;
    });
    const { recognition } = await readText([`start utc,x,y\n${rows.join('\n')}\n`], PLACE);
    return recognition.columns.map(({ quantity }) => quantity);
  };
  expect(await lights((i) => known.dhi_W_m2[i]!)).toEqual(['ghi', 'dhi']);
  expect(await lights((i) => known.ghi_W_m2[i]! * 0.22)).toEqual(['ghi']);
});
