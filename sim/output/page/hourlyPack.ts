import type { CivilDay } from '../../statistics/civilHours.ts';
import { overWinters } from '../../statistics/overWinters.ts';
import { inSeason } from '../../statistics/winterStatistics.ts';
import type { RunResult } from '../../trial/RunResult.ts';
import type { Trial } from '../../trial/Trial.ts';
import { winterShown } from '../figures/runFigures.ts';
import { type HourlyPack, type PackedDays, packedColumn } from './packedColumn.ts';

/**
 * The hourly columns behind the page's closer look at the capacitor and its weather, packed two bytes a number.
 *
 * in: run; days, the civil dates of its record; ids of its trials
 * out: columns in the order of the season
 */
export function hourlyPack(run: RunResult, days: readonly CivilDay[], ids: readonly string[]): HourlyPack {
  const { trials, scenario } = run;
  const { latitude_deg } = scenario.site;
  const pack: HourlyPack = {
    start_ms: trials[0]?.light.start_ms ?? 0,
    trials: {},
    lights: {},
    weather: null,
  };
  trials.forEach((trial, k) => {
    const winter = overWinters(trial.statistics.winters).worst?.winter ?? '';
    const shown = daysShown(trial, winter, days, latitude_deg);
    if (shown.length === 0) return;
    const light = JSON.stringify([trial.spot, winter]);
    pack.lights[light] ??= packedColumn(picked(trial.light.planeOfArray_W_m2, shown), 1);
    const params = scenario.lamps.find((lamp) => lamp.name === trial.lamp)?.params;
    pack.trials[ids[k]!] = {
      days: packedDays(shown),
      cutoff_V: params?.driver.cutoff_V ?? null,
      rated_V: params?.capacitor.rated_V ?? null,
      capacitor_V: packedColumn(picked(trial.year.columns.capacitorEnd_V, shown), 4),
      // No light, no reachable voltage.
      reachable_V: packedColumn(
        picked(trial.year.columns.reachable_V, shown).map((volts) => (volts > 0 ? volts : Number.NaN)),
        4,
      ),
      light,
    };
  });
  const [first] = trials;
  if (first !== undefined) {
    const shown = daysShown(first, winterShown(trials)?.winter ?? '', days, latitude_deg);
    const logged = Number.isNaN(first.light.ghi_W_m2[0] ?? Number.NaN);
    pack.weather = {
      days: packedDays(shown),
      heading: logged ? 'light_on_cell_W_m2' : 'ghi_W_m2',
      light: packedColumn(picked(logged ? first.light.planeOfArray_W_m2 : first.light.ghi_W_m2, shown), 1),
      mark: packedColumn(picked(Float64Array.from(first.light.mark), shown), 0),
    };
  }
  return pack;
}

function daysShown(
  trial: Trial,
  winter: string,
  days: readonly CivilDay[],
  latitude_deg: number,
): CivilDay[] {
  const byDate = new Map(days.map((day) => [day.date, day]));
  const rows = inSeason(
    winter,
    trial.nights.filter((row) => row.winter === winter),
    latitude_deg,
  );
  return rows.flatMap((row) => byDate.get(row.night) ?? []);
}

function packedDays(days: readonly CivilDay[]): PackedDays {
  return {
    from: days.map(({ from }) => from),
    hours: days.map(({ from, to }) => to - from),
    offset_min: days.map(({ offset_min }) => offset_min),
  };
}

function picked(column: Float64Array, days: readonly CivilDay[]): Float64Array {
  return Float64Array.from(days.flatMap(({ from, to }) => [...column.subarray(from, to)]));
}
