import type { Knob, TurnValue } from '../../../trial/live/LiveRun.ts';

/** A value as it is read beside its knob. */
export function knobWords({ unit }: Pick<Knob, 'unit'>, value: TurnValue): string {
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return unit === '' ? String(value) : `${value} ${unit}`;
}
