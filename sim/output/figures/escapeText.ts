const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/**
 * A text as it may stand in SVG and HTML, between tags or in a quoted attribute. What XML does not allow (control
 * characters, halves of pairs) becomes the replacement character.
 *
 * in: text, of any origin
 * out: the text, escaped
 * @example escapeText('<b>'); // => '&lt;b&gt;'
 */
export function escapeText(text: string): string {
  return text
    .replace(/(?![\t\n\r])\p{Cc}|\p{Cs}|[\ufffe\uffff]/gu, '\ufffd')
    .replace(/[&<>"']/g, (character) => ENTITIES[character]!);
}
