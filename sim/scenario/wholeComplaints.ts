import type { Complaint } from '../common/Complaint.ts';
import type { KeyPath } from '../common/document.ts';
import { isMap } from './paths.ts';

/**
 * What is wrong with a scenario beyond the single values: nothing to try, a promise or schedule without an end or
 * with two, no weather for a spot that needs some.
 *
 * in: value, the scenario with its parts merged in, checked or not
 */
export function wholeComplaints(value: Record<string, unknown>): Complaint[] {
  const complaints: Complaint[] = [];
  for (const [key, example] of [
    ['spots', 'lawn: { cell_tilt_deg: 0 }'],
    ['lamps', 'one-store: { cell: { part: small-cell }, ... }'],
  ] as const) {
    if (!isMap(value[key]) || Object.keys(value[key]).length > 0) continue;
    complaints.push({
      code: 'SCENARIO_MISSING_KEY',
      path: [key],
      got: 'an empty map',
      expected: `at least one entry under ${key}`,
      fix: `add one, as in ${example}.`,
    });
  }
  complaints.push(...endComplaints(value.promise, ['promise']));
  if (isMap(value.lamps)) {
    for (const [name, lamp] of Object.entries(value.lamps)) {
      if (isMap(lamp)) complaints.push(...endComplaints(lamp.schedule, ['lamps', name, 'schedule']));
    }
  }
  const spots = isMap(value.spots) ? Object.entries(value.spots) : [];
  const dark = spots
    .filter(([, spot]) => isMap(spot) && spot.light_on_cell === undefined)
    .map(([name]) => name);
  if (value.weather === undefined && dark.length > 0) {
    complaints.push({
      code: 'SCENARIO_MISSING_KEY',
      path: ['weather'],
      got: 'nothing',
      expected: `hourly weather for ${dark.join(', ')}, which ${dark.length === 1 ? 'has' : 'have'} no light_on_cell`,
      fix: 'add weather: { file: ... }, or light_on_cell to every spot.',
    });
  }
  return complaints;
}

function endComplaints(section: unknown, path: KeyPath): Complaint[] {
  if (!isMap(section)) return [];
  const { hours, until } = section;
  if (hours !== undefined && until !== undefined) {
    return [
      {
        code: 'SCENARIO_CONFLICT',
        path: [...path, 'until'],
        got: `both hours: ${String(hours)} and until: ${String(until)}`,
        expected: 'one of them',
        fix: 'take one away.',
      },
    ];
  }
  if (hours !== undefined || until !== undefined) return [];
  return [
    {
      code: 'SCENARIO_MISSING_KEY',
      path: [...path, 'hours'],
      got: 'neither hours nor until',
      expected: 'how long or until when',
      fix: 'add hours: 6, or until: dawn.',
    },
  ];
}
