import type { Json } from '../scenario/Scenario.ts';
import { splitUnit } from '../scenario/unitSuffixes.ts';
import type { Chosen, Design, PartVariant } from '../sizing/Design.ts';
import type { DesignSpace } from '../sizing/DesignSpace.ts';
import { DESIGN_PARTS } from '../sizing/designAt.ts';

/**
 * What was chosen, in few words: '680 F' of 'capacitor.capacitance_F' is 'capacitor 680 F'.
 *
 * in: chosen, of a design
 * @example chosenWords({ key: 'cell.parallel', value: 2 }); // => '2 cells in parallel'
 * @example chosenWords({ key: 'stand.cell_tilt_deg', value: 45, unit: 'deg' }); // => 'cell tilt 45 deg'
 */
export function chosenWords({ key, value }: Chosen): string {
  const [section = '', name = ''] = key.split('.');
  const part = name === 'inductance_uH' ? 'inductor' : section === 'led' ? 'LED' : section;
  const { stem, unit } = splitUnit(name);
  if (section === 'spot') return `on ${value}`;
  if (name === 'part') return `${part} ${value}`;
  if (COUNTS[name] !== undefined && typeof value === 'number')
    return `${value} ${part}${value === 1 ? '' : 's'}${COUNTS[name]}`;
  const what = [section === 'stand' ? '' : part, IMPLIED.includes(name) ? '' : stem.replaceAll('_', ' ')];
  return [...what, valueWords(value), value === null ? '' : unit].filter((word) => word !== '').join(' ');
}

/** Keys that say how many there are, and how they are wired. */
const COUNTS: Readonly<Record<string, string>> = {
  count: '',
  parallel: ' in parallel',
  series: ' in series',
  in_series: ' in series',
};

/** Keys whose unit says enough. */
const IMPLIED: readonly string[] = ['capacitance_F', 'inductance_uH'];

function valueWords(value: Json): string {
  if (value === null) return 'none';
  if (typeof value !== 'object') return String(value);
  return Object.entries(value)
    .map(([key, each]) => {
      const { stem, unit } = splitUnit(key);
      return [stem.replaceAll('_', ' '), valueWords(each as Json), unit]
        .filter((word) => word !== '')
        .join(' ');
    })
    .join(' ');
}

/**
 * What of a design differs from the present lamp, with what stands there now: 'capacitor 680 F (now 360 F)'.
 *
 * in: design; space, that it is one of
 * out: words a change; none where nothing differs
 */
export function changedWords(design: Design, space: DesignSpace): string[] {
  return design.chosen
    .filter(({ key }) => design.changed.includes(key))
    .map((chosen) => {
      const now = presentValue(chosen.key, design, space);
      return now === undefined ? chosenWords(chosen) : `${chosenWords(chosen)} (now ${now})`;
    });
}

/** What a section takes in place of a part of the shelf, where its values are written out. */
const OWN_VALUES = 'its own';

/** What stands in the present lamp under a key, in words; undefined of the spot. */
function presentValue(key: string, design: Design, space: DesignSpace): string | undefined {
  if (key === 'spot') return undefined;
  const value = statedValue(key, design, space);
  if (value === undefined) return 'none';
  const { unit } = splitUnit(key.split('.')[1] ?? '');
  return unit === '' ? valueWords(value) : `${valueWords(value)} ${unit}`;
}

/** The value of a key in the present lamp, and in the spot of a design as the scenario states it; undefined of what is absent. */
function statedValue(key: string, { spot }: Design, { present, scenario }: DesignSpace): Json | undefined {
  const [section = '', name = ''] = key.split('.');
  if (section === 'spot') return spot.name;
  const stated = scenario.spots.find((each) => each.name === spot.name)?.section;
  const whole = section === 'stand' ? stated : present.section[section as keyof typeof present.section];
  const value = (whole as Record<string, Json | undefined> | undefined)?.[name];
  return value === undefined && name === 'part' && whole !== undefined ? OWN_VALUES : value;
}

/**
 * What a design is beside the present lamp, in few words.
 *
 * in: design; space, that it is one of
 */
export function designWords({ chosen, changed }: Design, { present }: DesignSpace): string {
  const words = chosen.filter(({ key }) => changed.includes(key)).map(chosenWords);
  return words.length === 0 ? `${present.name} as it is` : words.join(', ');
}

/** Keys of the choices that leave more than one value open, in the order of a design's. */
export function openKeys({ spots, parts }: DesignSpace): string[] {
  const values = new Map<string, Set<string>>();
  for (const { chosen } of [...spots, ...DESIGN_PARTS.flatMap<PartVariant>((part) => [...parts[part]])]) {
    for (const { key, value } of chosen)
      values.set(key, (values.get(key) ?? new Set()).add(JSON.stringify(value)));
  }
  return [...values].flatMap(([key, { size }]) => (size > 1 ? [key] : []));
}

/** Names of sections above a narrow column. */
const NARROW: Readonly<Record<string, string>> = { capacitor: 'capac.', led: 'LED', schedule: 'sched.' };

/**
 * A key of the choices as a column: a heading of two lines, and the value that a design has there.
 *
 * in: key; space
 */
export function keyColumn(
  key: string,
  space: DesignSpace,
): { heading: [string, string]; cell: (design: Design) => string } {
  const [section = '', name = ''] = key.split('.');
  const { stem, unit } = splitUnit(name);
  const words = stem.replace(/^cell_/, '').replaceAll('_', ' ');
  const part = NARROW[section] ?? section;
  const heading: [string, string] =
    section === 'stand'
      ? [words, unit]
      : unit !== ''
        ? [part, unit]
        : name === 'count'
          ? ['', 'LEDs']
          : [part, words];
  return {
    heading,
    cell: (design) => {
      const own = design.chosen.find((each) => each.key === key)?.value ?? statedValue(key, design, space);
      return own === undefined || own === null ? '-' : valueWords(own);
    },
  };
}
