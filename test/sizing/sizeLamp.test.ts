import { appendFileSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { InputProblem } from '../../sim/common/InputProblem.ts';
import type { SizingAnswer } from '../../sim/sizing/SizedDesign.ts';
import { sizeLamp } from '../../sim/sizing/sizeLamp.ts';
import { beside, SPACES, someWeather, spaceOf } from './wholeGrid.ts';

const SMALL = {
  changes: [],
  choices:
    '{ cell: { parallel: [1, 2] }, capacitor: { capacitance_F: 100..680 by E3 }, driver: { inductance_uH: [330, 680] } }',
} satisfies (typeof SPACES)[string];
const space = spaceOf(SMALL);
const weather = someWeather(3, 75);

const plain = (answer: SizingAnswer) => JSON.parse(JSON.stringify({ ...answer, designs: undefined }));

it.each(Object.entries(SPACES))('answers as a run of every design over some weeks: %s', async (_, each) => {
  const few = { ...each, choices: each.choices.replace(/\[(\S+), [^[\]]+, (\S+)\]/g, '[$1, $2]') };
  await beside(spaceOf(few), someWeather(5, 40), { budget: 14 });
});

it('says what stands in the way where nothing keeps the promise, of designs that tie by short hours', async () => {
  const { answer } = await beside(space, someWeather(4, 40, 0.1), { budget: 20 });
  expect(answer.cheapest).toBeUndefined();
  expect(answer.nearest!.inTheWay.length).toBeGreaterThan(0);
  const nights = answer.nearest!.inTheWay.reduce((sum, one) => sum + one.nights, 0);
  expect(nights).toBe(answer.nearest!.failedNights);
});

it('gives the same in this thread, in one other and in two', async () => {
  const [here, one, two] = await Promise.all(
    [0, 1, 2].map((threads) => sizeLamp(space, weather, { threads, budget: 15 })),
  );
  expect(here!.front.length).toBeGreaterThan(2);
  expect(one).toEqual(here);
  expect(two).toEqual(here);
});

it('keeps outcomes for another search, and reads none that is damaged, cut short or strange', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'longnight-size-'));
  const cached = () => sizeLamp(space, weather, { threads: 0, cache: { folder, program: '1' } });
  const without = await sizeLamp(space, weather, { threads: 0 });
  const first = await cached();
  const again = await cached();
  expect(plain(first)).toEqual(plain(without));
  expect(plain(again)).toEqual(plain(without));
  expect(again.designs).toMatchObject({ ran: 0, fromCache: first.designs.ran });
  const file = join(folder, 'size-cache.txt');
  const lines = readFileSync(file, 'utf8').trimEnd().split('\n');
  const [damaged, cut, ...sound] = lines;
  writeFileSync(
    file,
    `${damaged!.replace(/\d,/, '7,')}x\nname: other\n${sound.join('\n')}\n${cut!.slice(0, -3)}`,
  );
  const mended = await cached();
  expect(plain(mended)).toEqual(plain(without));
  expect(mended.designs).toMatchObject({ ran: 2, fromCache: sound.length });
  expect(await cached()).toMatchObject({ designs: { ran: 0 } });
  appendFileSync(file, Buffer.from([0xff, 0xfe, 0]));
  const other = await sizeLamp(space, weather, { threads: 0, cache: { folder, program: '2' } });
  expect(other.designs.fromCache).toBe(0);
});

it('gives what is there so far where it is stopped', async () => {
  const controller = new AbortController();
  let told = 0;
  const answer = await sizeLamp(spaceOf(SPACES['an inductor, capacitors and cells']!), weather, {
    threads: 0,
    signal: controller.signal,
    onProgress: (settled, all) => {
      told = settled;
      expect(settled).toBeLessThanOrEqual(all);
      controller.abort();
    },
  });
  expect(told).toBeGreaterThan(0);
  expect(answer.partial).toMatchObject({ all: answer.designs.all });
  expect(answer.partial!.settled).toBeLessThan(answer.designs.all);
  expect(answer.front.length).toBeGreaterThan(0);
});

it('names the parts that have no price', async () => {
  const free = spaceOf({
    ...SMALL,
    changes: [['led: { part: white-led }', 'led: { raw: { forward_V: 3, efficacy_lm_W: 100 } }']],
  });
  const refused = await sizeLamp(free, weather, { threads: 0 }).catch((error: unknown) => error);
  expect(refused).toBeInstanceOf(InputProblem);
  expect(String(refused)).toContain('no price of LED');
});
