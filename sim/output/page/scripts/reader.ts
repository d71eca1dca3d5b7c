// The script of every page: chooses the trial that is shown, brings the pictures to life, opens for print what a reader needs.
import { chooser } from './chooser.ts';
import { figureTools } from './figureTools.ts';
import { sendTools } from './sendTools.ts';

const links = [...document.querySelectorAll<HTMLAnchorElement>('.overview a')];
// Only a page with an overview shows one trial at a time.
const trials = links.length > 0 ? [...document.querySelectorAll<HTMLElement>('.trial')] : [];
const place = document.querySelector<HTMLElement>('.chooser');
const list = place !== null && links.length > 0 ? chooser(place, links) : undefined;
let chosen = trials.find((trial) => trial.dataset.brief === undefined) ?? trials[0];

/** Sheets for the hands, shown beside the trials that they are of. */
const sheets = trials.length > 0 ? [...document.querySelectorAll<HTMLElement>('.bench[data-of]')] : [];

function trialsOf(sheet: HTMLElement): string[] {
  return (sheet.dataset.of ?? '').split(' ');
}

/** The first trial of the sheet that an element of the page lies in, where that is not shown. */
function firstOf(target: Element | null): HTMLElement | undefined {
  const sheet = target?.closest<HTMLElement>('.bench[data-of][hidden]');
  return trials.find(({ id }) => sheet && trialsOf(sheet).includes(id));
}

function choose(): void {
  // The ids of a page are plain words: what is not one of them names nothing here.
  const target = document.getElementById(location.hash.slice(1));
  chosen = target?.closest<HTMLElement>('.trial') ?? firstOf(target) ?? chosen;
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
  for (const figure of figures) if (figure.offsetParent !== null) awaken(figure);
  target?.scrollIntoView();
}

const figures = [...document.querySelectorAll<HTMLElement>('figure[data-figure]')];
sendTools();
const awake = new WeakSet<HTMLElement>();

/** Brings a picture to life when it is first seen. */
function awaken(figure: HTMLElement): void {
  if (!awake.has(figure)) figureTools(figure);
  awake.add(figure);
  figure.dispatchEvent(new Event('shown'));
}

window.addEventListener('hashchange', choose);
// What lies in a fold is seen once that opens.
document.addEventListener(
  'toggle',
  ({ target }) => {
    if (target instanceof HTMLDetailsElement && target.open)
      target.querySelectorAll<HTMLElement>('figure[data-figure]').forEach(awaken);
  },
  true,
);
let opened: HTMLDetailsElement[] = [];
window.addEventListener('beforeprint', () => {
  opened = [...document.querySelectorAll<HTMLDetailsElement>('details.printed:not([open])')];
  for (const each of opened) each.open = true;
});
window.addEventListener('afterprint', () => {
  for (const each of opened) each.open = false;
});
document.addEventListener('DOMContentLoaded', choose);
