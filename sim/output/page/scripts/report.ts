// The script of a run's page: its trials run again where the browser can.
import { awakener } from './awakener.ts';
import { closerLook } from './closerLook.ts';
import { figureTools } from './figureTools.ts';
import { LivePage } from './live/LivePage.ts';
import { CAN_RUN } from './live/LiveWorker.ts';
import { packedHours } from './packedHours.ts';
import { startPage } from './startPage.ts';

const awaken = awakener(bring);
const live = CAN_RUN ? new LivePage(awaken) : undefined;

function bring(figure: HTMLElement): void {
  figureTools(figure);
  const packed = packedHours(figure.dataset.of ?? '');
  if (packed !== undefined) closerLook(figure, async () => packed);
  else if (live !== undefined) closerLook(figure, live.hoursOf(figure));
}

startPage(awaken, live);
