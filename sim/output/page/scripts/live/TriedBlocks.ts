import type { Answers, Blocks } from '../../live/asks.ts';
import { type Awaken, awakenSeen } from '../awakener.ts';
import { figuresIn } from '../page.ts';
import { follow, followWithin, nodesOf } from './follow.ts';

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

  /** Shows what follows the hand, after the values were turned; all else waits for its own. */
  follow({ answer, nights }: Answers['hand']): void {
    for (const place of this.places()) {
      const { block } = place.dataset;
      if (block === 'answer') this.followBlock(place, answer);
      else if (block === 'nights' && this.followPicture(place, nights)) mark(place, 'waiting', 'data');
      else mark(place, 'waiting', '');
    }
  }

  /** Puts blocks in that waited. */
  add(blocks: Blocks): void {
    const fresh = new Map<string | undefined, string>(blocks.map(({ block, markup }) => [block, markup]));
    for (const place of this.places()) {
      const markup = fresh.get(place.dataset.block);
      if (markup === undefined) continue;
      if (!this.written.has(place)) this.written.set(place, [...place.childNodes]);
      const view = viewOf(place);
      place.innerHTML = markup;
      seenAs(place, view);
      delete place.dataset.waiting;
      mark(place, 'tried', '');
    }
    awakenSeen(this.section, this.awaken);
  }

  private followBlock(place: HTMLElement, markup: string): void {
    this.keepWritten(place);
    followWithin(place, nodesOf(markup));
    mark(place, 'tried', '');
  }

  /** in: sight, what is seen of a block's picture. out: whether the block shows such a one */
  private followPicture(place: HTMLElement, sight: string): boolean {
    const fresh = nodesOf(sight);
    const seen = () => [...place.querySelectorAll('figcaption, svg.picture')];
    if (fresh.length === 0 || seen().length !== fresh.length) return false;
    this.keepWritten(place);
    seen().forEach((element, k) => {
      follow(element, fresh[k]!);
    });
    mark(place, 'tried', '');
    return true;
  }

  /** Lets a copy of what the page was written with stand in its place, which may be changed. */
  private keepWritten(place: HTMLElement): void {
    if (this.written.has(place)) return;
    const nodes = [...place.childNodes];
    this.written.set(place, nodes);
    place.replaceChildren(...nodes.map((node) => node.cloneNode(true)));
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

/** Marks a block, unless it is marked so: the style of all within it would be made anew. */
function mark({ dataset }: HTMLElement, key: 'tried' | 'waiting', value: string): void {
  if (dataset[key] !== value) dataset[key] = value;
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
