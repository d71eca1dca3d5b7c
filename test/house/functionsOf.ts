import { bareCode } from './bareCode.ts';

/** A function of a file, by its first line. */
export interface FunctionPlace {
  name: string;
  line: number;
  /** From its first line to its closing brace. */
  lines: number;
}

const CONTROL = /^(?:if|for|while|switch|catch|else|do|try|return)\b/;
const METHOD =
  /^(?:(?:private|protected|public|static|async|override|readonly|get|set) )*(?:[#\w]+|\*)(?:<.*>)?\(/;

/** Functions with a body of more than a line, found by the indentation that the formatter gives: head and end share it. */
export function functionsOf(text: string): FunctionPlace[] {
  const lines = bareCode(text).bones.split('\n');
  const shown = text.split('\n');
  const indent = (line: string): number => line.search(/\S/);
  return lines.flatMap((line, opens) => {
    if (!line.trimEnd().endsWith('{')) return [];
    const depth = indent(line);
    let first = opens;
    // A head of several lines closes its parameters on a line that begins with their bracket.
    if (/^\s*[)}\]]/.test(line)) {
      first--;
      while (first > 0 && (indent(lines[first]!) > depth || indent(lines[first]!) < 0)) first--;
    }
    const start = lines[first]!.trim();
    const head = lines
      .slice(first, opens + 1)
      .join(' ')
      .trim();
    const isFunction =
      /\bfunction\b/.test(head) || /=>\s*\{$/.test(head) || (METHOD.test(start) && /\)[^()]*\{$/.test(head));
    if (!isFunction || CONTROL.test(start)) return [];
    const end = lines.findIndex((other, i) => i > opens && indent(other) >= 0 && indent(other) <= depth);
    return end < 0
      ? []
      : [{ name: shown[first]!.trim().slice(0, 70), line: first + 1, lines: end - first + 1 }];
  });
}
