import type { CivilDay } from '../../statistics/civilHours.ts';
import type { RunResult } from '../../trial/Trial.ts';
import type { DrawnTrial } from '../figures/drawnTrials.ts';
import { daysOf, weatherNights, worstWinter } from '../figures/worstWinter.ts';
import { closerHours, hoursOf, packedDays } from './closerHours.ts';
import { type HourlyPack, packedColumn } from './packedColumn.ts';

/**
 * The hourly columns behind the page's closer look at the capacitor and its weather, packed two bytes a number.
 *
 * in: run; drawn, those of its trials whose hours the page cannot make for itself; days, the civil dates of its record
 * out: columns in the order of the season
 */
export function hourlyPack(
  run: RunResult,
  drawn: readonly Pick<DrawnTrial, 'id' | 'trial' | 'setting'>[],
  days: readonly CivilDay[],
): HourlyPack {
  const pack: HourlyPack = {
    start_ms: run.trials[0]?.light.start_ms ?? 0,
    trials: {},
    lights: {},
    weather: weatherPack(run, days),
  };
  for (const { id, trial, setting } of drawn) {
    const hours = closerHours(trial, setting);
    if (hours.days.from.length === 0) continue;
    const light = JSON.stringify([trial.spot, worstWinter(trial, setting.site.latitude_deg).winter]);
    pack.lights[light] ??= packedColumn(hours.lightOnCell_W_m2, 1);
    pack.trials[id] = {
      days: hours.days,
      cutoff_V: Number.isNaN(hours.cutoff_V) ? null : hours.cutoff_V,
      rated_V: Number.isNaN(hours.rated_V) ? null : hours.rated_V,
      capacitor_V: packedColumn(hours.capacitor_V, 4),
      reachable_V: packedColumn(hours.reachable_V, 4),
      light,
    };
  }
  return pack;
}

function weatherPack({ trials, scenario }: RunResult, days: readonly CivilDay[]): HourlyPack['weather'] {
  const [first] = trials;
  if (first === undefined) return null;
  const { ghi_W_m2, planeOfArray_W_m2, mark } = first.light;
  const shown = daysOf(weatherNights(trials, scenario.site.latitude_deg), days);
  const logged = Number.isNaN(ghi_W_m2[0] ?? Number.NaN);
  return {
    days: packedDays(shown),
    heading: logged ? 'light_on_cell_W_m2' : 'ghi_W_m2',
    light: packedColumn(hoursOf(logged ? planeOfArray_W_m2 : ghi_W_m2, shown), 1),
    mark: packedColumn(hoursOf(Float64Array.from(mark), shown), 0),
  };
}
