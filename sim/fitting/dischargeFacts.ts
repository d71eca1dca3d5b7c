import { InputProblem } from '../common/InputProblem.ts';
import { writtenQuantity } from '../scenario/writtenQuantity.ts';
import type { Layout } from '../weather/recognise/DetectedFormat.ts';

/** What the capacitor was rated for and discharged with. */
export interface DischargeFacts {
  rated_V: number;
  /** A constant current, or a load resistor. */
  current_A?: number;
  load_ohm?: number;
}

/** What the user states of it; each wins over the file. */
export type StatedFacts = { [fact in keyof DischargeFacts]?: number | undefined };

/** Facts, and words that say them in lines above the rows, their signs and blanks as one blank; unit of the number. */
const FACTS = {
  rated_V: {
    what: 'rated voltage',
    unit: 'V',
    option: '--rated',
    names: /^(rated( voltage)?|nominal voltage|nennspannung|[uv] ?r|maximum voltage)$/,
  },
  current_A: {
    what: 'current',
    unit: 'A',
    option: '--current',
    names: /^((discharge |constant |load )?current|entladestrom|i ?dc|i ?discharge)$/,
  },
  load_ohm: {
    what: 'load',
    unit: 'ohm',
    option: '--ohms',
    names: /^((load|discharge) ?(resistor|resistance)?|resistor|lastwiderstand|r ?load)$/,
  },
} as const;
type Fact = keyof typeof FACTS;

/**
 * What the user says of a discharge, else what stands above the rows of its file.
 *
 * in: file, its name; layout; said, by the user; words, which take where each was said
 * throws: SCENARIO_CONFLICT where the file says both a current and a load
 */
export function dischargeFacts(
  file: string,
  layout: Layout,
  said: StatedFacts,
  words: string[],
): Partial<DischargeFacts> {
  const facts: Partial<DischargeFacts> = {};
  const names = Object.keys(FACTS) as Fact[];
  for (const line of layout.preamble) {
    const [, name = '', text = ''] =
      /^[\s#%*"]*([^:=,;|\t]+?)"?\s*[:=,;|\t]\s*"?(.*?)["\s]*$/.exec(line) ?? [];
    const { words: key, unit } = nameAndUnit(name);
    const fact = names.find((each) => FACTS[each].names.test(key));
    const value = fact === undefined ? undefined : quantity(text, unit, FACTS[fact].unit);
    if (fact === undefined || value === undefined || value <= 0) continue;
    facts[fact] = value;
    if (said[fact] === undefined)
      words.push(`${FACTS[fact].what}: ${value} ${FACTS[fact].unit}, as the file says ("${line.trim()}")`);
  }
  for (const fact of names) {
    if (said[fact] !== undefined) words.push(`${FACTS[fact].option} ${said[fact]}, as stated`);
  }
  const isStated = said.current_A !== undefined || said.load_ohm !== undefined;
  const { rated_V = facts.rated_V, current_A, load_ohm } = said;
  if (isStated) return pruned({ rated_V, current_A, load_ohm });
  if (facts.current_A !== undefined && facts.load_ohm !== undefined) {
    const typed = [`--current ${facts.current_A}`, `--ohms ${facts.load_ohm}`];
    throw new InputProblem({
      code: 'SCENARIO_CONFLICT',
      file,
      got: `a current of ${facts.current_A} A and a load of ${facts.load_ohm} ohm`,
      expected: 'the one that the capacitor was discharged with',
      fix: `${typed.join(', or ')}.`,
      typed,
    });
  }
  return { ...facts, ...pruned({ rated_V }) };
}

function pruned(values: StatedFacts): Partial<DischargeFacts> {
  return Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined));
}

/** Words of a name, lower case, and the unit that it ends with or has in brackets. */
function nameAndUnit(name: string): { words: string; unit: string } {
  const [, bare = name, unit = ''] =
    /^(.*?)[\s_]*[[(]?\b(mV|V|mA|uA|A|mohm|kohm|ohm|Ω)\b[\])]?\s*$/.exec(name.replaceAll('_', ' ')) ?? [];
  return {
    words: bare
      .replace(/[\s._-]+/g, ' ')
      .trim()
      .toLowerCase(),
    unit: unit.replace('Ω', 'ohm'),
  };
}

function quantity(text: string, unit: string, wanted: string): number | undefined {
  const node = { type: 'number', unit: wanted, minimum: 0 } as const;
  const isBare = /^[-+\d.,eE\s]+$/.test(text);
  return writtenQuantity(isBare && unit !== '' ? `${text} ${unit}` : text, node)?.value;
}

/** Refuses a file of which nobody says a fact. */
export function missingFact(file: string, field: Fact, what: string, example: string, more = ''): never {
  throw new InputProblem({
    code: 'SCENARIO_MISSING_KEY',
    file,
    field,
    got: 'no word on it, neither in the file nor beside it',
    expected: what,
    fix: `${example}${more} or the like, or a line such as "rated voltage: 2.7 V" above the rows.`,
  });
}
