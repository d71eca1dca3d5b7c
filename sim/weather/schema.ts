import * as z from 'zod';
import {
  IRRADIANCE_UNITS,
  RAIN_UNITS,
  SNOW_UNITS,
  TEMPERATURE_UNITS,
  type UnitName,
  WIND_UNITS,
} from '../tables/units.ts';

const heading = z.string().min(1).meta({ title: 'heading of the column in the file' });

const column = <const Units extends readonly UnitName[]>(
  units: Units,
  unit: string,
  title: string,
  ofUnit = 'unit of the column',
) =>
  z
    .strictObject({ column: heading, unit: z.enum(units).meta({ title: ofUnit }) })
    .optional()
    .meta({ unit, title });

const irradiance = (title: string) =>
  column(IRRADIANCE_UNITS, 'W/m2', title, 'unit; of an energy: the sum over the hour');

/**
 * The scenario's `weather`: a file, and how it is to be read. What is stated here always wins; with stamp and columns
 * stated nothing else of the file is read, and nothing of it is mended.
 */
export const weatherSchema = z
  .strictObject({
    file: z.string().min(1).meta({ title: 'hourly weather, CSV; relative to the scenario' }),
    stamp: z
      .strictObject({
        column: heading,
        zone: z
          .string()
          .regex(
            /^\s*(?:[Zz]|(?:UTC|GMT)(?:[+-]\d{1,2}(?::?[0-5]\d)?)?|[+-]\d{1,2}(?::?[0-5]\d)?)\s*$/,
            'expected UTC or a fixed offset such as +01:00',
          )
          .meta({ title: "the clock's fixed offset: UTC, +01:00 or UTC+1" }),
        marks: z.enum(['start', 'middle', 'end']).meta({ title: 'which instant of its hour a stamp marks' }),
      })
      .optional()
      .meta({ title: 'the column with the time of each row' }),
    columns: z
      .strictObject({
        ghi: irradiance('global horizontal irradiance'),
        dni: irradiance('direct normal irradiance'),
        dhi: irradiance('diffuse horizontal irradiance'),
        air_temperature: z
          .strictObject({
            column: heading.optional(),
            unit: z.enum(TEMPERATURE_UNITS).optional().meta({ title: 'unit of the column' }),
            constant_degC: z.number().min(-90).max(60).optional().meta({
              unit: 'degC',
              title: 'one temperature for all hours, where the file has none; shown as a stand-in',
            }),
          })
          .optional()
          .meta({ unit: 'degC', title: 'air temperature: a column, or a constant' }),
        snow_depth: column(SNOW_UNITS, 'm', 'depth of the snow lying'),
        rain: column(RAIN_UNITS, 'mm', 'rain of the hour'),
        wind: column(WIND_UNITS, 'm/s', 'wind speed'),
      })
      .optional()
      .meta({ title: 'which column of the file holds what' }),
    zone: z.string().optional().meta({
      title:
        "of a file that is recognised: the clock of its stamps, UTC, +01:00, an IANA name such as Europe/Berlin, or solar; the file's word where not given",
    }),
    marks: z.enum(['start', 'middle', 'end']).optional().meta({
      title: 'of a file that is recognised: which instant of its interval a stamp marks',
    }),
    believe: z.enum(['sun', 'file']).optional().meta({
      title: "whom to believe where a recognised file's stamps and the sun disagree; refused where not given",
    }),
    accept_filled: z.boolean().default(false).meta({
      title: 'take months of a recognised file of which more than a tenth of the daylight had to be filled',
    }),
    missing: z.array(z.string()).default(['']).meta({
      title: "codes that say 'missing', compared as text and as numbers",
      assumption: 'an empty cell is a missing value',
    }),
  })
  .meta({ title: 'the weather the lamp lives through' });

export type WeatherValue = z.output<typeof weatherSchema>;
