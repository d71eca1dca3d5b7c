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
  for (const figure of figuresIn(element)) if (figure.offsetParent !== null) awaken(figure);
}
