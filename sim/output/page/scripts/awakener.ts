import { figuresIn } from './page.ts';

/** Brings a picture that is seen to life, where that is for the first time. */
export type Awaken = (figure: HTMLElement) => void;

/** in: bring, brings a picture to life */
export function awakener(bring: (figure: HTMLElement) => void): Awaken {
  const awake = new WeakSet<HTMLElement>();
  return (figure) => {
    if (!awake.has(figure)) bring(figure);
    awake.add(figure);
  };
}

/** Awakens what can be seen of an element's pictures. */
export function awakenSeen(element: ParentNode, awaken: Awaken): void {
  // All are looked at before the first is changed: else the page would be laid out anew for each.
  const seen = figuresIn(element).filter((figure) => figure.offsetParent !== null);
  seen.forEach(awaken);
}
