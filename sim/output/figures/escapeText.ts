const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/**
 * A text as it may stand in SVG and HTML, between tags or in a quoted attribute. What XML does not allow (control
 * characters, halves of pairs) becomes the replacement character; marks that override the writing direction go.
 *
 * in: text, of any origin
 * out: the text, escaped
 * @example escapeText('<b>'); // => '&lt;b&gt;'
 */
export function escapeText(text: string): string {
  return (
    text
      .replace(/(?![\t\n\r])\p{Cc}|\p{Cs}|[\ufffe\uffff]/gu, '\ufffd')
      // Embeddings and overrides would turn the words after a name; scripts written from the right need none of them.
      .replace(/[\u202a-\u202e]/g, '')
      .replace(/[&<>"']/g, (character) => ENTITIES[character]!)
  );
}
