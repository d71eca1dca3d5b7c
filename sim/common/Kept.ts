const MOST = 64;

/**
 * What was made from values before, kept for values equal to them (written as JSON); shared, so nobody may change it.
 * For what is dear to make and often wanted again, as parts of a lamp of which another part is changed.
 */
export class Kept<Made> {
  readonly #made = new Map<string, Made>();

  /** in: values, all that the thing depends on; make, makes it where it is not kept */
  of(values: readonly unknown[], make: () => Made): Made {
    const key = JSON.stringify(values);
    const known = this.#made.get(key);
    if (known !== undefined) return known;
    const made = make();
    if (this.#made.size >= MOST) this.#made.clear();
    this.#made.set(key, made);
    return made;
  }
}
