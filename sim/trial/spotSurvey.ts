import { DateTime } from 'luxon';
import { tan } from '../common/elementary/sin.ts';
import type { Scenario, ScenarioSpot } from '../scenario/Scenario.ts';
import { readScenarioFile } from '../scenario/scenarioFile.ts';
import { horizonProfile } from '../spot/shade/horizonProfile.ts';
import type { Obstacle } from '../spot/shade/Obstacle.ts';
import type { Screen, Span } from '../spot/shade/SkyDome.ts';
import { screensAround, surroundings } from '../spot/shade/seasonDomes.ts';
import { nightCalendar } from '../sun/NightCalendar.ts';
import type { Site } from '../sun/Site.ts';
import { solarPosition } from '../sun/solarPosition.ts';

/** Something that the scenario says stands around a spot, as it is found in the garden. */
export interface StatedObstacle {
  name: string;
  kind: string;
  bearing_deg: number;
  distance_m: number;
  /** Of the top, the ridge where it has one. */
  height_m: number;
  width_m: number;
  /** Share of the light that passes in leaf and without leaves. */
  green: number;
  bare: number;
}

/** What hides the sky along one bearing without a gap, degrees above the level. */
export interface SkylineStretch {
  from_deg: number;
  to_deg: number;
  /** What reaches highest of it. */
  name: string;
}

/** The skyline along one bearing, as seen from the cell. */
export interface SkylineRow {
  bearing_deg: number;
  /** Lowest first, none where the view is free; undefined where nothing is stated. */
  stated?: SkylineStretch[];
}

/** A sheet to take to one spot: what is stated there, and room for what is seen. */
export interface SpotSheet {
  spot: string;
  cellHeight_m: number;
  obstacles: StatedObstacle[];
  skyline: SkylineRow[];
}

/** Sheets for surveying the skyline of spots, and how it is done. */
export interface SpotSurvey {
  /** In the order of the work, sentences. */
  steps: string[];
  /** An invented one, worked through. */
  example: { words: string; csv: string; obstacle: string };
  sheets: SpotSheet[];
}

const STEP_DEG = 10;

/**
 * Sheets for surveying the skyline of those spots of a scenario of which it states obstacles, or nothing at all.
 *
 * in: scenario
 * out: no sheet for a spot with a horizon profile alone, or one whose light was logged
 * throws: SPOT_PROFILE; the codes of files
 */
export function spotSurvey(scenario: Pick<Scenario, 'spots' | 'site' | 'folder'>): SpotSurvey {
  return {
    steps: stepsAt(scenario.site),
    example: EXAMPLE,
    sheets: scenario.spots.filter(isToSurvey).map((spot) => sheetOf(spot, scenario)),
  };
}

function isToSurvey({ params }: ScenarioSpot): boolean {
  const { obstacles, horizon, loggedLight, measured } = params;
  if (loggedLight !== undefined || measured?.replaces === 'geometry') return false;
  return obstacles.length > 0 || horizon === undefined;
}

function sheetOf({ name, params }: ScenarioSpot, scenario: { folder: string }): SpotSheet {
  const { obstacles, cellHeight_m, horizon } = params;
  const read = ({ file }: { file: string }) =>
    horizonProfile({ name: file, bytes: readScenarioFile(scenario, file).bytes });
  const screens =
    obstacles.length > 0
      ? screensAround(surroundings(params, horizon && read(horizon)), () => true)
      : undefined;
  return {
    spot: name,
    cellHeight_m,
    obstacles: obstacles.map(stated),
    skyline: Array.from({ length: 360 / STEP_DEG }, (_, k) => ({
      bearing_deg: k * STEP_DEG,
      ...(screens && { stated: stretchesAt(screens, k * STEP_DEG) }),
    })),
  };
}

function stated(obstacle: Obstacle): StatedObstacle {
  const { name, kind, bearing_deg, distance_m, leaves } = obstacle;
  const [height_m, width_m] =
    obstacle.kind === 'tree'
      ? [obstacle.crown_top_m, obstacle.crown_width_m]
      : [Math.max(obstacle.height_m, obstacle.ridge_height_m ?? 0), obstacle.width_m];
  const { transmittance: green, bareTransmittance: bare } = leaves;
  return { name, kind, bearing_deg, distance_m, height_m, width_m, green, bare };
}

function stretchesAt(screens: readonly Screen[], bearing_deg: number): SkylineStretch[] {
  const spans = screens
    .map(({ name, span }) => ({ name, span: span(bearing_deg) }))
    .filter((one): one is { name: string; span: Span } => one.span !== undefined)
    .sort((a, b) => a.span.from_deg - b.span.from_deg);
  const stretches: SkylineStretch[] = [];
  for (const { name, span } of spans) {
    const { from_deg, to_deg } = span;
    const below = stretches.at(-1);
    if (below === undefined || from_deg > below.to_deg) stretches.push({ from_deg, to_deg, name });
    else if (to_deg > below.to_deg) Object.assign(below, { to_deg, name });
  }
  return stretches;
}

/** Any year: the sun's noon moves by seconds from one to the next. */
const NOON_YEAR = 2025;
/** A shadow can be read below and above these altitudes. */
const LOW_SUN_DEG = 5;
const HIGH_SUN_DEG = 80;

/** When the sun stands in the meridian by the clock on the wall, and on which side; '' where it never can be used. */
function noonWords(site: Site): string {
  const noons = [3, 6, 9, 12].flatMap((month) => {
    const [, noon_ms] = nightCalendar(Date.UTC(NOON_YEAR, month - 1, 21), 24, site).noon_ms;
    const { altitude_deg, azimuth_deg } = solarPosition(noon_ms!, site.latitude_deg, site.longitude_deg);
    if (altitude_deg < LOW_SUN_DEG || altitude_deg > HIGH_SUN_DEG) return [];
    const clock = DateTime.fromMillis(noon_ms!, { zone: site.timeZone, locale: 'en' });
    const side = azimuth_deg > 90 && azimuth_deg < 270 ? 'south' : 'north';
    return [{ words: `${clock.toFormat('HH:mm')} on ${clock.toFormat('d MMMM')}`, side }];
  });
  if (noons.length === 0) return '';
  const sides = [...new Set(noons.map(({ side }) => side))].join(' or ');
  return ` Without one: at the sun's noon it stands true ${sides}, and the shadow of a plumb line lies along true north; by the clock here (${site.timeZone}) that is at ${noons.map(({ words }) => words).join(', ')}.`;
}

/** Tangents, for those without a table. */
const TANGENTS = [10, 20, 30, 40, 50, 60, 70]
  .map((angle) => `${angle} deg ${tan((angle * Math.PI) / 180).toFixed(2)}`)
  .join(', ');

function stepsAt(site: Site): string[] {
  return [
    'Stand where the lamp will stand. For each thing note the bearing of its left edge, middle and right edge, its distance, and its height or the angle of its top.',
    `Bearing: sight over a compass, away from iron (cars, fences, railings, steel in walls), and read degrees clockwise from north. A compass shows magnetic north: add the declination of your place, east as plus, west as minus, as official maps print it.${noonWords(site)}`,
    'Distance: count your paces along 20 m of tape; 27 of them are 0.74 m each. Paces times that, from the spot to the foot of the thing.',
    'Angle: tape a drinking straw along the straight edge of a half-round protractor, hang a thread with a nut from the middle of that edge. Look through the straw at the top, pinch the thread where it hangs: the angle is how far it lies from 90. Never look at the sun.',
    `From eye to cell: height = eye height + distance x tangent of the angle. As the cell sees it, the tangent is (height - cell height) / distance. Or kneel until your eye is at the cell. Tangents: ${TANGENTS}.`,
    'Trees: note whether they are bare or green today, and how many tenths of the sky show through the crown; about 1 green and 5 bare, if you cannot tell. An evergreen has the same all year.',
    'Skyline: go round in steps of 10 deg and write down the highest angle at each, 0 where the view is free, and at both sides of every upright edge.',
    'Type it in as a CSV file, a row a bearing, rising (at least 3; between rows the skyline is a straight line), and name it in the scenario below the spot: horizon: { file: skyline.csv }. A third column transmittance (0 to 1) lets light through. A house, or a tree that sheds its leaves, is better typed in below obstacles.',
  ];
}

const EXAMPLE: SpotSurvey['example'] = {
  words:
    'Invented: a shed, compass 150, declination 4 deg east: bearing 154. 8 paces of 0.75 m: 6.0 m. Its top is 10 deg above an eye 1.5 m up: 1.5 + 6.0 x 0.18 = 2.6 m. From a cell at 0.15 m: (2.6 - 0.15) / 6.0 = 0.41, 22 deg. Its edges are at 129 and 179, 20 deg high.',
  csv: 'bearing_deg,elevation_deg\n128,0\n129,20\n154,22\n179,20\n180,0\n',
  obstacle:
    'shed: { kind: house, bearing_deg: 154, distance_m: 6, width_m: 5.6, depth_m: 2.5, height_m: 2.6, eaves_m: 0 }',
};
