import { driverLaw } from '../../lamp/driver/step.ts';
import type { LampSection } from '../../lamp/schema.ts';
import type { BenchWire } from '../../trial/benchSheet.ts';
import { chart, texts } from './chart.ts';
import { isolated, label, path, rect } from './element.ts';
import type { Figure } from './Figure.ts';

/** The two rails, and where words stand beneath the lower one. */
const TOP = 84;
const BOTTOM = 250;
const WORDS = BOTTOM + 26;
const CELL_X = 110;
const DIODE_X = 270;
const CAPACITOR_X = 430;
const DRIVER_X = 610;
const DRIVER_WIDTH = 150;
const LED_X = 890;
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
  return chart(
    {
      key: 'connection',
      id,
      title: `How it is wired: ${isolated(name)}`,
      summary: drawnLess ? `${listed} Of large banks only some parts are drawn.` : listed,
      height: { whole: 330 },
      rows: wires,
      columns: [
        texts<BenchWire>('from', 'from', ({ from }) => from),
        texts<BenchWire>('to', 'to', ({ to }) => to),
      ],
    },
    () => parts(section, leds),
  );
}

function parts({ cell, diode, capacitor, driver }: LampSection, leds: Bank): string[] {
  const isJunction = diode.switch_on_ohm === undefined;
  return [
    path(WIRE, rails()),
    bank(CELL_X, cell, 14, cellMark),
    diodeMark(isJunction),
    bank(CAPACITOR_X, capacitor, 4, capacitorMark),
    bank(LED_X, leds, 10, ledMark),
    driverMark(driver),
    signs(),
    words(CELL_X, 'solar cell', bankWords(cell)),
    words(CAPACITOR_X, 'capacitor', bankWords(capacitor), capacitorWords(capacitor)),
    words(LED_X, 'LED', bankWords(leds)),
    label(DIODE_X, TOP + 34, isJunction ? 'blocking diode' : 'ideal-diode switch', 'strong middle'),
    isJunction ? label(DIODE_X, TOP + 52, 'ring towards the capacitor', 'axis middle') : '',
  ];
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
  const plain =
    rect('edge part-driver', { x: DRIVER_X, y, width: DRIVER_WIDTH, height: BOTTOM - TOP + 32 }) +
    label(middle, 160, 'driver', 'strong middle') +
    label(middle, 180, `stops at ${driver.cutoff_V} V`, 'axis middle');
  const { inductor } = driverLaw(driver);
  if (inductor === undefined) return plain;
  const above = 40;
  const humps = 'a8 8 0 0 1 16 0'.repeat(4);
  return (
    plain +
    path(WIRE, `M${DRIVER_X - 30} ${TOP}V${above}H${middle - 32}`) +
    path('outline part-inductor', `M${middle - 32} ${above}${humps}`) +
    path(WIRE, `M${middle + 32} ${above}h14V${y}`) +
    label(middle, above - 16, `inductor, ${inductor.inductance_uH} uH`, 'strong middle')
  );
}

function signs(): string {
  const sign = (x: number, y: number, text: string) => label(x, y, text, 'strong middle');
  return [CELL_X - 12, CAPACITOR_X - 12]
    .flatMap((x) => [sign(x, TOP + 12, '+'), sign(x, BOTTOM - 4, '\u2212')])
    .concat([
      sign(DRIVER_X + 12, TOP + 5, '+'),
      sign(DRIVER_X + 12, BOTTOM + 4, '\u2212'),
      label(DRIVER_X + DRIVER_WIDTH - 8, TOP + 5, 'LED +', 'strong end'),
      label(DRIVER_X + DRIVER_WIDTH - 8, BOTTOM + 4, 'LED \u2212', 'strong end'),
    ])
    .join('');
}

function words(x: number, title: string, ...lines: readonly string[]): string {
  return (
    label(x, WORDS, title, 'strong middle') +
    lines.map((line, k) => label(x, WORDS + 18 * (k + 1), line, 'axis middle')).join('')
  );
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
