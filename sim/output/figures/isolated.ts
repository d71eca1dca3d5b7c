/**
 * A name from a scenario for use within a sentence: fenced off, so that its writing direction does not turn the words
 * around it, nor its unclosed marks run on.
 *
 * in: name
 * out: the name between a first strong isolate (U+2068) and its end (U+2069); direction marks within it taken out
 */
export function isolated(name: string): string {
  return `\u2068${name.replace(/[\u202a-\u202e\u2066-\u2069]/g, '')}\u2069`;
}
