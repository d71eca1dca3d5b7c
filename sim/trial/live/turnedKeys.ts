import { InputProblem } from '../../common/InputProblem.ts';
import type { PromiseSection, ScheduleSection } from '../../lamp/schedule/schema.ts';
import type { Site } from '../../sun/Site.ts';
import { isLitAsPromised } from './knobs.ts';
import type { Knob, Turn, TurnValue } from './LiveRun.ts';

/** Sections of a scenario that make a trial, checked or as they are written. */
interface TrialSections {
  lamp: object;
  spot: object;
  promise: object;
}

/**
 * The sections of a trial with some knobs turned, and what goes along with them: a lamp that is lit just as long as
 * promised stays so, and a cell that lay flat faces the noon sun once it is tilted.
 *
 * in: stated; turns, of its knobs; site
 * out: new sections; those handed in are left alone
 */
export function turnedKeys<Sections extends TrialSections>(
  stated: Sections,
  turns: readonly Turn[],
  site: Site,
): Sections {
  const turned = { ...stated };
  const set = (of: Turn['of'], key: string, value: TurnValue) => {
    turned[of] = withKey(turned[of], key.split('.'), value);
  };
  const { schedule } = stated.lamp as { schedule: ScheduleSection };
  const linked = isLitAsPromised(schedule, stated.promise as PromiseSection);
  for (const { of, key, value } of turns) {
    set(of, key, value);
    if (of === 'promise' && (key === 'hours' || key === 'until') && linked)
      set('lamp', `schedule.${key}`, value);
    const { cell_bearing_deg } = stated.spot as { cell_bearing_deg?: number };
    if (of === 'spot' && key === 'cell_tilt_deg' && cell_bearing_deg === undefined) {
      turned.spot = { ...turned.spot, cell_bearing_deg: site.latitude_deg < 0 ? 0 : 180 };
    }
  }
  return turned;
}

function withKey<Section extends object>(
  section: Section,
  [key, ...below]: readonly string[],
  value: TurnValue,
): Section {
  const stands = section[key as keyof Section] as object | undefined;
  return { ...section, [key!]: below.length === 0 ? value : withKey(stands ?? {}, below, value) };
}

/**
 * Those turns that change something.
 *
 * in: turns; knobs, those there are
 * throws: InputProblem for a turn of what is no knob, or to what it cannot take
 */
export function checkedTurns(turns: readonly Turn[], knobs: readonly Knob[]): Turn[] {
  return turns.filter((turn) => {
    const knob = knobs.find(({ of, key }) => of === turn.of && key === turn.key);
    if (knob === undefined)
      throw new InputProblem({
        code: 'SCENARIO_UNKNOWN_KEY',
        field: wholeKey(turn),
        got: 'a turn of what is no knob of this trial',
        expected: `one of ${knobs.map(wholeKey).join(', ')}`,
      });
    if (!takes(knob, turn.value))
      throw new InputProblem({
        code: 'SCENARIO_OUT_OF_RANGE',
        field: wholeKey(turn),
        got: String(turn.value),
        expected: rangeWords(knob),
      });
    return turn.value !== knob.value;
  });
}

/**
 * Parts of a lamp whose readings the turns take the place of: all but how many there are stands for another part.
 */
export function unreadParts(turns: readonly Turn[]): Set<string> {
  const turned = turns.filter(({ of, key }) => of === 'lamp' && !key.endsWith('.parallel'));
  return new Set(turned.map(({ key }) => key.split('.')[0]!));
}

/** A knob's key with what it belongs to, where that is not the lamp. */
export function wholeKey({ of, key }: Pick<Turn, 'of' | 'key'>): string {
  return of === 'lamp' ? key : `${of}.${key}`;
}

function takes({ steps, whole = false }: Knob, value: TurnValue): boolean {
  if (typeof value !== 'number') return steps.includes(value);
  const [least, most] = [steps[0]!, steps.at(-1)!];
  return value >= Number(least) && value <= Number(most) && (!whole || Number.isInteger(value));
}

function rangeWords({ steps, unit, whole = false }: Knob): string {
  if (typeof steps[0] !== 'number') return steps.join(', ');
  return `${whole ? 'a whole number ' : ''}from ${steps[0]} to ${steps.at(-1)}${unit === '' ? '' : ` ${unit}`}`;
}
