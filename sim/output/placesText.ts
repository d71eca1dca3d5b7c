import { fixed } from '../common/csvText.ts';
import type { Scenario } from '../scenario/Scenario.ts';
import type { LampPlaces, PlacedLamp } from '../sizing/lampPlaces.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';
import { sizeHead } from './sizeHead.ts';
import { type Look, type Paint, paint, sideBySide, type TextColumn, textTable } from './textTable.ts';
import { plural } from './words.ts';

/**
 * Which lamp goes into which spot, for people: the places, what is left over, and what each lamp comes to in each spot.
 *
 * in: places; scenario; weather; look, of the terminal
 * out: text, ending in a line break
 */
export function placesText(
  places: LampPlaces,
  scenario: Scenario,
  weather: WeatherRecord | undefined,
  look: Look = {},
): string {
  const style = paint(look);
  const { spots, lamps } = scenario;
  const counts = `${lamps.length} ${plural(lamps.length, 'lamp')} goes into which of ${spots.length} ${plural(spots.length, 'spot')}`;
  const lines = [
    ...sizeHead(scenario, weather, `which of ${counts}`, style),
    '',
    ...textTable(COLUMNS, places.places, style.columns),
    '',
    ...restLines(places, style),
    '',
    style.strong('Each lamp in each spot: failed nights (hours short)'),
    ...trialTable(places, scenario, style),
  ];
  return `${lines.join('\n')}\n`;
}

const COLUMNS: TextColumn<PlacedLamp>[] = [
  { heading: ['', 'spot'], cell: ({ spot }) => spot },
  { heading: ['', 'lamp'], cell: ({ lamp }) => lamp },
  { heading: ['', 'promise'], cell: ({ failedNights }) => (failedNights === 0 ? 'kept' : 'BROKEN') },
  { heading: ['failed', 'nights'], cell: ({ failedNights }) => String(failedNights) },
  { heading: ['of', 'nights'], cell: ({ nights }) => String(nights) },
  { heading: ['short', 'h'], cell: ({ short_h }) => fixed(short_h, 1) },
];

function restLines(
  { places, kept, failedNights, short_h, drawer, empty, method }: LampPlaces,
  style: Paint,
): string[] {
  const together = `Promises kept: ${kept} of ${places.length}; together ${failedNights} failed ${plural(failedNights, 'night')}, ${fixed(short_h, 1)} h short.`;
  return [
    ...style.wrap(together),
    ...(drawer.length === 0 ? [] : style.wrap(`Left in the drawer: ${drawer.join(', ')}.`, 0, 2)),
    ...(empty.length === 0 ? [] : style.wrap(`Without a lamp: ${empty.join(', ')}.`, 0, 2)),
    ...style.wrap(`${method}.`),
  ];
}

function trialTable({ trials, places }: LampPlaces, { spots, lamps }: Scenario, style: Paint): string[] {
  return sideBySide(
    spots.map(({ name }) => name),
    lamps.map(({ name }, l) => {
      const own = spots.map((_, s) => trials[s * lamps.length + l]!);
      return {
        label: name,
        cells: own.map(({ failedNights, short_h }) => `${failedNights} (${fixed(short_h, 1)})`),
        paint: (text: string, s: number) => (places.includes(own[s]!) ? style.strong(text) : text),
      };
    }),
    style.columns,
  );
}
