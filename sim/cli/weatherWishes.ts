import { DateTime } from 'luxon';
import { nearestWord } from '../common/hints.ts';
import {
  IRRADIANCE_UNITS,
  RAIN_UNITS,
  SNOW_UNITS,
  TEMPERATURE_UNITS,
  type UnitName,
  WIND_UNITS,
} from '../tables/units.ts';
import type { WeatherWishes } from '../trial/loadWeather.ts';
import type { QuantityName } from '../weather/recognise/DetectedFormat.ts';
import type { Arguments } from './Command.ts';
import { filesTyped } from './filesTyped.ts';
import type { Io } from './Io.ts';
import { numberWithin } from './numberWithin.ts';
import { OPTIONS, type OptionName } from './options.ts';
import { usageMistake } from './usageProblem.ts';

/** Quantities that a column can be said to hold, as keys of the scenario name them, and the units of each. */
const UNITS_OF: Record<QuantityName, readonly UnitName[]> = {
  ghi: IRRADIANCE_UNITS,
  dni: IRRADIANCE_UNITS,
  bhi: IRRADIANCE_UNITS,
  dhi: IRRADIANCE_UNITS,
  air_temperature: TEMPERATURE_UNITS,
  snow_depth: SNOW_UNITS,
  rain: RAIN_UNITS,
  wind: WIND_UNITS,
};

/**
 * What the command line says of the weather.
 *
 * in: args; io
 * out: wishes for loadWeather; what was not said is not there
 * throws: USAGE for what an option does not take
 */
export function weatherWishes(args: Arguments, io: Io): WeatherWishes {
  const files = filesTyped(args.all('weather'), io);
  const from_ms = dateOf(args, 'from')?.toMillis();
  const to = dateOf(args, 'to');
  const to_ms = to?.plus(args.text('to')!.length > 7 ? { days: 1 } : { months: 1 }).toMillis();
  if (from_ms !== undefined && to_ms !== undefined && to_ms <= from_ms) {
    const [from, until] = [args.text('from'), args.text('to')];
    throw usageMistake(
      `--from ${from} --to ${until}`,
      'the earlier date first',
      `--from ${until} --to ${from}`,
    );
  }
  const said = {
    files: files.length === 0 ? undefined : files,
    place: placeOf(args.text('place')),
    zone: args.text('zone'),
    marks: args.oneOf('marks', ['start', 'middle', 'end']),
    columns: byQuantity(args, 'column', (_, name) => name),
    units: byQuantity(args, 'unit', unitOf),
    station: args.text('station'),
    from_ms,
    to_ms,
    believe: args.oneOf('believe', ['sun', 'file']),
    wholeRecord: args.has('whole-record') || undefined,
    acceptFilled: args.has('accept-filled') || undefined,
  };
  return Object.fromEntries(Object.entries(said).filter(([, value]) => value !== undefined));
}

function placeOf(text: string | undefined): WeatherWishes['place'] {
  if (text === undefined) return undefined;
  const parts = text.split(',');
  if (parts.length < 2 || parts.length > 3) {
    const expected = 'latitude and longitude in degrees, and the elevation in m where it is known';
    throw usageMistake(`--place ${text}`, expected, `${OPTIONS.place.example}, with decimal points`);
  }
  const number = (k: number, name: string, from: number, to: number, unit: string) =>
    numberWithin(parts[k]!.trim(), `--place ${text}, the ${name} ${parts[k]}`, from, to, unit);
  return {
    latitude_deg: number(0, 'latitude', -90, 90, 'deg'),
    longitude_deg: number(1, 'longitude', -180, 180, 'deg'),
    ...(parts.length === 2 ? {} : { elevation_m: number(2, 'elevation', -500, 9000, 'm') }),
  };
}

/** What is said of several quantities, each as QUANTITY=VALUE; of the same one twice the last counts. */
function byQuantity<Value>(
  args: Arguments,
  option: 'column' | 'unit',
  read: (quantity: QuantityName, text: string) => Value,
): Partial<Record<QuantityName, Value>> | undefined {
  const names = Object.keys(UNITS_OF) as QuantityName[];
  const pairs = args.all(option).map((typed) => {
    const [name = '', ...rest] = typed.split('=');
    const text = rest.join('=').trim();
    const quantity = names.find((known) => known === name.trim());
    if (quantity !== undefined && text !== '') return [quantity, read(quantity, text)] as const;
    const near = quantity ?? nearestWord(name, names) ?? 'ghi';
    const value = text === '' ? OPTIONS[option].example.split('=')[1] : text;
    const expected = `QUANTITY=VALUE, the quantity one of ${names.join(', ')}`;
    throw usageMistake(`--${option} ${typed}`, expected, `did you mean --${option} ${near}=${value}?`);
  });
  return pairs.length === 0 ? undefined : (Object.fromEntries(pairs) as Partial<Record<QuantityName, Value>>);
}

function unitOf(quantity: QuantityName, text: string): UnitName {
  const units = UNITS_OF[quantity];
  const plain = text.replaceAll('²', '2').replace('°', 'deg').toLowerCase();
  const unit = units.find((known) => known.toLowerCase() === plain);
  if (unit !== undefined) return unit;
  const near = nearestWord(plain, units) ?? units[0];
  throw usageMistake(
    `--unit ${quantity}=${text}`,
    `one of ${units.join(', ')}`,
    `did you mean --unit ${quantity}=${near}?`,
  );
}

/** The start of a day or a month, UTC. */
function dateOf(args: Arguments, option: OptionName): DateTime | undefined {
  const text = args.text(option);
  if (text === undefined) return undefined;
  const date = /^\d{4}-\d\d(-\d\d)?$/.test(text) ? DateTime.fromISO(text, { zone: 'utc' }) : undefined;
  if (date?.isValid === true) return date;
  throw usageMistake(
    `--${option} ${text}`,
    'a day or a month, as 2021-10-01 or 2021-10',
    OPTIONS[option].example,
  );
}
