import { type Awaken, awakenSeen } from './awakener.ts';
import { chooser } from './chooser.ts';
import { readAddress } from './live/address.ts';
import type { LivePage } from './live/LivePage.ts';
import { figuresIn } from './page.ts';
import { sendTools } from './sendTools.ts';

/**
 * Starts what every page does: chooses the trial that is shown, brings pictures to life when they are seen, opens for
 * print what a reader needs.
 *
 * in: awaken, brings a picture to life; live, where trials can run here
 */
export function startPage(awaken: Awaken, live?: LivePage): void {
  const choose = choice(awaken, live);
  sendTools();
  window.addEventListener('hashchange', choose);
  document.addEventListener('DOMContentLoaded', choose);
  // What lies in a fold is seen once that opens.
  document.addEventListener(
    'toggle',
    ({ target }) => {
      if (target instanceof HTMLDetailsElement && target.open) figuresIn(target).forEach(awaken);
    },
    true,
  );
  openForPrint();
}

/** Shows the trial that the address names. */
function choice(awaken: Awaken, live: LivePage | undefined): () => void {
  const links = [...document.querySelectorAll<HTMLAnchorElement>('.overview a')];
  // Only a page with an overview shows one trial at a time.
  const trials = links.length > 0 ? [...document.querySelectorAll<HTMLElement>('.trial')] : [];
  const place = document.querySelector<HTMLElement>('.chooser');
  const list = place !== null && links.length > 0 ? chooser(place, links) : undefined;
  const sheets = trials.length > 0 ? [...document.querySelectorAll<HTMLElement>('.bench[data-of]')] : [];
  let chosen = trials.find((trial) => trial.dataset.brief === undefined) ?? trials[0];
  return () => {
    const { id, turns } = readAddress(location.hash);
    // The ids of a page are plain words: what is not one of them names nothing here.
    const target = document.getElementById(id);
    chosen = target?.closest<HTMLElement>('.trial') ?? firstOf(target, trials) ?? chosen;
    for (const trial of trials) {
      trial.hidden = trial !== chosen;
      trial.toggleAttribute('data-chosen', trial === chosen);
    }
    for (const sheet of sheets) sheet.hidden = !trialsOf(sheet).includes(chosen?.id ?? '');
    for (const link of links) {
      if (chosen !== undefined && link.hash === `#${chosen.id}`) link.setAttribute('aria-current', 'true');
      else link.removeAttribute('aria-current');
    }
    if (chosen !== undefined) list?.show(chosen.id);
    awakenSeen(document, awaken);
    const section = chosen ?? document.querySelector<HTMLElement>('.trial');
    if (section !== null)
      live?.show(section, section === target ? turns : undefined).then(() => awakenSeen(document, awaken));
    target?.scrollIntoView();
  };
}

/** The trials that a sheet for the hands is of; it is shown beside them. */
function trialsOf(sheet: HTMLElement): string[] {
  return (sheet.dataset.of ?? '').split(' ');
}

/** The first trial of the sheet that an element of the page lies in, where that is not shown. */
function firstOf(target: Element | null, trials: readonly HTMLElement[]): HTMLElement | undefined {
  const sheet = target?.closest<HTMLElement>('.bench[data-of][hidden]');
  return trials.find(({ id }) => sheet && trialsOf(sheet).includes(id));
}

function openForPrint(): void {
  let opened: HTMLDetailsElement[] = [];
  window.addEventListener('beforeprint', () => {
    opened = [...document.querySelectorAll<HTMLDetailsElement>('details.printed:not([open])')];
    for (const each of opened) each.open = true;
  });
  window.addEventListener('afterprint', () => {
    for (const each of opened) each.open = false;
  });
}
