import { makeLamp } from '/work/main/test/lamp/makeLamp.ts';
import { libraryLamp, sineDay } from '/work/main/test/year/days.ts';
import { dummyLight } from '/work/main/test/year/dummyLight.ts';
import { referenceRun } from '/work/main/test/year/referenceCircuit.ts';
import { simulateYear } from '/work/main/sim/year/simulateYear.ts';
const st = (o: any) => ({capacitance_F:500,rated_V:2.7,esr_mohm:5,leakage_uA:1000,...o});
const cases: any[] = [
  ['switch', libraryLamp({diode:{switch_on_ohm:0.1}}), sineDay(4, 20, 600, 48), 1.0],
  ['limiter', libraryLamp({store:st({limiter:{at_V:2,slope_ohm:.5}})}), sineDay(4, 20, 800, 48), 1.0],
  ['esr', libraryLamp({store:{capacitance_F:50,rated_V:2.7,esr_mohm:1000,leakage_uA:100}}), sineDay(4, 20, 400, 48), 1.0],
];
for (const [name, input, light, start] of cases) {
  const lamp = makeLamp(input);
  const spot = dummyLight('2026-01-10T00:00:00Z', light, 8, {dusk_h: 8, dawn_h: 16});
  const opts = (t?: number) => ({ timeZone: 'UTC', promise: { from: 'dusk' as const, hours: 6, least_lumen: 0.1, tolerance_h: 0.25 }, start: { store_V: start }, ...(t?{tolerance_V:t}:{}) });
  const runs = [undefined, 1e-5, 1e-6, 1e-7,1e-8].map((t) => simulateYear(lamp, spot, opts(t)));
  const jar = runs[0]!.columns.jar_degC;
  const shareAt = (s: number) => { const h = (s / 3600) % 24; return h >= 20 || h < 4 ? 1 : 0; };
  const ref = referenceRun(lamp, light, jar, [start, start, start], shareAt, 20);
  const ref2 = referenceRun(lamp, light, jar, [start, start, start], shareAt, 5);
  console.log(name, ref.hourEnd_V.map(v=>v.toFixed(3)).join(' '));
  console.log('  ref 20 vs 5', ref.hourEnd_V.map((v,i)=>((v-ref2.hourEnd_V[i]!)*1e6).toFixed(0)).join(' '));
  for (const r of runs) console.log('   ', r.steps, ref2.hourEnd_V.map((v, i) => ((r.columns.storeEnd_V[i]! - v) * 1e6).toFixed(0)).join(' '));
}
