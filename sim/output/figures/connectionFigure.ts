import { driverLaw } from '../../lamp/driver/step.ts';
import type { LampSection } from '../../lamp/schema.ts';
import type { BenchWire } from '../../trial/benchSheet.ts';
import { chart, texts } from './chart.ts';
import { isolated, label, path, rect, svg, use } from './element.ts';
import type { Figure, Narrow } from './Figure.ts';
import { wrappedWords } from './wrappedWords.ts';

/** The two rails, and the places of the parts along them. Letters are large, for the picture stands in half a page. */
const TOP = 96;
const BOTTOM = 272;
const CELL_X = 112;
const DIODE_X = 292;
const CAPACITOR_X = 470;
const DRIVER_X = 640;
const DRIVER_WIDTH = 180;
const LED_X = 912;
/** Where words stand beneath the lower rail, lines apart by so much, each of so many letters. */
const WORDS = BOTTOM + 48;
const LINE = 24;
const LETTERS = 18;
/** A bank is drawn up to so many in parallel and in series; its words give all of them. */
const MOST_WIDE = 4;
const MOST_DEEP = 3;
const SPACE = 34;
const WIRE = 'outline wire';

/**
 * How the parts of a lamp are wired, as a picture: cell, blocking diode, capacitor, driver with inductor, LED.
 *
 * in: id, the picture's own on a page; name of the lamp; section, its parts; wires, as the sheet lists them
 * out: the picture; one mark of class part-cell, part-capacitor, part-led for each part that is drawn
 */
export function connectionFigure(
  id: string,
  name: string,
  section: LampSection,
  wires: readonly BenchWire[],
): Figure {
  const leds = { parallel: section.led.count, series: section.led.in_series };
  const drawnLess = [section.cell, section.capacitor, leds].some(
    ({ parallel, series }) => parallel > MOST_WIDE || series > MOST_DEEP,
  );
  const listed = `${wires.map(({ from, to }) => `${from} to ${to}`).join('; ')}.`;
  const words = partWords(section, leds);
  const most = Math.max(...words.map(({ texts }) => wrapped(texts, LETTERS).length));
  return chart(
    {
      key: 'connection',
      id,
      title: `How it is wired: ${isolated(name)}`,
      summary: drawnLess ? `${listed} Of large banks only some parts are drawn.` : listed,
      height: { whole: WORDS + most * LINE + 10 },
      left: 0,
      narrow: (marks_id) => upright(id, marks_id, words, section),
      rows: wires,
      columns: [
        texts<BenchWire>('from', 'from', ({ from }) => from),
        texts<BenchWire>('to', 'to', ({ to }) => to),
      ],
    },
    (plot) => ({
      panels: [{ box: plot, marks: () => parts(section, leds) }],
      own: [...signs(), ...words.map(beneath), ...driverWords(section.driver)],
    }),
  );
}

function parts({ cell, diode, capacitor, driver }: LampSection, leds: Bank): string[] {
  return [
    path(WIRE, rails()),
    bank(CELL_X, cell, 14, cellMark),
    diodeMark(isJunction(diode)),
    bank(CAPACITOR_X, capacitor, 4, capacitorMark),
    bank(LED_X, leds, 10, ledMark),
    driverMark(driver),
  ];
}

function isJunction(diode: LampSection['diode']): boolean {
  return diode.switch_on_ohm === undefined;
}

/** What stands beside a part: its name, and what is said about it. */
interface PartWords {
  x: number;
  title: string;
  texts: string[];
}

function wrapped(texts: readonly string[], letters: number): string[] {
  return texts.flatMap((text) => wrappedWords(text, letters));
}

function partWords({ cell, diode, capacitor }: LampSection, leds: Bank): PartWords[] {
  const junction = isJunction(diode);
  return [
    { x: CELL_X, title: 'solar cell', texts: [bankWords(cell)] },
    {
      x: DIODE_X,
      title: junction ? 'blocking diode' : 'ideal-diode switch',
      texts: junction ? ['ring towards the capacitor'] : [],
    },
    { x: CAPACITOR_X, title: 'capacitor', texts: [bankWords(capacitor), capacitorWords(capacitor)] },
    { x: LED_X, title: 'LED', texts: [bankWords(leds)] },
  ];
}

/** Beneath the rails; the diode's between them, under the diode. */
function beneath({ x, title, texts }: PartWords): string {
  const y = x === DIODE_X ? TOP + 42 : WORDS;
  return [
    label(x, y, title, 'strong middle'),
    ...wrapped(texts, LETTERS).map((line, k) => label(x, y + LINE * (k + 1), line, 'axis middle')),
  ].join('');
}

type Bank = { parallel: number; series: number };

function rails(): string {
  return (
    `M${CELL_X} ${TOP}H${DIODE_X - 14}M${DIODE_X + 14} ${TOP}H${DRIVER_X}` +
    `M${CELL_X} ${BOTTOM}H${DRIVER_X}` +
    `M${DRIVER_X + DRIVER_WIDTH} ${TOP}H${LED_X}M${DRIVER_X + DRIVER_WIDTH} ${BOTTOM}H${LED_X}`
  );
}

/** Parts between the rails: strings in parallel, in each the parts in series. */
function bank(
  x: number,
  { parallel, series }: Bank,
  half: number,
  mark: (x: number, y: number) => string,
): string {
  const wide = Math.min(parallel, MOST_WIDE);
  const deep = Math.min(series, MOST_DEEP);
  const [from, to] = [TOP + 16, BOTTOM - 16];
  const reach = ((wide - 1) / 2) * SPACE;
  let wire = `M${x} ${TOP}V${from}M${x} ${to}V${BOTTOM}`;
  if (wide > 1) wire += `M${x - reach} ${from}H${x + reach}M${x - reach} ${to}H${x + reach}`;
  const drawn: string[] = [];
  for (let column = 0; column < wide; column++) {
    const at = x - reach + column * SPACE;
    let last = from;
    for (let row = 0; row < deep; row++) {
      const y = from + ((row + 0.5) / deep) * (to - from);
      wire += `M${at} ${last}V${y - half}`;
      drawn.push(mark(at, y));
      last = y + half;
    }
    wire += `M${at} ${last}V${to}`;
  }
  return path(WIRE, wire) + drawn.join('');
}

function cellMark(x: number, y: number): string {
  return (
    rect('day edged part-cell', { x: x - 13, y: y - 14, width: 26, height: 28 }) +
    path('outlineSoft', `M${x - 4.5} ${y - 14}v28M${x + 4.5} ${y - 14}v28`)
  );
}

function capacitorMark(x: number, y: number): string {
  return path('capacitor part-capacitor', `M${x - 13} ${y - 4}h26M${x - 13} ${y + 4}h26`);
}

function ledMark(x: number, y: number): string {
  return (
    path('lit edged part-led', `M${x - 9} ${y - 10}h18L${x} ${y + 8}z`) +
    path('outline', `M${x - 9} ${y + 9}h18M${x + 11} ${y - 2}l7 -7m-4 0h4v4`)
  );
}

/** A junction points the way the current goes; a switch is a box. */
function diodeMark(isJunction: boolean): string {
  if (!isJunction) return rect('edge part-diode', { x: DIODE_X - 14, y: TOP - 10, width: 28, height: 20 });
  return (
    path('solid part-diode', `M${DIODE_X - 14} ${TOP - 10}v20L${DIODE_X + 12} ${TOP}z`) +
    path('outline', `M${DIODE_X + 13} ${TOP - 11}v22`)
  );
}

function driverMark(driver: LampSection['driver']): string {
  const middle = DRIVER_X + DRIVER_WIDTH / 2;
  const y = TOP - 16;
  const plain = rect('edge part-driver', { x: DRIVER_X, y, width: DRIVER_WIDTH, height: BOTTOM - TOP + 32 });
  if (driverLaw(driver).inductor === undefined) return plain;
  const above = 52;
  const humps = 'a8 8 0 0 1 16 0'.repeat(4);
  return (
    plain +
    path(WIRE, `M${DRIVER_X - 30} ${TOP}V${above}H${middle - 32}`) +
    path('outline part-inductor', `M${middle - 32} ${above}${humps}`) +
    path(WIRE, `M${middle + 32} ${above}h14V${y}`)
  );
}

function inductorWords(driver: LampSection['driver']): string[] {
  const { inductor } = driverLaw(driver);
  return inductor === undefined ? [] : [`inductor, ${inductor.inductance_uH} uH`];
}

function driverWords(driver: LampSection['driver']): string[] {
  const middle = DRIVER_X + DRIVER_WIDTH / 2;
  const y = (TOP + BOTTOM) / 2;
  return [
    label(middle, y - 4, 'driver', 'strong middle'),
    label(middle, y + 22, `stops at ${driver.cutoff_V} V`, 'axis middle'),
    ...inductorWords(driver).map((words) => label(middle, 28, words, 'strong middle')),
  ];
}

/** Outside the rails, where no wire runs; the driver's within its box. */
function signs(): string[] {
  const right = DRIVER_X + DRIVER_WIDTH - 10;
  return [
    ...[CELL_X, CAPACITOR_X].flatMap((x) => [
      label(x, TOP - 10, '+', 'strong middle'),
      label(x, BOTTOM + 22, '\u2212', 'strong middle'),
    ]),
    label(DRIVER_X + 12, TOP + 8, '+', 'strong'),
    label(DRIVER_X + 12, BOTTOM + 6, '\u2212', 'strong'),
    label(right, TOP + 8, 'LED +', 'strong end'),
    label(right, BOTTOM + 6, 'LED \u2212', 'strong end'),
  ];
}

/** The picture for a narrow screen: the rails run down, words to their right. */
const UPRIGHT = { width: 360, scale: 0.68, x: 66, y: 58, words: 214, letters: 22, line: 16 };

function upright(id: string, marks_id: string, words: readonly PartWords[], { driver }: LampSection): Narrow {
  const { width, scale, x, y, line } = UPRIGHT;
  // Mirrored along the diagonal: what lies along the rails goes down.
  const across = (above: number) => x + (above - TOP) * scale;
  const down = (along: number) => y + (along - CELL_X) * scale;
  const [plus, minus] = [across(TOP), across(BOTTOM)];
  const beside = (along: number, title: string, lines: readonly string[]) => {
    const top = down(along) + 4 - (lines.length * line) / 2;
    return [
      label(UPRIGHT.words, top, title, 'strong'),
      ...lines.map((text, k) => label(UPRIGHT.words, top + line * (k + 1), text)),
    ];
  };
  const [from, to] = [down(DRIVER_X), down(DRIVER_X + DRIVER_WIDTH)];
  const middle = (plus + minus) / 2;
  const marks = [
    use(marks_id, [0, scale, scale, 0, x - TOP * scale, y - CELL_X * scale]),
    ...words.flatMap((part) => beside(part.x, part.title, wrapped(part.texts, UPRIGHT.letters))),
    ...inductorWords(driver).flatMap((text) => beside(DRIVER_X + DRIVER_WIDTH / 2, text, [])),
    ...[CELL_X, CAPACITOR_X].flatMap((along) => [
      label(plus - 8, down(along) + 4, '+', 'strong end'),
      label(minus + 8, down(along) + 4, '\u2212', 'strong'),
    ]),
    label(middle, down(DRIVER_X + DRIVER_WIDTH / 2) - 4, 'driver', 'strong middle'),
    label(middle, down(DRIVER_X + DRIVER_WIDTH / 2) + 13, `stops at ${driver.cutoff_V} V`, 'axis middle'),
    label(plus, from + 16, '+', 'strong middle'),
    label(minus, from + 16, '\u2212', 'strong middle'),
    label(plus - 6, to - 8, 'LED +', 'strong'),
    label(minus + 6, to - 8, 'LED \u2212', 'strong end'),
  ];
  const height = Math.round(down(LED_X)) + 56;
  const named = { role: 'img', 'aria-labelledby': `${id}-connection-title ${id}-connection-summary` };
  return {
    svg: svg('picture-connection-narrow', { width, height }, named, marks),
    width,
    height,
    plot: { x: 0, y: 0, width, height },
    panels: [],
    turned: true,
  };
}

function bankWords({ parallel, series }: Bank): string {
  if (parallel * series === 1) return 'one';
  if (series === 1) return `${parallel} in parallel`;
  if (parallel === 1) return `${series} in series`;
  return `${parallel} in parallel, each of ${series} in series`;
}

function capacitorWords(capacitor: LampSection['capacitor']): string {
  const { rated_V, balancing_kohm, limiter } = capacitor;
  const balancing = balancing_kohm === undefined ? '' : `, ${balancing_kohm} kohm across each part`;
  return `${rated_V} V each${balancing}${limiter === undefined ? '' : `, limiter at ${limiter.at_V} V across the bank`}`;
}
