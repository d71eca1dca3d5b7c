import { COVER_PARTS } from '../../spot/cover/coverParams.ts';
import { STORES } from './capacitors.ts';
import { CELLS } from './cells.ts';
import { DIODES } from './diodes.ts';
import { DRIVERS } from './drivers.ts';
import { JARS } from './jars.ts';
import { LEDS } from './leds.ts';
import type { Part } from './Part.ts';

type Shelf = Readonly<Record<string, Part<object>>>;

const COVERS: Shelf = Object.fromEntries(
  Object.entries(COVER_PARTS).map(([name, { note, ...values }]) => [
    name,
    { note, values: { kind: 'flat', ...values } },
  ]),
);

/** The parts library: by the key a part stands under, then by its name. */
export const PARTS = {
  cell: CELLS,
  diode: DIODES,
  capacitor: STORES,
  driver: DRIVERS,
  led: LEDS,
  jar: JARS,
  cover: COVERS,
} as const satisfies Record<string, Shelf>;

export type PartKind = keyof typeof PARTS;

/** Keys of a lamp that hold a part. */
export const LAMP_PARTS = [
  'cell',
  'diode',
  'capacitor',
  'driver',
  'led',
  'jar',
] as const satisfies PartKind[];
