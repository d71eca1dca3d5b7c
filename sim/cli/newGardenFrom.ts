import { IANAZone } from 'luxon';
import { ownTimeZone, timeZones } from '../common/civilTime.ts';
import { nearestWord } from '../common/hints.ts';
import type { NewGarden, NewObstacle } from '../output/newGarden.ts';
import type { Arguments } from './Command.ts';
import { numberWithin } from './numberWithin.ts';
import { OPTIONS } from './options.ts';
import { usageMistake } from './usageProblem.ts';

/** What is said of a new garden beside its name, place and weather. */
export type GardenWishes = Omit<NewGarden, 'name' | 'site' | 'weather' | 'schema'> & { timeZone: string };

/**
 * What options, or answers in their place, say of a new garden.
 *
 * in: args
 * throws: USAGE for what an option does not take
 */
export function newGardenFrom(args: Arguments): GardenWishes {
  const parts = args.all('have').map(partOf);
  return {
    timeZone: wallClock(args),
    promise: {
      hours: args.number('promise', 0.25, 24) ?? 6,
      least_lumen: args.number('least-light', 0.001, 1000) ?? 0.65,
    },
    around: args.all('around').map(obstacleOf),
    cell: parts.findLast(({ cell }) => cell)?.cell,
    capacitor: parts.findLast(({ capacitor }) => capacitor)?.capacitor,
  };
}

function wallClock(args: Arguments): string {
  const typed = args.text('wall-clock');
  if (typed === undefined) return ownTimeZone();
  if (IANAZone.isValidZone(typed)) return typed;
  const near = nearestWord(typed, timeZones());
  throw usageMistake(
    `--wall-clock ${typed}`,
    'an IANA name of a time zone',
    near === undefined ? OPTIONS['wall-clock'].example : `did you mean --wall-clock ${near}?`,
  );
}

const KINDS = ['wall', 'house', 'hedge', 'fence', 'tree'] as const;
const BEARING = /^(?:[NESW]|[NS][EW]|NN[EW]|SS[EW]|E[NS]E|W[NS]W)$/;

function obstacleOf(typed: string): NewObstacle {
  const [word = '', rest = ''] = typed.split('=');
  const kind = KINDS.find((known) => known === word.trim().toLowerCase());
  const values = rest.split(',').map((value) => value.trim());
  if (kind === undefined || values.length !== 4) {
    const near = kind ?? nearestWord(word, KINDS) ?? 'house';
    throw usageMistake(
      `--around ${typed}`,
      `one of ${KINDS.join(', ')}, then =BEARING,DISTANCE,HEIGHT,WIDTH`,
      `did you mean --around ${near}=${values.length === 4 ? rest : 'S,6,5,10'}?`,
    );
  }
  const metres = (k: number, name: string, most: number) =>
    numberWithin(values[k]!, `--around ${typed}, the ${name} ${values[k]}`, 0.1, most, 'm');
  const [point = ''] = values;
  return {
    kind,
    bearing: BEARING.test(point.toUpperCase())
      ? point.toUpperCase()
      : String(numberWithin(point, `--around ${typed}, the bearing ${point}`, 0, 360, 'deg')),
    distance_m: metres(1, 'distance', 10_000),
    height_m: metres(2, 'height', 300),
    width_m: metres(3, 'width', 10_000),
  };
}

function partOf(typed: string): Pick<NewGarden, 'cell' | 'capacitor'> {
  const [kind = '', rest = ''] = typed.split('=');
  const values = rest.split(',');
  const number = (k: number, name: string, from: number, to: number, unit: string) =>
    numberWithin(values[k]!.trim(), `--have ${typed}, the ${name} ${values[k]}`, from, to, unit);
  const none = { cell: undefined, capacitor: undefined };
  if (kind === 'cell' && values.length === 3) {
    const cell = {
      short_circuit_mA: number(0, 'current', 0.1, 1e5, 'mA'),
      open_circuit_V: number(1, 'voltage', 0.1, 100, 'V'),
      junctions: whole(number(2, 'number of junctions', 1, 200, 'number'), typed),
    };
    return { ...none, cell };
  }
  if (kind === 'capacitor' && values.length === 3) {
    const capacitor = {
      capacitance_F: number(0, 'capacitance', 0.1, 1e5, 'F'),
      rated_V: number(1, 'rated voltage', 0.5, 100, 'V'),
      count: whole(number(2, 'count', 1, 1000, 'number'), typed),
    };
    return { ...none, capacitor };
  }
  throw usageMistake(
    `--have ${typed}`,
    'cell=MA,V,JUNCTIONS or capacitor=F,V,COUNT',
    `${OPTIONS.have.example} or --have capacitor=360,2.7,1`,
  );
}

function whole(value: number, typed: string): number {
  if (Number.isInteger(value)) return value;
  throw usageMistake(`--have ${typed}`, 'a whole number as the last', `${Math.max(1, Math.round(value))}`);
}
