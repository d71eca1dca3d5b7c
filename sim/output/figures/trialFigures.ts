import type { NightRow } from '../../night/NightRow.ts';
import type { SkyPicture } from '../../spot/skyPicture.ts';
import { capacitorDays } from '../../statistics/capacitorDays.ts';
import type { CivilDay } from '../../statistics/civilHours.ts';
import { energyMonths } from '../../statistics/energyMonths.ts';
import { inSeason } from '../../statistics/inSeason.ts';
import { thresholdMonths } from '../../statistics/thresholdMonths.ts';
import type { RunResult } from '../../trial/RunResult.ts';
import type { Trial } from '../../trial/Trial.ts';
import { worstWinter } from '../worstWinter.ts';
import type { CapacitorLimits } from './capacitorChart.ts';
import { capacitorChart } from './capacitorChart.ts';
import { changeChart } from './changeChart.ts';
import { energyChart } from './energyChart.ts';
import type { Figure } from './Figure.ts';
import { fortnightChart } from './fortnightChart.ts';
import { fortnightHours } from './fortnightHours.ts';
import { isolated } from './isolated.ts';
import { nightChart } from './nightChart.ts';
import { nightColumns } from './nightColumns.ts';
import { skyChart } from './skyChart.ts';
import { summaries } from './summaries.ts';
import { thresholdChart } from './thresholdChart.ts';

/** What the pictures of a trial are drawn from, beside the trial. */
export interface TrialSetting {
  run: RunResult;
  /** The civil dates of the record. */
  days: readonly CivilDay[];
  sky: SkyPicture | undefined;
}

/**
 * The pictures of a trial, of its worst winter, in the order in which a page shows them.
 *
 * in: id, the trial's own; trial; setting
 * out: pictures; those without data are left out
 */
export function trialFigures(id: string, trial: Trial, setting: TrialSetting): Figure[] {
  const { scenario } = setting.run;
  const { site, promise } = scenario;
  const worst = worstWinter(trial);
  const winter = worst?.winter ?? '';
  const name = `${isolated(trial.lamp)} on ${isolated(trial.spot)}`;
  const rows = inSeason(
    winter,
    trial.nights.filter((row) => row.winter === winter),
    site.latitude_deg,
  );
  const say = summaries(trial, worst, promise);
  const lamp = scenario.lamps.find((candidate) => candidate.name === trial.lamp);
  const limits: CapacitorLimits = {
    cutoff_V: lamp?.params.driver.cutoff_V ?? Number.NaN,
    rated_V: lamp?.params.capacitor.rated_V ?? Number.NaN,
  };
  const figures: Figure[] = [];
  const columns = nightColumns(trial, winter, site);
  if (columns.length > 0) figures.push(nightChart(id, name, columns, say.nights));
  if (trial.changes.length > 0) figures.push(changeChart(id, name, trial.changes, say.changes));
  const shown = daysOf(rows, setting.days);
  if (shown.length > 0) {
    const byDate = new Map<string, NightRow>(rows.map((row) => [row.night, row]));
    figures.push(
      capacitorChart(id, name, capacitorDays(trial.year.columns, shown), byDate, limits, say.capacitor),
    );
  }
  const hours =
    worst?.darkestFortnight === undefined
      ? undefined
      : fortnightHours(trial, worst.darkestFortnight, winter, site);
  if (hours !== undefined) figures.push(fortnightChart(id, name, hours, limits, say.fortnight));
  const dated = <Month extends { month: string }>(months: Month[]) => {
    const seasonal = inSeason(
      winter,
      months.map((month) => ({ ...month, night: `${month.month}-01` })),
      site.latitude_deg,
    );
    const wanted = new Set(rows.map((row) => row.night.slice(0, 7)));
    return seasonal.filter(({ month }) => wanted.has(month));
  };
  const brightness = dated(thresholdMonths(rows));
  if (brightness.length > 0) {
    figures.push(thresholdChart(id, name, brightness, promise.least_lumen, say.brightness));
  }
  const area_m2 = lamp?.params.cell.area_m2 ?? Number.NaN;
  const energy = dated(
    energyMonths(trial.year.columns, trial.light.planeOfArray_W_m2, area_m2, setting.days),
  );
  if (energy.length > 0) figures.push(energyChart(id, name, energy, say.energy));
  if (setting.sky !== undefined) {
    const spot = `${id}`;
    figures.push(skyChart(spot, trial.spot, setting.sky, site.latitude_deg < 0, say.sky));
  }
  return figures;
}

/** The days of the record on which a winter's evenings fall, in its order. */
function daysOf(rows: readonly { night: string }[], days: readonly CivilDay[]): CivilDay[] {
  const byDate = new Map(days.map((day) => [day.date, day]));
  return rows.flatMap((row) => byDate.get(row.night) ?? []);
}
