import type { OwnParts } from './ownParts.ts';
import { REPLACED_KEYS } from './partSection.ts';
import { LAMP_PARTS, type PartKind } from './parts.ts';
import { isMap, valueAt } from './paths.ts';
import type { Json, ScenarioLamp } from './Scenario.ts';
import { publicName } from './scenarioFile.ts';
import type { ScenarioValue } from './schema.ts';

type Keys = Record<string, Json>;

const UNUSED_WITH_LOG = ['cover', 'sky_model', 'cell_tilt_deg', 'cell_bearing_deg', 'cell_front'];
/** Resin is the cell's front. */
const UNUSED_IN_RESIN = ['cell_front'];

/**
 * The scenario as plain JSON: parts merged in, defaults filled in, filled-in keys without effect left out, no
 * absolute path.
 *
 * in: value, as the schema gives it; name, of the scenario; lamps, their parameters; written, what the user wrote; own
 *   parts, where it names some
 */
export function resolveScenario(
  value: ScenarioValue,
  name: string,
  lamps: readonly ScenarioLamp[],
  written: Readonly<Record<string, unknown>>,
  own: Pick<OwnParts, 'file' | 'sha256' | 'currency'> | undefined,
): Keys {
  const { format, seed, site, start, promise, spots, choices, currency = own?.currency } = value;
  const parts = own && { file: own.file, sha256: own.sha256 };
  const weather = value.weather && weatherShown(value.weather);
  const sections = Object.fromEntries(lamps.map((lamp) => [lamp.name, lamp.section]));
  const plain = JSON.parse(
    JSON.stringify(
      { format, name, seed, site, weather, parts, currency, start, promise, spots, lamps: sections, choices },
      publicFile,
    ),
  ) as Keys;
  for (const [key, spot] of Object.entries(plain.spots as Record<string, Keys>)) {
    dropReplaced('cover', spot.cover);
    const { horizon, light_on_cell: logged, cover } = spots[key]!;
    for (const unused of logged !== undefined
      ? UNUSED_WITH_LOG
      : cover.kind === 'resin'
        ? UNUSED_IN_RESIN
        : []) {
      if (valueAt(written, ['spots', key, unused]) === undefined) delete spot[unused];
    }
    if (horizon !== undefined) {
      spot.horizon = { ...(spot.horizon as Keys), reflectance: horizon.reflectance ?? site.albedo };
    }
  }
  for (const { name: key, params } of lamps) {
    const lamp = (plain.lamps as Record<string, Keys>)[key]!;
    for (const kind of LAMP_PARTS) dropReplaced(kind, lamp[kind]);
    const capacitor = lamp.capacitor as Keys;
    if (capacitor.kind === 'lithium-hybrid') {
      capacitor.lowest_V = params.capacitor.lowest_V / Number(capacitor.series);
    }
    const { part, kind, ...driver } = lamp.driver as Keys;
    lamp.driver = {
      ...(part === undefined ? {} : { part }),
      kind: kind!,
      ...driver,
      // What was read stands among the readings.
      ...(driver.readings !== undefined && driver.restart_V !== undefined
        ? {}
        : { restart_V: params.driver.restart_V }),
    };
  }
  return plain;
}

/** Of a climate file its name alone; how a file of hours is read, only where there is one. */
function weatherShown({ climate, ...file }: NonNullable<ScenarioValue['weather']>): object {
  const shown = climate?.file === undefined ? climate : { file: climate.file };
  return { ...(file.file === undefined ? {} : file), ...(shown === undefined ? {} : { climate: shown }) };
}

function publicFile(key: string, value: unknown): unknown {
  return key === 'file' && typeof value === 'string' ? publicName(value) : value;
}

/** Takes keys out of a section that others of it take the place of. */
export function dropReplaced(kind: PartKind, section: unknown): void {
  if (!isMap(section)) return;
  for (const [key, replaced] of Object.entries(REPLACED_KEYS[kind])) {
    if (section[key] === undefined) continue;
    for (const other of replaced) delete section[other];
  }
}
