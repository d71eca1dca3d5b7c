/** Cuts a list into pieces of one size, the last as long as what is left. */
export function pieces<Item>(items: readonly Item[], size: number): (readonly Item[])[] {
  return Array.from({ length: Math.ceil(items.length / size) }, (_, k) =>
    items.slice(k * size, (k + 1) * size),
  );
}
