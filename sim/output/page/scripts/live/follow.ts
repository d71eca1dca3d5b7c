import { make } from '../page.ts';

/** What markup says, as nodes that belong to no page yet. */
export function nodesOf(markup: string): ChildNode[] {
  const space = make('template');
  space.innerHTML = markup;
  return [...space.content.childNodes];
}

/**
 * Makes the content of an element what other nodes are, by the fewest changes: what is laid out and painted of it stays
 * but for those.
 */
export function followWithin(shown: Element, fresh: readonly ChildNode[]): void {
  const nodes = [...shown.childNodes];
  if (nodes.length !== fresh.length) shown.replaceChildren(...fresh);
  else
    nodes.forEach((node, k) => {
      follow(node, fresh[k]!);
    });
}

/** Makes a node of the page equal to another, by the fewest changes. */
export function follow(shown: ChildNode, fresh: ChildNode): void {
  if (shown.isEqualNode(fresh)) return;
  if (shown instanceof Element && fresh instanceof Element && shown.nodeName === fresh.nodeName) {
    for (const name of new Set([...shown.getAttributeNames(), ...fresh.getAttributeNames()])) {
      const value = fresh.getAttribute(name);
      if (value === null) shown.removeAttribute(name);
      else if (value !== shown.getAttribute(name)) shown.setAttribute(name, value);
    }
    followWithin(shown, [...fresh.childNodes]);
  } else if (shown instanceof Text && fresh instanceof Text) shown.data = fresh.data;
  else shown.replaceWith(fresh);
}
