import type { Turn } from '../../../../trial/live/LiveRun.ts';
import { properSigns } from '../../../figures/properSigns.ts';
import type { Answer, Tried } from '../../live/asks.ts';
import type { Awaken } from '../awakener.ts';
import { make, save } from '../page.ts';
import { addressOf } from './address.ts';
import { followWithin, nodesOf } from './follow.ts';
import { Knobs } from './Knobs.ts';
import type { LiveWorker } from './LiveWorker.ts';
import { TriedBlocks } from './TriedBlocks.ts';

/** So long without a turn, and the hand rests. */
const REST_MS = 250;

/** Workers of a page: one follows the hand and does nothing else. */
export interface Workers {
  hand: LiveWorker;
  patient: LiveWorker;
}

/** Values that are wanted; another object for each turn of a control. */
interface Wish {
  turns: readonly Turn[];
  /** The same in words. */
  words: string;
}

/** Lets a maker turn a trial's values, and shows what comes of it. */
export class TryPanel {
  private readonly panel: HTMLElement;
  private readonly section: HTMLElement;
  private readonly workers: Workers;
  private readonly knobs: Knobs;
  private readonly blocks: TriedBlocks;
  private readonly banner = make('p', 'tried');
  private readonly refused: HTMLElement;
  /** The outcome at a glance, as the file has it. */
  private readonly glance: string;
  private wish: Wish = { turns: [], words: '' };
  private shown = this.wish;
  private asked = this.wish;
  private following = false;
  private resting: ReturnType<typeof setTimeout> | undefined;

  constructor(section: HTMLElement, panel: HTMLElement, workers: Workers, awaken: Awaken) {
    this.section = section;
    this.panel = panel;
    this.workers = workers;
    this.knobs = new Knobs(panel);
    this.blocks = new TriedBlocks(section, awaken);
    this.refused = this.part('.refused');
    this.glance = this.part('.glance').innerHTML;
    this.banner.hidden = true;
    section.prepend(this.banner);
    panel.addEventListener('input', ({ target }) => this.turned(target as HTMLElement));
    this.button('back').addEventListener('click', () => this.turnTo(new Map()));
    this.button('scenario').addEventListener('click', () => this.takeAway());
    panel.hidden = false;
  }

  /** Turns all values to those of an address; those it does not name to the file's. */
  turnTo(texts: ReadonlyMap<string, string>): void {
    const unknown = this.knobs.set(texts);
    this.turned(this.panel);
    if (unknown.length > 0)
      this.say(`The address asks for what cannot be turned here: ${unknown.join(', ')}.`);
  }

  /** The trial as it is shown. */
  get shownTrial(): Tried {
    return this.of(this.shown);
  }

  /**
   * Lets the worker that follows the hand get ready: what is shown, then a turn of each kind, since what runs for
   * the first time takes longest. Whoever turns does not wait for it.
   */
  async warm(): Promise<void> {
    const { wish } = this;
    const place = placeOf(this.section);
    for (const turns of [wish.turns, ...this.knobs.samples().map((turn) => [turn])]) {
      if (this.following || this.wish !== wish) return;
      await this.workers.hand.ask('hand', { place, turns });
    }
  }

  private of({ turns }: Wish): Tried {
    return { place: placeOf(this.section), turns };
  }

  private turned(by: HTMLElement): void {
    this.knobs.say();
    const turns = this.knobs.turns();
    clearTimeout(this.resting);
    this.refused.hidden = true;
    const knob = by.closest('.knob');
    if (knob?.nextElementSibling !== this.refused) knob?.after(this.refused);
    this.wish = { turns, words: this.knobs.words().join('; ') };
    for (const deed of ['back', 'scenario']) this.button(deed).disabled = turns.length === 0;
    if (turns.length === 0) this.goBack();
    else void this.follow();
  }

  /** Asks for the newest wish, and for none that was overtaken. */
  private async follow(): Promise<void> {
    if (this.following) return;
    this.following = true;
    for (let next = this.askNewest(); next !== undefined; ) {
      const { wish } = next;
      const answer = await next.answer;
      // The worker is at the next one while this one is drawn, or at what the next one may be.
      next = this.askNewest();
      if (next === undefined) this.goAhead();
      if (this.wish.turns.length > 0) this.show(wish, answer);
    }
    this.following = false;
    if (this.wish.turns.length > 0) this.resting = setTimeout(() => this.rest(), REST_MS);
  }

  /** Has the worker make what the hand comes to if it goes on as it went; it keeps that. */
  private goAhead(): void {
    const turns = this.knobs.ahead();
    if (turns !== undefined) void this.workers.hand.ask('hand', { place: placeOf(this.section), turns });
  }

  private askNewest() {
    const { wish } = this;
    if (wish === this.asked || wish.turns.length === 0) return undefined;
    this.asked = wish;
    return { wish, answer: this.workers.hand.ask('hand', this.of(wish)) };
  }

  private show(wish: Wish, answer: Answer<'hand'>): void {
    if ('refused' in answer) {
      const { words } = this.shown;
      const still = words === '' ? 'what the file has' : `what was tried before: ${words}`;
      this.say(`${answer.refused}. The drawings still show ${still}.`);
      this.section.dataset.refused = '';
      return;
    }
    this.shown = wish;
    this.inPlace(() => {
      this.mark();
      followWithin(this.part('.glance'), nodesOf(answer.glance));
      this.blocks.follow(answer);
    });
    this.outcome = answer.outcome;
  }

  /** The outcome in words, to be spoken. */
  private outcome = '';

  /** What comes when the hand rests: the address, the spoken outcome, and the other blocks. */
  private async rest(): Promise<void> {
    const { wish } = this;
    this.keepAddress();
    this.part('.unseen').textContent = this.refused.hidden ? this.outcome : this.refused.textContent;
    if (wish !== this.shown) return;
    const { hand, patient } = this.workers;
    for (const asked of [hand.ask('pause', this.of(wish)), patient.ask('rest', this.of(wish))]) {
      const answer = await asked;
      if (wish === this.wish && !('refused' in answer)) this.inPlace(() => this.blocks.add(answer));
    }
  }

  private goBack(): void {
    this.asked = this.shown = this.wish;
    this.inPlace(() => {
      this.mark();
      this.part('.glance').innerHTML = this.glance;
      this.blocks.restore();
    });
    this.part('.unseen').textContent = 'All as in the file';
    this.keepAddress();
  }

  /** Says above all that is drawn what it was drawn from. */
  private mark(): void {
    const { words } = this.shown;
    delete this.section.dataset.refused;
    this.banner.hidden = words === '';
    this.banner.replaceChildren(make('strong', '', 'Tried, not the file’s: '), properSigns(words));
  }

  private say(words: string): void {
    this.refused.textContent = properSigns(words);
    this.refused.hidden = false;
  }

  private keepAddress(): void {
    history.replaceState(null, '', addressOf(this.section.id, this.wish.turns));
  }

  private async takeAway(): Promise<void> {
    const answer = await this.workers.patient.ask('scenario', this.of(this.wish));
    if ('refused' in answer) this.say(answer.refused);
    else save(answer.file, 'application/yaml', answer.yaml);
  }

  /** Does what may change heights above the panel, which stays under the hand. */
  private inPlace(change: () => void): void {
    const { top } = this.panel.getBoundingClientRect();
    change();
    const moved = this.panel.getBoundingClientRect().top - top;
    if (Math.abs(moved) > 0.5) window.scrollBy({ top: moved, behavior: 'instant' });
  }

  private part(selector: string): HTMLElement {
    return this.panel.querySelector<HTMLElement>(selector)!;
  }

  private button(deed: string): HTMLButtonElement {
    return this.panel.querySelector<HTMLButtonElement>(`[data-do="${deed}"]`)!;
  }
}

/** Which trial of the run a part of the page is of, from 1. */
export function placeOf({ id }: HTMLElement): number {
  return Number(id.slice('trial-'.length));
}
