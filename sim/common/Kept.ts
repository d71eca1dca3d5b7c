const MOST = 64;

/**
 * What was made from values before, kept for values equal to them (written as JSON); shared, so nobody may change it.
 * For what is dear to make and often wanted again, as parts of a lamp of which another part is changed.
 */
export class Kept<Made> {
  readonly #most: number;
  /** Those last asked for stand last. */
  readonly #made: Map<string, Made>;

  /** in: most, how many are kept: those last asked for */
  constructor(most = MOST, known: Iterable<[string, Made]> = []) {
    this.#most = most;
    this.#made = new Map(known);
  }

  /** in: values, all that the thing depends on; make, makes it where it is not kept */
  of(values: readonly unknown[], make: () => Made): Made {
    const key = JSON.stringify(values);
    const made = this.#made.get(key) ?? make();
    this.#made.delete(key);
    this.#made.set(key, made);
    if (this.#made.size > this.#most) this.#made.delete(this.#made.keys().next().value!);
    return made;
  }

  /** As many of the same, to be gone on with apart. */
  copy(): Kept<Made> {
    return new Kept(this.#most, this.#made);
  }

  /** As many, and none known yet. */
  empty(): Kept<Made> {
    return new Kept(this.#most);
  }
}
