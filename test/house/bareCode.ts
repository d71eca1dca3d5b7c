/** A file's text twice over, line breaks kept: its code with comments blanked, and its bones with strings blanked too. */
export interface BareCode {
  code: string;
  bones: string;
}

const COMMENT = /\/\/[^\n]*|\/\*[\s\S]*?\*\//y;
const STRING = /'(?:[^'\\\n]|\\.)*'|"(?:[^"\\\n]|\\.)*"/y;
const REGEX = /\/(?:[^/\\\n[]|\\.|\[(?:[^\]\\\n]|\\.)*\])+\/[a-z]*/y;
/** What stands before a slash that begins a regular expression. */
const BEFORE_REGEX = /(?:^|[=(,:;[!&|?{}>]|\breturn|\btypeof)\s*$/;

const blank = (text: string): string => text.replace(/[^\n]/g, ' ');

/** Tells comments, strings, templates and regular expressions of TypeScript apart, enough for a formatted file. */
export function bareCode(text: string): BareCode {
  let [code, bones] = ['', ''];
  const put = (piece: string, kept: string, bone: string): void => {
    code += kept;
    bones += bone;
    at += piece.length;
  };
  const found = (pattern: RegExp): string | undefined => {
    pattern.lastIndex = at;
    return pattern.exec(text)?.[0];
  };
  /** Depth of braces at which the code inside each open template ends. */
  const templates: number[] = [];
  let depth = 0;
  let at = 0;
  while (at < text.length) {
    const letter = text[at]!;
    const comment = letter === '/' ? found(COMMENT) : undefined;
    if (comment !== undefined) put(comment, blank(comment), blank(comment));
    else if (letter === "'" || letter === '"') {
      const string = found(STRING) ?? letter;
      put(string, string, blank(string));
    } else if (letter === '`' || (letter === '}' && templates.at(-1) === depth)) {
      if (letter === '}') templates.pop();
      const part = /[`}](?:[^`\\$]|\\.|\$(?!\{))*(?:`|\$\{)/sy;
      const piece = found(part) ?? letter;
      if (piece.endsWith('${')) templates.push(depth);
      put(piece, piece, blank(piece));
    } else if (letter === '/' && BEFORE_REGEX.test(bones.slice(-40))) {
      const pattern = found(REGEX) ?? letter;
      put(pattern, pattern, blank(pattern));
    } else {
      if (letter === '{') depth++;
      if (letter === '}') depth--;
      put(letter, letter, letter);
    }
  }
  return { code, bones };
}
