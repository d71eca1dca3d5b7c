import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { parseDocument } from 'yaml';
import type { Turn } from '../../../sim/trial/live/LiveRun.ts';
import { turnedScenario } from '../../../sim/trial/live/turnedScenario.ts';
import { carried, holdsBeside } from './besideIt.ts';

type Edits = readonly (readonly [path: string, value: unknown])[];

/** The text of a scenario with values set, and only one of its lamps. */
function edited(file: string, lamp: string, edits: Edits): string {
  const document = parseDocument(readFileSync(file, 'utf8'));
  for (const [path, value] of edits) document.setIn(path.split('/'), value);
  const lamps = document.get('lamps') as { items: { key: { value: string } }[] };
  lamps.items = lamps.items.filter(({ key }) => key.value === lamp);
  return document.toString();
}

const GARDEN = 'scenarios/invented-garden.yaml';
let garden: Awaited<ReturnType<typeof carried>>;
beforeAll(async () => {
  garden = await carried(GARDEN);
});

describe('a turn gives what a file with that value gives', () => {
  const single = 'lamps/single';
  const turned: [turn: Turn, edits: Edits][] = [
    [
      { of: 'lamp', key: 'capacitor.capacitance_F', value: 470 },
      [[`${single}/capacitor/capacitance_F`, 470]],
    ],
    [{ of: 'lamp', key: 'capacitor.parallel', value: 2 }, [[`${single}/capacitor/parallel`, 2]]],
    [{ of: 'lamp', key: 'cell.parallel', value: 3 }, [[`${single}/cell/parallel`, 3]]],
    [{ of: 'lamp', key: 'driver.inductance_uH', value: 820 }, [[`${single}/driver/inductance_uH`, 820]]],
    [
      { of: 'promise', key: 'hours', value: 7.5 },
      [
        ['promise/hours', 7.5],
        [`${single}/schedule/hours`, 7.5],
      ],
    ],
    [{ of: 'promise', key: 'least_lumen', value: 0.3 }, [['promise/least_lumen', 0.3]]],
    [{ of: 'spot', key: 'cell_tilt_deg', value: 45 }, [['spots/lawn/cell_tilt_deg', 45]]],
    [{ of: 'spot', key: 'shading.factor', value: 0.85 }, [['spots/lawn/shading', { factor: 0.85 }]]],
  ];

  it.each(turned)('%o', async (turn, edits) => {
    await holdsBeside(garden, 'lawn', 'single', [turn], {
      others: [edited(GARDEN, 'single', edits)],
    });
  });

  it('and several at once, behind a house', async () => {
    const turns = turned.slice(0, 6).map(([turn]) => turn);
    const edits = turned.slice(0, 6).flatMap(([, each]) => each);
    const shade: Turn = { of: 'spot', key: 'shading.factor', value: 0.9 };
    await holdsBeside(garden, 'north-side', 'single', [...turns, shade], {
      others: [edited(GARDEN, 'single', [...edits, ['spots/north-side/shading', { factor: 0.9 }]])],
      withChanges: true,
    });
  });

  it('of every knob that there is', () => {
    const { knobs, fixed } = garden.live.knobs('lawn', 'single');
    expect(knobs.map(({ of, key }) => `${of} ${key}`)).toEqual(turned.map(([{ of, key }]) => `${of} ${key}`));
    expect(fixed).toEqual([]);
  });

  it('and nothing turned is the file itself', async () => {
    const { knobs } = garden.live.knobs('lawn', 'single');
    const back = knobs.map(({ of, key, value }) => ({ of, key, value }));
    await holdsBeside(garden, 'lawn', 'single', back, { others: [edited(GARDEN, 'single', [])] });
  });
});

describe('a turn that cannot be is refused in words', () => {
  const refused: [turn: Turn, words: string][] = [
    [{ of: 'lamp', key: 'led.count', value: 2 }, 'led.count: a turn of what is no knob of this trial'],
    [
      { of: 'lamp', key: 'cell.parallel', value: 2.5 },
      'cell.parallel: 2.5, expected a whole number from 1 to 8.',
    ],
    [{ of: 'spot', key: 'cell_tilt_deg', value: 120 }, 'spot.cell_tilt_deg: 120, expected from 0 to 90 deg.'],
    [{ of: 'promise', key: 'hours', value: 'dawn' }, 'promise.hours: dawn, expected'],
  ];

  it.each(refused)('%o', (turn, words) => {
    const { live, run } = garden;
    const said = live.trial('lawn', 'single', [turn]);
    expect('refused' in said && said.refused).toContain(words);
    expect(live.changes('lawn', 'single', [turn])).toEqual(said);
    expect(turnedScenario(run, 'lawn', 'single', [turn])).toEqual(said);
  });

  it('a name that the run does not have', () => {
    expect(garden.live.trial('lawn', 'triple')).toEqual({
      refused: 'triple, expected one of single, double.',
    });
  });
});
