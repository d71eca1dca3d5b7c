/**
 * A value as JSON that can stand in a script element of the page: nothing in it ends the element or opens a comment.
 *
 * in: value, plain data
 * out: JSON text with every < as \u003c
 */
export function embeddedJson(value: unknown): string {
  return JSON.stringify(value)
    .replaceAll('<', '\\u003c')
    .replaceAll('\u2028', '\\u2028')
    .replaceAll('\u2029', '\\u2029');
}
