/** Emphasis for a terminal; each gives its text back unchanged where colour is off. */
export interface Paint {
  strong: (text: string) => string;
  good: (text: string) => string;
  middling: (text: string) => string;
  bad: (text: string) => string;
  faint: (text: string) => string;
}

/**
 * Emphasis by ANSI control sequences, or none. Nothing may rest on it alone: every text reads without it.
 *
 * in: colour, whether the terminal takes it
 * out: the five kinds of emphasis
 */
export function paint(colour: boolean): Paint {
  const kind = (on: number, off: number) => (text: string) =>
    colour ? `\u001b[${on}m${text}\u001b[${off}m` : text;
  return {
    strong: kind(1, 22),
    good: kind(32, 39),
    middling: kind(33, 39),
    bad: kind(31, 39),
    faint: kind(2, 22),
  };
}
