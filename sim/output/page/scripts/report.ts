// The script of a run's page: its trials run again where the browser can.
import type { CloserHours } from '../closerHours.ts';
import { unpackedColumn } from '../packedColumn.ts';
import { awakener } from './awakener.ts';
import { closerLook } from './closerLook.ts';
import { figureTools } from './figureTools.ts';
import { LivePage } from './live/LivePage.ts';
import { CAN_RUN } from './live/LiveWorker.ts';
import { HOURS } from './page.ts';
import { startPage } from './startPage.ts';

const awaken = awakener(bring);
const live = CAN_RUN ? new LivePage(awaken) : undefined;

function bring(figure: HTMLElement): void {
  figureTools(figure);
  const packed = packedHours(figure.dataset.of ?? '');
  if (packed !== undefined) closerLook(figure, async () => packed);
  else if (live !== undefined) closerLook(figure, live.hoursOf(figure));
}

/** The hours of a trial that the page carries; undefined where it has none of it. */
function packedHours(id: string): CloserHours | undefined {
  const own = HOURS?.trials[id];
  if (!HOURS || own === undefined) return undefined;
  return {
    start_ms: HOURS.start_ms,
    days: own.days,
    cutoff_V: own.cutoff_V ?? Number.NaN,
    rated_V: own.rated_V ?? Number.NaN,
    capacitor_V: unpackedColumn(own.capacitor_V),
    reachable_V: unpackedColumn(own.reachable_V),
    lightOnCell_W_m2: unpackedColumn(HOURS.lights[own.light]!),
  };
}

startPage(awaken, live);
