import type { CloserHours } from '../../closerHours.ts';
import type { Awaken } from '../awakener.ts';
import { make } from '../page.ts';
import { LiveWorker } from './LiveWorker.ts';
import { placeOf, TryPanel } from './TryPanel.ts';

/** A page whose trials run again in it. */
export class LivePage {
  private readonly awaken: Awaken;
  private readonly workers = { hand: new LiveWorker(), patient: new LiveWorker() };
  private readonly panels = new Map<string, TryPanel>();

  constructor(awaken: Awaken) {
    this.awaken = awaken;
    for (const section of document.querySelectorAll<HTMLElement>('.trial')) this.panelOf(section);
  }

  /** A trial is chosen: it is drawn whole if it was not, and its values are turned where an address says which. */
  async show(section: HTMLElement, turns: ReadonlyMap<string, string> | undefined): Promise<void> {
    if (section.dataset.brief !== undefined) await this.draw(section);
    const panel = this.panels.get(section.id);
    if (turns !== undefined) panel?.turnTo(turns);
    setTimeout(() => void panel?.warm(), 0);
  }

  /** Draws the whole of a trial of which the page was written with little. */
  private async draw(section: HTMLElement): Promise<void> {
    const part = await this.workers.patient.ask('part', { place: placeOf(section), turns: [] });
    if (typeof part !== 'string' || section.dataset.brief === undefined) return;
    const space = make('div');
    space.innerHTML = part;
    section.replaceChildren(...space.firstElementChild!.childNodes);
    delete section.dataset.brief;
    this.panelOf(section);
  }

  /** Makes the hours behind a picture as its trial was shown when it was drawn. */
  hoursOf({ dataset: { of: id = '' } }: HTMLElement): () => Promise<CloserHours | undefined> {
    const tried = this.panels.get(id)?.shownTrial;
    return async () => {
      if (tried === undefined) return undefined;
      const hours = await this.workers.patient.ask('hours', tried);
      return 'refused' in hours ? undefined : hours;
    };
  }

  private panelOf(section: HTMLElement): void {
    const panel = section.querySelector<HTMLElement>('.try');
    if (panel !== null) this.panels.set(section.id, new TryPanel(section, panel, this.workers, this.awaken));
  }
}
