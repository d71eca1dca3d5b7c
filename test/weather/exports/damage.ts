import { inUnit, lightHeading, type Manner, numberText, pick } from './manner.ts';

const HOUR = 3_600_000;

/** A column of values: its heading, and the cell of an hour, of a station with such a share of the light. */
export interface ExportColumn {
  heading: string;
  cell: (i: number, share: number) => string;
}

/** The light that is written, and what is to come back of it. */
interface HurtLight {
  ghi_W_m2: Float64Array;
  truth_W_m2: Float64Array;
  madeUp?: readonly [number, number];
  traits: string[];
}

/** The global light of a file after what befell it. */
export function hurtLight(manner: Manner): HurtLight {
  const { kind, sky } = manner;
  const ghi_W_m2 = Float64Array.from(sky.ghi_W_m2);
  if (kind === 'interpolated month') return interpolateMonth(manner, ghi_W_m2);
  if (kind !== 'logger cut off') return { ghi_W_m2, truth_W_m2: Float64Array.from(ghi_W_m2), traits: [] };
  const stop_h = 17 + 2 * manner.random.uniform();
  const { longitude_deg } = sky;
  for (let i = 0; i < sky.hours; i++) {
    const hour = (i + longitude_deg / 15 + 48) % 24;
    if (hour > stop_h || hour < 3) ghi_W_m2[i] = 0;
  }
  return { ghi_W_m2, truth_W_m2: Float64Array.from(ghi_W_m2), traits: [`stops at ${stop_h.toFixed(1)} h`] };
}

/** A dark month, drawn hour by hour from the day before it to the day after. */
function interpolateMonth({ sky, random }: Manner, ghi_W_m2: Float64Array): HurtLight {
  const month = pick(random, sky.latitude_deg > 0 ? [0, 1, 10, 11] : [4, 5, 6, 7]);
  const year = new Date(sky.start_ms).getUTCFullYear();
  const [from, to] = [month, month + 1].map((each) => (Date.UTC(year, each, 1) - sky.start_ms) / HOUR) as [
    number,
    number,
  ];
  const days = (to - from) / 24;
  const truth_W_m2 = Float64Array.from(ghi_W_m2).fill(Number.NaN, from, to);
  for (let i = from; i < to; i++) {
    const hour = (i - from) % 24;
    const share = (Math.floor((i - from) / 24) + 1) / (days + 1);
    const before = sky.ghi_W_m2[Math.max(0, from - 24) + hour]!;
    const after = sky.ghi_W_m2[Math.min(sky.hours - 24, to) + hour]!;
    ghi_W_m2[i] = before * (1 - share) + after * share;
  }
  return { ghi_W_m2, truth_W_m2, madeUp: [from, to], traits: [`month ${month + 1}`] };
}

const GLOBAL = [
  'Global radiation',
  'GHI',
  'global',
  'Globalstrahlung',
  'Globalstraling',
  'solar radiation',
  'Rayonnement global',
  'glob_rad',
  'Irradiance',
];
const AIR = ['Air temperature', 'temp', 'Lufttemperatur', 'T_air', 'outdoor temperature'];

/** The columns of a file of hours: light, air, and what stands beside them. */
export function columnsOf(manner: Manner, { ghi_W_m2 }: HurtLight): ExportColumn[] {
  const { kind, sky, unit, random } = manner;
  const column = (name: string, mean_W_m2: (i: number) => number): ExportColumn => ({
    heading: lightHeading(manner, name),
    cell: (i) => numberText(manner, inUnit(unit, mean_W_m2(i))),
  });
  const isFahrenheit = kind === 'fahrenheit silent';
  const airName = pick(random, AIR);
  const air: ExportColumn = {
    heading: isFahrenheit ? airName : `${airName} [°C]`,
    cell: (i) => numberText(manner, isFahrenheit ? sky.air_degC[i]! * 1.8 + 32 : sky.air_degC[i]!, 1),
  };
  const global: ExportColumn = {
    heading: lightHeading(manner, pick(random, GLOBAL)),
    cell: (i, share) => numberText(manner, inUnit(unit, ghi_W_m2[i]! * share)),
  };
  if (kind === 'horizontal direct and diffuse') {
    const direct = column('direct horizontal irradiance', (i) => sky.bhi_W_m2[i]!);
    return [direct, air, column('diffuse horizontal irradiance', (i) => sky.dhi_W_m2[i]!)];
  }
  if (kind === 'dirty direct') {
    const noise = (i: number) => 12 + 8 * Math.abs(Math.sin(i * 12.9898 + manner.seed));
    const dirty = (i: number) => (sky.outside_W_m2[i] === 0 ? noise(i) : sky.dni_W_m2[i]!);
    return [global, air, column('direct normal irradiance', dirty)];
  }
  if (kind === 'decoys') {
    const thermal = column('thermal downward radiation', (i) => 310 + 2.5 * sky.air_degC[i]!);
    const clear = column('clear sky global', (i) => sky.clear_W_m2[i]!);
    return [thermal, clear, column('extraterrestrial horizontal', (i) => sky.outside_W_m2[i]!), global, air];
  }
  if (kind === 'beside reflected') {
    const reflected = column('reflected radiation', (i) => 0.22 * ghi_W_m2[i]!);
    return [global, air, reflected, column('net radiation', (i) => 0.7 * ghi_W_m2[i]! - 60)];
  }
  return [global, air];
}
