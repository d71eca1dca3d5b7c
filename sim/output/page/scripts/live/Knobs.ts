import type { Turn, TurnValue } from '../../../../trial/live/LiveRun.ts';
import { properSigns } from '../../../figures/properSigns.ts';
import { knobWords } from '../../live/knobWords.ts';

type Control = HTMLInputElement | HTMLSelectElement;

/** One control of the panel. */
interface Turned {
  control: Control;
  label: string;
  of: Turn['of'];
  key: string;
  unit: string;
  steps: TurnValue[];
  /** What the file says. */
  file: TurnValue;
  /** Where it stood when it was last said, and what had moved it there. */
  said: number;
  moved: number;
}

/** The controls of a panel. */
export class Knobs {
  private readonly all: readonly Turned[];
  /** The one that was turned last. */
  private last: Turned | undefined;

  constructor(panel: HTMLElement) {
    this.all = [...panel.querySelectorAll<Control>('[data-steps]')].map((control) => {
      const { owner, key = '', unit = '', steps: text = '', place } = control.dataset;
      const steps: TurnValue[] = JSON.parse(text);
      const label = control.labels![0]!.textContent;
      const file = steps[Number(place)]!;
      const said = Number(control.value);
      return { control, label, of: owner as Turn['of'], key, unit, steps, file, said, moved: 0 };
    });
  }

  /** What stands elsewhere than in the file. */
  turns(): Turn[] {
    return turnsOf(this.all.map((knob) => [knob, turnedTo(knob)]));
  }

  /** The same with the last control turned on as far again; undefined where it comes to its end. */
  ahead(): Turn[] | undefined {
    const { last } = this;
    const value = last?.steps[last.said + last.moved];
    if (value === undefined) return undefined;
    return turnsOf(this.all.map((knob) => [knob, knob === last ? value : turnedTo(knob)]));
  }

  /** The same in words, 'capacitance 500 F instead of 360 F'. */
  words(): string[] {
    return this.all
      .filter(isTurned)
      .map(
        (knob) => `${knob.label} ${knobWords(knob, turnedTo(knob))} instead of ${knobWords(knob, knob.file)}`,
      );
  }

  /** A turn of lamp, spot and promise each, by a step of its first control. */
  samples(): Turn[] {
    const firsts = new Map([...this.all].reverse().map((knob) => [knob.of, knob]));
    return [...firsts.values()].map(({ of, key, steps, file }) => ({
      of,
      key,
      value: steps[steps.indexOf(file) + 1] ?? steps[0]!,
    }));
  }

  /**
   * Turns all controls to values written as text, by 'owner.key'; those without one to the file's.
   *
   * out: the names that no control has, or whose value is none of it
   */
  set(texts: ReadonlyMap<string, string>): string[] {
    const unknown = new Set(texts.keys());
    for (const knob of this.all) {
      const name = `${knob.of}.${knob.key}`;
      const value = read(knob, texts.get(name));
      if (value !== undefined) unknown.delete(name);
      place(knob, value ?? knob.file);
    }
    this.say();
    return [...unknown];
  }

  /** Each control says its value, and whether it is the file's. */
  say(): void {
    for (const knob of this.all) {
      const place = Number(knob.control.value);
      if (place !== knob.said) {
        knob.moved = place - knob.said;
        knob.said = place;
        this.last = knob;
      }
      const words = properSigns(knobWords(knob, turnedTo(knob)));
      const turned = isTurned(knob);
      knob.control.closest('.knob')!.classList.toggle('turned', turned);
      if (turned) knob.control.closest('details')?.setAttribute('open', '');
      if (knob.control instanceof HTMLSelectElement) continue;
      const file = turned
        ? `${words}; the file has ${properSigns(knobWords(knob, knob.file))}`
        : `${words}, as in the file`;
      if (knob.control.getAttribute('aria-valuetext') === file) continue;
      knob.control.setAttribute('aria-valuetext', file);
      knob.control.parentElement!.querySelector('output')!.textContent = words;
    }
  }
}

/** in: controls and the values they are to have */
function turnsOf(all: readonly (readonly [Turned, TurnValue])[]): Turn[] {
  return all
    .filter(([{ file }, value]) => value !== file)
    .map(([{ of, key }, value]) => ({ key, of, value }));
}

function turnedTo({ control, steps }: Turned): TurnValue {
  return steps[Number(control.value)]!;
}

function isTurned(knob: Turned): boolean {
  return turnedTo(knob) !== knob.file;
}

/** A value from its text; undefined where it is none that the control may have. */
function read({ steps, file }: Turned, text: string | undefined): TurnValue | undefined {
  if (text === undefined) return undefined;
  if (typeof file !== 'number') return steps.find((step) => String(step) === text);
  const number = Number(text);
  const [least, most] = [steps[0], steps.at(-1)] as number[];
  return text !== '' && number >= least! && number <= most! ? number : undefined;
}

/** Puts a control at a value, between its steps too. */
function place(knob: Turned, value: TurnValue): void {
  const { control, steps } = knob;
  if (!steps.includes(value)) {
    const at = steps.findIndex((step) => step > value);
    steps.splice(at, 0, value);
    control.setAttribute('max', String(steps.length - 1));
  }
  control.value = String(steps.indexOf(value));
}
