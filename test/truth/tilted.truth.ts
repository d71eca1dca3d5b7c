import { groundShare } from '../../sim/spot/planeFactors.ts';
import { spotSchema } from '../../sim/spot/schema.ts';
import { incidenceCosine, normalOf } from '../../sim/spot/shade/beamOnPlane.ts';
import { domeShares } from '../../sim/spot/shade/domeShares.ts';
import { OPEN_DOME } from '../../sim/spot/shade/SkyDome.ts';
import { splitGlobal } from '../../sim/spot/sky/skyColumns.ts';
import { hayDaviesSky, isotropicSky, perezSky } from '../../sim/spot/sky/skyModels.ts';
import { spotLight } from '../../sim/spot/spotLight.ts';
import { spotParams } from '../../sim/spot/spotParams.ts';
import { extraterrestrialNormal } from '../../sim/sun/extraterrestrialNormal.ts';
import { directionTo } from '../../sim/sun/SunTrack.ts';
import { sunFromHourAngle } from '../../sim/sun/solarPosition.ts';
import type { TruthCase } from './TruthCase.ts';

const topic = 'Tilted plane';
const duffie = (example: string) =>
  `J. A. Duffie and W. A. Beckman, Solar Engineering of Thermal Processes, example ${example}`;

/** The book's own answer, 1.28, has a horizon term that Hay and Davies do not. */
const NO_HORIZON =
  '2.16.1, inputs; the equation of Hay and Davies (1980, from memory), without the horizon term of the book, evaluated apart';

interface Case {
  declination_deg: number;
  latitude_deg: number;
  tilt_deg: number;
  bearing_deg: number;
}

function cosines(c: Case, hourAngle_deg: number): { plane: number; flat: number } {
  const { altitude_deg, azimuth_deg } = sunFromHourAngle(c.declination_deg, hourAngle_deg, c.latitude_deg);
  const { up, north, east } = directionTo(altitude_deg, azimuth_deg);
  return {
    plane: incidenceCosine(up, north, east, normalOf(c)),
    flat: up,
  };
}

/** Ratio of beam on the plane to beam on the flat, at an hour angle. */
const beamRatio = (c: Case, hourAngle_deg: number) =>
  cosines(c, hourAngle_deg).plane / cosines(c, hourAngle_deg).flat;

/** The same over an arc, the parts of it with the sun down left out. */
function meanBeamRatio(c: Case, from_deg: number, to_deg: number): number {
  let plane = 0;
  let flat = 0;
  for (let i = 0; i < 3000; i++) {
    const at = cosines(c, from_deg + ((i + 0.5) * (to_deg - from_deg)) / 3000);
    if (at.flat <= 0) continue;
    plane += Math.max(at.plane, 0);
    flat += at.flat;
  }
  return plane / flat;
}

const madison: Case = { declination_deg: -14, latitude_deg: 43, tilt_deg: 45, bearing_deg: 195 };
const sunrise: Case = { declination_deg: -7.15, latitude_deg: 45, tilt_deg: 60, bearing_deg: 180 };
const february = (tilt_deg: number): Case => ({
  declination_deg: -13,
  latitude_deg: 40,
  tilt_deg,
  bearing_deg: 180,
});

/** Example 2.15.1: 40 N, 20 February, 9 to 10 h, tilt 60 S, 1.04 MJ/m2 on the flat, ground 0.60; energies in MJ/m2. */
function february20(model: 'isotropic' | 'hay-davies' | 'perez') {
  const c: Case = { declination_deg: -11.6, latitude_deg: 40, tilt_deg: 60, bearing_deg: 180 };
  let flat = 0;
  for (let i = 0; i < 60; i++) flat += cosines(c, -45 + (i + 0.5) / 4).flat / 60;
  const outside = (extraterrestrialNormal(51, 1367) * flat * 3600) / 1e6;
  const diffuse = 1.04 * splitGlobal(1.04 / outside);
  const beam = 1.04 - diffuse;
  const ratio = beamRatio(c, -37.5);
  const models = { isotropic: isotropicSky, 'hay-davies': hayDaviesSky, perez: perezSky };
  const parts = models[model](diffuse, beam / flat, outside / flat, flat);
  const band = parts.band_W_m2 * Math.sin((60 * Math.PI) / 180);
  const isotropic = parts.isotropic_W_m2 * domeShares(OPEN_DOME, 60, 180).sky;
  const straight = (beam + parts.circumsolar_W_m2 * flat) * ratio;
  const ground = 1.04 * 0.6 * groundShare({ tilt_deg: 60, bearing_deg: 180, passage: undefined });
  return {
    outside,
    clearness: 1.04 / outside,
    diffuse,
    beam,
    ratio,
    straight,
    isotropic,
    ground,
    ring: (parts.circumsolar_W_m2 * flat) / diffuse,
    horizon: parts.band_W_m2 / diffuse,
    total: straight + isotropic + band + ground,
  };
}

/**
 * The same hour through the whole chain, MJ/m2: sun, split, sky and spot. The place lies where solar time is UTC, the
 * day is the one on which the sun has the declination that the book's approximation gives for 20 February.
 */
function throughChain(sky_model: string): number {
  const site = { latitude_deg: 40, longitude_deg: 3.47, elevation_m: 0, timeZone: 'UTC', albedo: 0.6 };
  const section = {
    cell_tilt_deg: 60,
    cell_bearing_deg: 'S',
    cover: { kind: 'none' },
    cell_front: 'none',
    sky_model,
  };
  const weather = {
    start_ms: Date.UTC(2023, 1, 18, 9),
    step_s: 3600 as const,
    count: 1,
    ghi_W_m2: Float64Array.of(1.04e6 / 3600),
    air_degC: Float64Array.of(5),
    mark: new Uint8Array(1),
    origin: { file: '', sha256: '', options: {}, filledHours: 0 },
  };
  const spot = spotParams(spotSchema.parse(section), () => {})!;
  return (spotLight(weather, site, spot).planeOfArray_W_m2[0]! * 3600) / 1e6;
}

const chain = (model: string, words: string, expected: number, where: string): TruthCase => ({
  topic,
  what: `all on tilt 60 S through the whole chain, ${words}`,
  unit: 'MJ/m2',
  expected,
  tolerance: expected * 0.01,
  why: '1 percent: solar constant, beam averaged over the hour, form of the air mass',
  source: duffie(where),
  status: model === 'hay-davies' ? 'computed, from memory' : 'answer from memory',
  compute: () => throughChain(model),
});

const example = (
  what: string,
  unit: string,
  expected: number,
  part: keyof ReturnType<typeof february20>,
  status: TruthCase['status'] = 'answer from memory',
): TruthCase => ({
  topic,
  what,
  unit,
  expected,
  tolerance: expected * 0.005 + 0.0005,
  why: 'rounding of the book, 0.5 percent',
  source: duffie('2.15.1'),
  status,
  compute: () => february20('isotropic')[part],
});

export const cases: TruthCase[] = [
  {
    topic,
    what: 'cosine of incidence, 43 N, 13 Feb 10:30, tilt 45, 15 deg west of south',
    unit: '1',
    expected: 0.817,
    tolerance: 0.001,
    why: 'rounding of the book',
    source: duffie('1.6.1'),
    status: 'printed',
    compute: () => cosines(madison, -22.5).plane,
  },
  {
    topic,
    what: 'beam on that plane over beam on the flat',
    unit: '1',
    expected: 1.66,
    tolerance: 0.01,
    why: 'rounding of the book',
    source: duffie('1.8.1'),
    status: 'printed',
    compute: () => beamRatio(madison, -22.5),
  },
  {
    topic,
    what: 'beam ratio, 40 N, 16 Feb 9 to 10 h, tilt 30 S',
    unit: '1',
    expected: 1.61,
    tolerance: 0.015,
    why: 'the book takes mid-hour',
    source: duffie('1.8.2'),
    status: 'printed',
    compute: () => beamRatio(february(30), -37.5),
  },
  {
    topic,
    what: 'the same, tilt 50 S',
    unit: '1',
    expected: 1.8,
    tolerance: 0.015,
    why: 'the book reads it from a chart',
    source: duffie('1.8.3'),
    status: 'printed',
    compute: () => beamRatio(february(50), -37.5),
  },
  {
    topic,
    what: 'beam ratio at an instant near sunrise, 45 N, 4 Mar 6:30, tilt 60 S',
    unit: '1',
    expected: 44.17,
    tolerance: 0.45,
    why: '1 percent',
    source: duffie('2.14.1, inputs; its equations evaluated apart'),
    status: 'computed',
    compute: () => beamRatio(sunrise, -82.5),
  },
  {
    topic,
    what: 'its mean over the sun-up part of 6 to 7 h',
    unit: '1',
    expected: 4.61,
    tolerance: 0.046,
    why: '1 percent',
    source: duffie('2.14.1, inputs; its equations evaluated apart'),
    status: 'computed',
    compute: () => meanBeamRatio(sunrise, -90, -75),
  },
  example('40 N, 20 Feb 9 to 10 h: outside the air', 'MJ/m2', 2.34, 'outside'),
  example('clearness index', '1', 0.445, 'clearness'),
  example('diffuse on the flat', 'MJ/m2', 0.796, 'diffuse'),
  example('beam on the flat', 'MJ/m2', 0.244, 'beam'),
  example('beam ratio', '1', 1.71, 'ratio'),
  example('beam on tilt 60 S', 'MJ/m2', 0.418, 'straight'),
  example('even sky on tilt 60 S', 'MJ/m2', 0.597, 'isotropic'),
  example('ground on tilt 60 S', 'MJ/m2', 0.156, 'ground'),
  example('all on tilt 60 S, evenly bright sky', 'MJ/m2', 1.17, 'total'),
  {
    topic,
    what: 'all on tilt 60 S, Hay and Davies',
    unit: 'MJ/m2',
    expected: 1.251,
    tolerance: 0.0063,
    why: '0.5 percent',
    source: duffie(NO_HORIZON),
    status: 'computed, from memory',
    compute: () => february20('hay-davies').total,
  },
  {
    topic,
    what: 'all on tilt 60 S, Perez 1990',
    unit: 'MJ/m2',
    expected: 1.37,
    tolerance: 0.0137,
    why: '1 percent: form of the air mass, rounding of the book',
    source: duffie('2.16.2'),
    status: 'answer from memory',
    compute: () => february20('perez').total,
  },
  {
    topic,
    what: 'its circumsolar coefficient F1',
    unit: '1',
    expected: 0.2555,
    tolerance: 0.003,
    why: 'form of the air mass',
    source: duffie('2.16.2, inputs; coefficients of R. Perez et al., Solar Energy 44 (1990) 271, table 6'),
    status: 'computed',
    compute: () => february20('perez').ring,
  },
  {
    topic,
    what: 'its horizon coefficient F2',
    unit: '1',
    expected: 0.005,
    tolerance: 0.001,
    why: 'form of the air mass',
    source: duffie('2.16.2, inputs; coefficients of R. Perez et al., Solar Energy 44 (1990) 271, table 6'),
    status: 'computed',
    compute: () => february20('perez').horizon,
  },
  chain('isotropic', 'evenly bright sky', 1.17, '2.15.1'),
  chain('hay-davies', 'Hay and Davies', 1.251, NO_HORIZON),
  chain('perez', 'Perez 1990', 1.37, '2.16.2'),
];
