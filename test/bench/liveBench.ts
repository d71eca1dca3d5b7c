import { fileURLToPath } from 'node:url';
import type { LiveRun, Turn } from '../../sim/trial/live/LiveRun.ts';
import { built } from './built.ts';
import { type Times, timesOf } from './timesOf.ts';

// What a page asks of its run, without the page: from a value that is turned to the trial with its hours.

const { LiveTrials, liveRunOf, loadScenario, packedPlain, runAll } = built;
const say = (what: string, value: string) => process.stdout.write(`  ${what.padEnd(52)} ${value}\n`);
const digits = (value: number) => (value < 100 ? value.toPrecision(3) : value.toFixed(0));
const ms = ({ median, least }: Times) => `${digits(median)} ms (least ${digits(least)})`;

process.stdout.write('\nA value turned to its trial, the demo; least and median of many turns\n');
const demo = fileURLToPath(new URL('../../scenarios/invented-garden.yaml', import.meta.url));
const run = liveRunOf(await runAll(loadScenario(demo), { withChanges: false })) as LiveRun;
say('the run as a page carries it', `${digits(packedPlain(run).length / 1000)} kB`);
say('its first trial, from plain data', ms(timesOf(() => new LiveTrials(run).trial('lawn', 'single'), 7, 2)));

const trials = new LiveTrials(run);
let turned = 0;
/** Each a value that was not tried before. */
const turnsOf: Record<string, () => Turn> = {
  capacitance: () => ({ of: 'lamp', key: 'capacitor.capacitance_F', value: 300 + turned }),
  inductor: () => ({ of: 'lamp', key: 'driver.inductance_uH', value: 500 + turned }),
  'promised hours': () => ({ of: 'promise', key: 'hours', value: 5 + turned / 100 }),
  'least light': () => ({ of: 'promise', key: 'least_lumen', value: 0.5 + turned / 1000 }),
  tilt: () => ({ of: 'spot', key: 'cell_tilt_deg', value: 5 + turned / 10 }),
  'share of the light': () => ({ of: 'spot', key: 'shading.factor', value: 0.5 + turned / 1000 }),
};
for (const [name, turnOf] of Object.entries(turnsOf)) {
  turned = 0;
  const turn = () => {
    turned++;
    return trials.trial('lawn', 'single', [turnOf()]);
  };
  say(`  ${name}`, ms(timesOf(turn, 40, 15)));
}
turned = 0;
const changes = () => {
  turned++;
  return trials.changes('lawn', 'single', [{ of: 'promise', key: 'hours', value: 8 + turned / 100 }]);
};
say('and what single changes would do to one that fails', ms(timesOf(changes, 5, 2)));
