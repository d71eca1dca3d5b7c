import { make } from './page.ts';

/** The list of all trials by name, for whoever is further down than the overview. */
interface Chooser {
  /** Says which trial is shown. */
  show: (id: string) => void;
}

/**
 * Fills the place for the list of trials; what is chosen goes into the address, and with it to the same picture as was read
 * before.
 */
export function chooser(place: HTMLElement, links: readonly HTMLAnchorElement[]): Chooser {
  const label = make('label', '', 'Shown: ');
  const list = make('select');
  for (const link of links) {
    const words = link.getAttribute('aria-label') ?? cardWords(link);
    list.append(new Option(words, link.hash.slice(1)));
  }
  list.addEventListener('change', () => {
    location.hash = samePlace(list.value);
  });
  label.append(list);
  place.append(label);
  place.hidden = false;
  return {
    show: (id) => {
      list.value = id;
    },
  };
}

function cardWords(link: HTMLElement): string {
  const [name, verdict] = ['.cardName', '.cardVerdict'].map(
    (part) => link.querySelector(part)?.textContent?.trim() ?? '',
  );
  return `${name} ${verdict}`;
}

/** The picture of another trial that stands where one of the trial shown is read now; else the trial itself. */
function samePlace(id: string): string {
  const read = [...document.querySelectorAll<HTMLElement>('.trial:not([hidden]) .reasons figure')].find(
    (figure) => {
      const { top, bottom } = figure.getBoundingClientRect();
      return top < innerHeight / 2 && bottom > innerHeight / 4;
    },
  );
  const same = `${id}-${read?.dataset.figure ?? ''}`;
  return document.getElementById(same) === null ? id : same;
}
