/** Something that stands around a new garden's spot. */
export interface NewObstacle {
  kind: 'wall' | 'house' | 'hedge' | 'fence' | 'tree';
  /** Degrees clockwise from north, or a point of the compass. */
  bearing: string;
  distance_m: number;
  height_m: number;
  width_m: number;
}

/** What a maker says of a garden that is to be simulated. */
export interface NewGarden {
  /** Of the scenario, fit for a file. */
  name: string;
  site: { latitude_deg: number; longitude_deg: number; elevation_m: number; timeZone: string };
  /** The weather's file, its text or bytes, and where it is from. */
  weather: { file: string; content: string | Uint8Array; from: string };
  /** JSON Schema of scenarios, as text. */
  schema: string;
  promise: { hours: number; least_lumen: number };
  around: readonly NewObstacle[];
  /** What lies in the drawer; undefined: a generic part. */
  cell: { short_circuit_mA: number; open_circuit_V: number; junctions: number } | undefined;
  capacitor: { capacitance_F: number; rated_V: number; count: number } | undefined;
}

const PARTS_FILE = 'parts/my-parts.yaml';
const SCHEMA_FILE = 'scenario.schema.json';

/**
 * The files of a first scenario of one's own, with a comment at whatever a maker will want to change: the scenario, the
 * parts, the weather, the schema that an editor reads.
 *
 * in: garden
 * out: names, with a folder before them where they lie in one, and contents; the scenario first
 */
export function newGardenFiles(garden: NewGarden): { name: string; content: string | Uint8Array }[] {
  const { weather } = garden;
  return [
    { name: `${garden.name}.yaml`, content: scenarioText(garden) },
    { name: PARTS_FILE, content: partsText(garden) },
    { name: weather.file, content: weather.content },
    { name: SCHEMA_FILE, content: garden.schema },
  ];
}

function scenarioText({ name, site, weather, promise, around, capacitor }: NewGarden): string {
  return `# yaml-language-server: $schema=./${SCHEMA_FILE}
# A garden to be simulated. Change what is not so; an editor that reads YAML schemas says of each key what it is, what is
# usual and how to measure it. What is not stated is assumed: "longnight check ${name}.yaml" lists it.
format: 1
name: ${name}
seed: 1

# The place: north and east are positive.
site:
  latitude_deg: ${site.latitude_deg}
  longitude_deg: ${site.longitude_deg}
  elevation_m: ${site.elevation_m}
  time_zone: ${site.timeZone}

# ${weather.from}
weather:
  file: ${weather.file}

# A good night: so much light from dusk for so many hours. More than tolerance_h short of it is a failed night.
promise: { from: dusk, hours: ${promise.hours}, least_lumen: ${promise.least_lumen}, tolerance_h: 0.25 }

# Where a lamp may stand. Name as many spots as there are: every lamp is tried in each.
spots:
  here:
    # 0 lies flat under the lid; 60, to the south (180), is good in winter where the sun gets there.
    cell_tilt_deg: 10
    cell_bearing_deg: ${site.latitude_deg < 0 ? 0 : 180}
    cover: { part: flat-lid }
${obstaclesText(around)}
# Your own parts, with prices: change them there.
parts: { file: ${PARTS_FILE} }

# Lamps, by name. Each part is one of ${PARTS_FILE} or of the generic ones that come along; keys beside it win.
lamps:
  first:
    cell: { part: my-cell }
    diode: { part: small-schottky }
    capacitor: { part: my-capacitor, parallel: ${capacitor?.count ?? 1} }
    driver: { part: inductor-driver }
    led: { part: white-led }
    jar: { part: small-jar }
    schedule: { on: dusk, hours: ${promise.hours} }
`;
}

function obstaclesText(around: readonly NewObstacle[]): string {
  if (around.length === 0)
    return `    # What stands around: an open spot has nothing. For a house, a hedge or a tree take the signs away and measure:
    # obstacles:
    #   house: { kind: house, bearing_deg: S, distance_m: 6, width_m: 10, height_m: 5 }
`;
  const lines = around.map((each, k) => {
    const first = around.findIndex(({ kind }) => kind === each.kind) === k;
    return `      ${each.kind}${first ? '' : `-${k + 1}`}: ${obstacleText(each)}\n`;
  });
  return `    # What stands around, seen from the spot: bearing of its middle, distance, size. "longnight check --bench" prints a
    # sheet to survey it with a compass and paces.
    obstacles:
${lines.join('')}`;
}

function obstacleText({ kind, bearing, distance_m, height_m, width_m }: NewObstacle): string {
  const place = `kind: ${kind}, bearing_deg: ${bearing}, distance_m: ${distance_m}`;
  const base_m = Math.min(2, height_m / 3);
  if (kind === 'tree')
    return `{ ${place}, crown_base_m: ${Number(base_m.toFixed(1))}, crown_top_m: ${height_m}, crown_width_m: ${width_m} }`;
  const open = kind === 'fence' ? ', openness: 0.3' : '';
  return `{ ${place}, width_m: ${width_m}, height_m: ${height_m}${open} }`;
}

/** Of a cell at its best point: shares of short circuit and of open circuit. From memory, as the part's comment says. */
const BEST_CURRENT = 0.92;
const BEST_VOLTAGE = 0.81;

function partsText({ cell, capacitor }: NewGarden): string {
  return `# Your own parts, for every scenario that says parts: { file: ... }. price is of one part; pack says how many are sold
# together, in_drawer how many are at hand. Readings may stand in place of datasheet values (keys below readings:).
format: 1
# What the prices are in, one word; nothing is converted.
# currency: EUR

parts:
  cell:
${cell === undefined ? GENERIC_CELL : ownCell(cell)}
  capacitor:
${capacitor === undefined ? GENERIC_CAPACITOR : ownCapacitor(capacitor)}`;
}

const GENERIC_CELL = `    # A usual cell, the middle of what is sold, from memory: put in what yours reads.
    my-cell:
      short_circuit_mA: 500
      open_circuit_V: 2.45
      best_current_mA: 460
      best_voltage_V: 1.98
      cells_in_series: 4
      # price: 3.00
`;

function ownCell({ short_circuit_mA, open_circuit_V, junctions }: NonNullable<NewGarden['cell']>): string {
  return `    # The best point is a usual share of what you read (${BEST_CURRENT} and ${BEST_VOLTAGE}, from memory): a datasheet says it better.
    my-cell:
      short_circuit_mA: ${short_circuit_mA}
      open_circuit_V: ${open_circuit_V}
      best_current_mA: ${Number((short_circuit_mA * BEST_CURRENT).toPrecision(3))}
      best_voltage_V: ${Number((open_circuit_V * BEST_VOLTAGE).toPrecision(3))}
      cells_in_series: ${junctions}
      # price: 3.00
`;
}

const GENERIC_CAPACITOR = `    # A usual double-layer capacitor, from memory: put in what is printed on yours, or what it reads at the bench.
    my-capacitor:
      capacitance_F: 360
      rated_V: 2.7
      leakage_uA: 700
      # price: 7.00
`;

const LEAKAGE_uA_F = 2;

function ownCapacitor({ capacitance_F, rated_V, count }: NonNullable<NewGarden['capacitor']>): string {
  return `    # The leakage is a usual one (${LEAKAGE_uA_F} uA for each farad, from memory): a datasheet or three days at rest tell yours.
    my-capacitor:
      capacitance_F: ${capacitance_F}
      rated_V: ${rated_V}
      leakage_uA: ${Number((capacitance_F * LEAKAGE_uA_F).toPrecision(2))}
      in_drawer: ${count}
      # price: 7.00
`;
}
