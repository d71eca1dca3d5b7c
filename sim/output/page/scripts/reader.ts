// The script of every page: chooses the trial that is shown, brings the pictures to life, opens everything for print.
import { figureTools } from './figureTools.ts';
import { sendTools } from './sendTools.ts';

const cards = [...document.querySelectorAll<HTMLAnchorElement>('.card')];
// Only a page with an overview shows one trial at a time.
const trials = cards.length > 0 ? [...document.querySelectorAll<HTMLElement>('.trial')] : [];

function choose(): void {
  // The ids of a page are plain words: what is not one of them names nothing here.
  const target = document.getElementById(location.hash.slice(1));
  const one = trials.find((trial) => !trial.hidden && trials.some((other) => other.hidden));
  const shown = target?.closest<HTMLElement>('.trial') ?? one ?? trials[0];
  for (const trial of trials) trial.hidden = trial !== shown;
  for (const card of cards) {
    if (shown !== undefined && card.hash === `#${shown.id}`) card.setAttribute('aria-current', 'true');
    else card.removeAttribute('aria-current');
  }
  for (const figure of figures) if (figure.offsetParent !== null) figure.dispatchEvent(new Event('shown'));
  target?.scrollIntoView();
}

const figures = [...document.querySelectorAll<HTMLElement>('figure[data-figure]')];
figures.forEach(figureTools);
sendTools();
window.addEventListener('hashchange', choose);
let opened: HTMLDetailsElement[] = [];
window.addEventListener('beforeprint', () => {
  opened = [...document.querySelectorAll<HTMLDetailsElement>('details:not([open])')];
  for (const each of opened) each.open = true;
});
window.addEventListener('afterprint', () => {
  for (const each of opened) each.open = false;
});
document.addEventListener('DOMContentLoaded', choose);
