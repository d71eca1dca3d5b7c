import type { KeyPath } from '../common/document.ts';
import { LAMP_PARTS, type PartKind } from './parts/library.ts';
import { isMap } from './paths.ts';
import { REPLACED_KEYS } from './replacedKeys.ts';
import type { Json } from './Scenario.ts';
import type { ScenarioValue } from './schema.ts';
import { publicName } from './scenarioFile.ts';

type Keys = Record<string, Json>;

/**
 * The scenario as plain JSON: parts merged in, defaults filled in, keys without effect left out, no absolute path.
 *
 * in: value, as the schema gives it; name, of the scenario
 */
export function resolveScenario(value: ScenarioValue, name: string): Keys {
  const { format, seed, site, weather, start, promise, spots, lamps } = value;
  const plain = JSON.parse(
    JSON.stringify({ format, name, seed, site, weather, start, promise, spots, lamps }, publicFile),
  ) as Keys;
  for (const [key, spot] of Object.entries(plain.spots as Record<string, Keys>)) {
    dropReplaced('cover', spot.cover);
    const { horizon, light_on_cell: logged, cover } = spots[key]!;
    if (logged !== undefined) {
      for (const unused of ['cover', 'sky_model', 'cell_tilt_deg', 'cell_bearing_deg']) delete spot[unused];
    }
    if (cover.kind === 'none') spot.cover = { kind: 'none' };
    if (horizon !== undefined && horizon.reflectance === undefined) {
      spot.horizon = { ...(spot.horizon as Keys), reflectance: site.albedo };
    }
  }
  for (const lamp of Object.values(plain.lamps as Record<string, Keys>)) {
    for (const kind of LAMP_PARTS) dropReplaced(kind, lamp[kind]);
    const { part, kind, ...driver } = lamp.driver as Keys;
    const floor_V = Number(driver.floor_V);
    lamp.driver = {
      ...(part === undefined ? {} : { part }),
      kind: kind!,
      ...driver,
      restart_V: driver.restart_V ?? Number((floor_V + REBOUND_V).toPrecision(12)),
    };
  }
  return plain;
}

/** What the defaults are that no schema holds, by the last keys of their path. */
export function impliedDefault(path: KeyPath): string | undefined {
  if (path.length === 1 && path[0] === 'name') return 'the file name';
  if (path.at(-2) === 'driver' && path.at(-1) === 'restart_V') return `${REBOUND_V} V above the floor`;
  if (path.at(-2) === 'horizon' && path.at(-1) === 'reflectance') return "the site's albedo";
  return undefined;
}
