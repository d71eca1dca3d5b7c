import type * as z from 'zod';
import type { Problem, ProblemCode, Report, ValueProblem } from '../common/InputProblem.ts';
import { type LampSection, lampSchema, type SettledSection } from '../lamp/schema.ts';
import { settleParts } from '../lamp/settleLamp.ts';
import { checkSchedule } from '../scenario/checkWhole.ts';
import { KEPT_BESIDE_PART } from '../scenario/choices.ts';
import { issueProblems } from '../scenario/issueProblems.ts';
import { partSection, REPLACED_KEYS } from '../scenario/partSection.ts';
import type { PartKind } from '../scenario/parts.ts';
import type { Choices, Json, Scenario, ScenarioLamp } from '../scenario/Scenario.ts';
import { choiceKey, choiceProblem } from './choiceProblem.ts';
import type { Chosen, PartVariant } from './Design.ts';

type Keys = Readonly<Record<string, unknown>>;

/** Takes a problem; called to make it only where it is listed. */
export type Note = (code: ProblemCode, make: () => Problem) => void;

/** What the variants of a section are made from. */
interface Grounds {
  scenario: Scenario;
  /** The lamp as the scenario states it. */
  present: ScenarioLamp;
  choices: Choices;
  note: Note;
}

/**
 * One section of a lamp with every value of its choices; as it is where it has none.
 *
 * in: part, the section; grounds, whose `note` takes variants that by themselves cannot be
 * out: those that can be, the last choice fastest
 */
export function partVariants<Part extends keyof LampSection>(
  part: Part,
  grounds: Grounds,
): PartVariant<Part>[] {
  const { present, choices } = grounds;
  const own = choices.filter(({ section }) => section === part);
  const asStated = { section: present.section[part], settled: present.settled[part] };
  if (own.length === 0) return [{ chosen: [], ...asStated, changed: [] }];
  if (!haveEffect(part, own, grounds)) return [];
  const reported = new Set<string>();
  return combinationsOf(own).flatMap((values) => {
    const made = settledSection(part, own, values, grounds, reported);
    if (made === undefined) return [];
    const chosen = chosenOf(own, values);
    return [{ chosen, ...made, changed: changedKeys(part, own, present.section[part], made.section) }];
  });
}

/** Every combination of the values of some choices, the last fastest. */
export function combinationsOf(choices: Choices): Json[][] {
  return choices.reduce<Json[][]>(
    (rows, { values }) => rows.flatMap((row) => values.map((value) => [...row, value])),
    [[]],
  );
}

/** What was chosen, of some choices and a value of each. */
export function chosenOf(choices: Choices, values: readonly Json[]): Chosen[] {
  return choices.map((choice, k) => ({ key: choiceKey(choice), value: values[k]!, unit: choice.unit }));
}

/** A section with the values of its choices, checked and its readings settled; undefined after problems. */
function settledSection<Part extends keyof LampSection>(
  part: Part,
  choices: Choices,
  values: readonly Json[],
  { scenario, present, note }: Grounds,
  reported: Set<string>,
): { section: LampSection[Part]; settled: SettledSection[Part] } | undefined {
  let sound = true;
  const report: Report = ({ code, path, got, expected, fix }) => {
    sound = false;
    // Once, whatever else is chosen.
    const said = JSON.stringify([path, got]);
    if (reported.has(said)) return;
    reported.add(said);
    const at = choices.find(({ key }) => key === path[0]) ?? choices[0]!;
    const words = choices.map(({ key }, k) => `${key} ${shown(values[k]!)}`).join(', ');
    const key = path.join('.');
    note(code, () =>
      choiceProblem(scenario, at, {
        code,
        got: `${key === '' ? '' : `${key}: `}${got}, with ${words}`,
        expected,
        fix,
      }),
    );
  };
  const given = withValues(part, choices, values, present.section[part]);
  const isAnother = choices.some(({ key }) => key === 'part');
  const merged = isAnother ? partSection(part as PartKind, given, scenario.shelf, report) : given;
  if (merged === undefined) return undefined;
  const schema: z.ZodType = lampSchema.shape[part];
  const parsed = schema.safeParse(merged);
  if (!parsed.success) {
    const path = ['lamps', present.name, part];
    const root = path.reduceRight<unknown>((below, step) => ({ [step]: below }), merged);
    for (const problem of issueProblems(parsed.error.issues as never, root, root, path))
      report(below(problem, path));
    return undefined;
  }
  const section = parsed.data as LampSection[Part];
  if (part === 'schedule') checkSchedule(section as never, [], report);
  const { settled } = settleParts({ [part]: section }, (problem) => report(below(problem, [part])));
  if (!sound) return undefined;
  const made = settled[part] as SettledSection[Part];
  for (const { key } of choices) if (isOverread(part, key, section, made)) report(overread(part, key));
  return sound ? { section, settled: made } : undefined;
}

/** Whether every key would do something: none beside a key of the present part that takes its place, or taken away where the part brings it again. */
function haveEffect(
  part: keyof LampSection,
  choices: Choices,
  { scenario, present, note }: Grounds,
): boolean {
  if (part === 'schedule' || choices.some(({ key }) => key === 'part')) return true;
  const stated: Keys = present.section[part];
  const { values: brought = {} } = scenario.shelf[part][String(stated.part)] ?? {};
  const replaced = Object.entries(REPLACED_KEYS[part]).filter(([key]) => stated[key] !== undefined);
  const idle = choices.flatMap((choice) => {
    const { key, values } = choice;
    const by = replaced.find(([, others]) => others.includes(key))?.[0];
    const said =
      by !== undefined
        ? {
            got: `a choice of ${key} for a lamp whose ${part} has ${by}`,
            expected: `a key that counts: ${by} takes its place`,
            fix: `take ${by} out of the lamp, or choose among parts.`,
          }
        : values.includes(null) && Object.hasOwn(brought, key)
          ? {
              got: `none, of a key that part ${String(stated.part)} brings`,
              expected: 'a value',
              fix: `choose ${part}.part with a part that has none.`,
            }
          : undefined;
    return said === undefined ? [] : [{ choice, problem: { code: 'SCENARIO_CONFLICT' as const, ...said } }];
  });
  for (const { choice, problem } of idle) note(problem.code, () => choiceProblem(scenario, choice, problem));
  return idle.length === 0;
}

/** Whether the readings of a part say a chosen key otherwise. */
function isOverread(part: string, key: string, section: object, settled: object): boolean {
  const [read, made] = [section as Keys, settled as Keys];
  if (read.readings === undefined || key === 'part' || KEPT_BESIDE_PART[part]?.includes(key)) return false;
  return made.raw !== undefined || JSON.stringify(read[key]) !== JSON.stringify(made[key]);
}

function overread(part: string, key: string): ValueProblem {
  return {
    code: 'SCENARIO_CONFLICT',
    path: [key],
    got: `a choice of ${key} for a ${part} with readings`,
    expected: `a key that counts: the readings say ${key} of the part in hand`,
    fix: `choose among parts (${part}.part), or take the readings out of the lamp.`,
  };
}

function below(problem: ValueProblem, above: readonly string[]): ValueProblem {
  return { ...problem, path: problem.path.slice(above.length) };
}

/** A section as it would be written with the values of its choices; another part leaves of the present one what is built around it. */
function withValues(part: string, choices: Choices, values: readonly Json[], present: object): Keys {
  const kept = choices.some(({ key }) => key === 'part')
    ? Object.entries(present).filter(([key]) => KEPT_BESIDE_PART[part]?.includes(key))
    : Object.entries(present);
  const section: Record<string, unknown> = Object.fromEntries(kept);
  for (const [k, { key }] of choices.entries()) {
    if (values[k] === null) delete section[key];
    else section[key] = values[k];
    for (const [one, other] of ENDS) if (part === 'schedule' && key === one) delete section[other];
  }
  return section;
}

/** A schedule has one of them. */
const ENDS = [
  ['hours', 'until'],
  ['until', 'hours'],
] as const;

/** Keys of the choices in which a section differs from the present one; another part counts as one, whatever it brings. */
function changedKeys(part: string, choices: Choices, present: object, section: object): string[] {
  const [before, after] = [present as Keys, section as Keys];
  const differs = (key: string) => JSON.stringify(before[key]) !== JSON.stringify(after[key]);
  const apart = [...(KEPT_BESIDE_PART[part] ?? []), ...choices.map(({ key }) => key)];
  const brought = Object.keys({ ...before, ...after }).filter((key) => !apart.includes(key));
  return choices.flatMap((choice) => {
    const { key } = choice;
    return differs(key) || (key === 'part' && brought.some(differs)) ? [choiceKey(choice)] : [];
  });
}

function shown(value: Json): string {
  return value === null ? 'none' : typeof value === 'object' ? JSON.stringify(value) : String(value);
}
