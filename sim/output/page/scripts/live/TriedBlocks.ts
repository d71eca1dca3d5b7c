import { type Awaken, awakenSeen } from '../awakener.ts';
import { figuresIn } from '../page.ts';

/** The blocks of a trial's part of the page: put in again with what is tried, and taken back to what the file has. */
export class TriedBlocks {
  private readonly section: HTMLElement;
  private readonly awaken: Awaken;
  /** What the page was written with, by block. */
  private readonly written = new Map<HTMLElement, Node[]>();

  constructor(section: HTMLElement, awaken: Awaken) {
    this.section = section;
    this.awaken = awaken;
  }

  /** Puts some blocks in, after the values were turned; all others wait for theirs. */
  put(blocks: readonly { block: string; markup: string }[]): void {
    for (const place of this.places()) place.dataset.waiting = '';
    this.add(blocks);
  }

  /** Puts the blocks in that waited. */
  add(blocks: readonly { block: string; markup: string }[]): void {
    const fresh = new Map(blocks.map(({ block, markup }) => [block, markup]));
    for (const place of this.places()) {
      const markup = fresh.get(place.dataset.block!);
      if (markup === undefined) continue;
      if (!this.written.has(place)) this.written.set(place, [...place.childNodes]);
      const view = viewOf(place);
      place.innerHTML = markup;
      seenAs(place, view);
      delete place.dataset.waiting;
      place.dataset.tried = '';
    }
    awakenSeen(this.section, this.awaken);
  }

  /** As the file has it. */
  restore(): void {
    for (const place of this.places()) {
      delete place.dataset.waiting;
      delete place.dataset.tried;
      const nodes = this.written.get(place);
      if (nodes !== undefined) place.replaceChildren(...nodes);
    }
    this.written.clear();
  }

  private places(): HTMLElement[] {
    return [...this.section.querySelectorAll<HTMLElement>(':scope [data-block]')];
  }
}

/** How a reader looks at a block: what is unfolded, and the row read of each picture. */
function viewOf(place: HTMLElement) {
  return {
    open: [...place.querySelectorAll('details')].map((details) => details.open),
    rows: figuresIn(place).map((figure) => figure.querySelector('.reader')?.getAttribute('aria-valuenow')),
  };
}

function seenAs(place: HTMLElement, { open, rows }: ReturnType<typeof viewOf>): void {
  place.querySelectorAll('details').forEach((details, k) => {
    details.open = open[k] ?? details.open;
  });
  figuresIn(place).forEach((figure, k) => {
    const row = rows[k];
    if (row)
      for (const reader of figure.querySelectorAll<HTMLElement>('.reader'))
        reader.dataset.first = String(Number(row) - 1);
  });
}
