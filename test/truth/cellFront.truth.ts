import { angularShare } from '../../sim/spot/cover/cellFront.ts';
import { type CellPassage, cellPassage } from '../../sim/spot/cover/cellPassage.ts';
import { fresnelReflectance } from '../../sim/spot/cover/coverTransmittance.ts';
import { groundShare } from '../../sim/spot/planeFactors.ts';
import { domeShares } from '../../sim/spot/shade/domeShares.ts';
import { OPEN_DOME, type SkyDome } from '../../sim/spot/shade/SkyDome.ts';
import { blockDome, horizonDome } from '../spot/domes.ts';
import type { TruthCase } from './TruthCase.ts';

const topic = "Cell's front";
const martinRuiz = (what: string) =>
  `N. Martin and J. M. Ruiz, Solar Energy Materials and Solar Cells 70 (2001) 25: ${what}; from memory`;
const radians = Math.PI / 180;

const passageOf = (loss: number): CellPassage => ({ share: (cosine) => angularShare(cosine, loss) });
/** What a plane takes of an even sky, of what it would take without loss. */
const ofSky = (dome: SkyDome, tilt_deg: number, passage: CellPassage) =>
  domeShares(dome, tilt_deg, 180, passage).sky / domeShares(dome, tilt_deg, 180).sky;
const ofGround = (tilt_deg: number, passage: CellPassage) =>
  groundShare({ tilt_deg, bearing_deg: 180, passage }) /
  groundShare({ tilt_deg, bearing_deg: 180, passage: undefined });

const at = (loss: number, angle_deg: number, expected: number): TruthCase => ({
  topic,
  what: `loss coefficient ${loss}, ${angle_deg} deg`,
  unit: '1',
  expected,
  tolerance: 1e-4,
  why: 'the same equation, four decimals',
  source: martinRuiz('equation of the angular factor evaluated apart'),
  status: 'computed, from memory',
  compute: () => angularShare(Math.cos(angle_deg * radians), loss),
});

/** Of a smooth front of refractive index 1.5, of what passes straight on. */
const fresnel = (angle_deg: number, expected: number): TruthCase => ({
  topic,
  what: `flat front, ${angle_deg} deg, beside a smooth surface of index 1.5`,
  unit: '1',
  expected,
  tolerance: 0.006,
  why: 'one curve with a coefficient for another: within 0.006 at every angle',
  source: 'Fresnel equations at index 1.5, of what passes straight on, from memory, evaluated apart',
  status: 'computed, from memory',
  compute: () => cellPassage('none', 'flat')!.share(Math.cos(angle_deg * radians), 90 - angle_deg),
});

const whole = (
  what: string,
  expected: number,
  tolerance: number,
  why: string,
  compute: () => number,
): TruthCase => ({
  topic,
  what,
  unit: '1',
  expected,
  tolerance,
  why,
  source: martinRuiz('closed form for diffuse light, an approximation of the integral, evaluated apart'),
  status: 'computed, from memory',
  compute,
});
const NEAR = 'the closed form beside its integral on the flat';
const FORM = 'the closed form: its sky and ground together miss the half-space they make up by 0.7 percent';

/** The sky above a horizon of one height on a flat cell, or what stands below it, of what a front without loss takes. */
function ringShare(loss: number, height_deg: number, part: 'above' | 'below'): number {
  // The integral of s (1 - exp(-s / a)) / (1 - exp(-1 / a)) over s = sin e, from by parts.
  const upTo = (s: number) => s ** 2 / 2 + loss * Math.exp(-s / loss) * (s + loss);
  const s = Math.sin(height_deg * radians);
  const [from, to] = part === 'above' ? [s, 1] : [0, s];
  return ((upTo(to) - upTo(from)) * 2) / (1 - Math.exp(-1 / loss)) / (to ** 2 - from ** 2);
}

const ring = (loss: number, height_deg: number, part: 'above' | 'below'): TruthCase => ({
  topic,
  what:
    part === 'above'
      ? `even sky above a horizon of ${height_deg} deg, flat, coefficient ${loss}`
      : `even walls below ${height_deg} deg all around, flat, coefficient ${loss}`,
  unit: '1',
  expected: ringShare(loss, height_deg, part),
  tolerance: 1e-4,
  why: 'eight points of quadrature along each bearing',
  source: martinRuiz('the angular factor, its integral over a ring of the sky made here'),
  status: 'derived here',
  compute: () => {
    const dome = horizonDome({
      bearing_deg: Float64Array.of(0, 120, 240),
      elevation_deg: new Float64Array(3).fill(height_deg),
    });
    if (part === 'above') return ofSky(dome, 0, passageOf(loss));
    return (
      domeShares(dome, 0, 180, passageOf(loss)).screens[0]!.view / domeShares(dome, 0, 180).screens[0]!.view
    );
  },
});

const GLASS = { kind: 'flat' as const, refractiveIndex: 1.526, absorption_per_m: 0, thickness_m: 0.003 };
/** What one clear cover passes of all sky, or of all ground: as much as of the beam at an equivalent angle. */
const equivalent = (
  part: 'sky' | 'ground',
  tilt_deg: number,
  angle_deg: number,
  expected: number,
): TruthCase => ({
  topic: 'Cover',
  what: `one clear cover over all the ${part}, tilt ${tilt_deg} deg, as at ${angle_deg} deg`,
  unit: '1',
  expected,
  tolerance: 0.01,
  why: 'a polynomial fitted to many covers',
  source:
    'angle of M. J. Brandemuehl and W. A. Beckman, Solar Energy 24 (1980) 511, from memory; Fresnel equations there, evaluated apart',
  status: 'computed, from memory',
  compute: () =>
    part === 'sky'
      ? ofSky(OPEN_DOME, tilt_deg, cellPassage(GLASS, 'none')!)
      : ofGround(tilt_deg, cellPassage(GLASS, 'none')!),
});

const LID = { ...GLASS, absorption_per_m: 10, thickness_m: 0.0025 };
/** Sky that an opaque crown leaves open all around, below an elevation. */
const underCrown = (height_deg: number, front: 'none' | 'flat', expected: number): TruthCase => ({
  topic: front === 'none' ? 'Cover' : topic,
  what: `lid of 2.5 mm${front === 'none' ? '' : ' and flat front'}, flat, even sky below ${height_deg} deg`,
  unit: '1',
  expected,
  tolerance: 2e-4,
  why: 'four decimals, tables of 512 steps',
  source:
    front === 'none'
      ? 'equations 5.2.1 to 5.3.3 of J. A. Duffie and W. A. Beckman, Solar Engineering of Thermal Processes, from memory, integrated apart'
      : 'the same times the angular factor of N. Martin and J. M. Ruiz (2001), both from memory, integrated apart',
  status: 'computed, from memory',
  compute: () => {
    const crown = blockDome(() => true, 90, 0, height_deg);
    return ofSky(crown, 0, cellPassage(LID, front)!);
  },
});

export const cases: TruthCase[] = [
  underCrown(20, 'none', 0.5197),
  underCrown(35, 'none', 0.6955),
  underCrown(45, 'none', 0.7528),
  underCrown(35, 'flat', 0.6169),
  ...[0.17, 0.16, 0.1].map((loss) => at(loss, 0, 1)),
  at(0.17, 20, 0.9988),
  at(0.17, 40, 0.9917),
  at(0.17, 60, 0.9498),
  at(0.17, 70, 0.8687),
  at(0.17, 75, 0.784),
  at(0.17, 80, 0.6417),
  at(0.17, 85, 0.4022),
  at(0.16, 40, 0.9936),
  at(0.16, 60, 0.9579),
  at(0.16, 75, 0.8032),
  at(0.16, 85, 0.4208),
  at(0.1, 40, 0.9996),
  at(0.1, 60, 0.9933),
  at(0.1, 75, 0.9249),
  at(0.1, 85, 0.5817),
  fresnel(0, 1),
  fresnel(40, 0.994),
  fresnel(60, 0.9488),
  fresnel(75, 0.7781),
  fresnel(85, 0.4033),
  {
    ...fresnel(70, 0.8616),
    what: 'a surface of index 1.526, 70 deg, of what passes straight on',
    tolerance: 1e-4,
    why: 'the same equations, four decimals',
    source: 'Fresnel equations at index 1.526, from memory, evaluated apart',
    compute: () => {
      const pass = (angle_deg: number) => {
        const { perpendicular, parallel } = fresnelReflectance(angle_deg, 1.526);
        return 1 - (perpendicular + parallel) / 2;
      };
      return pass(70) / pass(0);
    },
  },
  ...([0.17, 0.16, 0.1] as const).flatMap((loss) => [
    ring(loss, 0, 'above'),
    ring(loss, 30, 'above'),
    ring(loss, 30, 'below'),
  ]),
  ring(0.17, 60, 'above'),
  ring(0.17, 10, 'below'),
  whole('all sky, flat, coefficient 0.17', 0.9461, 0.003, NEAR, () => ofSky(OPEN_DOME, 0, passageOf(0.17))),
  whole('all sky, flat, coefficient 0.1', 0.9834, 0.004, NEAR, () => ofSky(OPEN_DOME, 0, passageOf(0.1))),
  ...(
    [
      [30, 0.9501, 0.7774],
      [60, 0.9528, 0.9141],
      [90, 0.9461, 0.9461],
    ] as const
  ).flatMap(([tilt, sky, ground]) => [
    whole(`all sky, tilt ${tilt} deg, coefficient 0.17`, sky, 0.012, FORM, () =>
      ofSky(OPEN_DOME, tilt, passageOf(0.17)),
    ),
    whole(`all ground, tilt ${tilt} deg, coefficient 0.17`, ground, 0.012, FORM, () =>
      ofGround(tilt, passageOf(0.17)),
    ),
  ]),
  equivalent('sky', 0, 59.7, 0.8443),
  equivalent('sky', 45, 56.49, 0.8641),
  equivalent('sky', 90, 59.33, 0.8468),
  equivalent('ground', 45, 69.41, 0.7338),
  equivalent('ground', 90, 59.72, 0.8441),
];
