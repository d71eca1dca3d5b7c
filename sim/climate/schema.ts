import * as z from 'zod';
import { USUAL_PERSISTENCE } from './persistence.ts';

/** The published distributions of daily clearness, as the scenario names them. */
const DISTRIBUTIONS = ['bendt', 'hollands-huget'] as const;
export type DistributionName = (typeof DISTRIBUTIONS)[number];

const MONTHS = 'January to December';

/** Twelve numbers, each read in one unit. */
function months<Item extends z.ZodType>(item: Item, unit: string, title: string) {
  return z
    .array(item.meta({ unit, title: `${title}, of one month` }))
    .length(12)
    .optional()
    .meta({ unit, title: `${title}, ${MONTHS}` });
}

const share = z.number().min(0).max(1);

/** The scenario's `weather.climate`, and the climate file: what is known of a place's months. */
export const climateSchema = z
  .strictObject({
    file: z.string().min(1).optional().meta({
      title: 'a climate file with the same keys, relative to the scenario; nothing else beside it',
    }),
    irradiation_kWh_m2_day: months(
      z.number().min(0).nullable(),
      'kWh/m2/day',
      'mean daily light on level ground; null or 0 where the sun stays down',
    ),
    clearness: months(
      share.nullable(),
      '1',
      'mean clearness index: that light over the light outside the air; null where the sun stays down',
    ),
    clearness_shares: z
      .strictObject({
        days: z.array(share).min(3).max(101).meta({ unit: '1', title: 'shares of the days, 0 to 1, rising' }),
        months: z
          .array(z.array(share).nullable())
          .length(12)
          .meta({
            unit: '1',
            title: `of each month the clearness that such shares of its days stay below, ${MONTHS}`,
          }),
      })
      .optional()
      .meta({ title: 'how the clearness of days spreads, as learned from a record' }),
    air_degC: months(z.number().min(-90).max(400), 'degC', 'mean air temperature'),
    air_range_K: months(z.number().min(0).max(40), 'K', 'mean range of the air from night to day').meta({
      unit: 'K',
      title: `mean range of the air from night to day, ${MONTHS}; by the light of the days where not given`,
    }),
    snow_days: months(z.number().min(0).max(31), '1', 'days with snow lying').meta({
      unit: '1',
      title: `days with snow lying, ${MONTHS}; none where not given`,
    }),
    distribution: z.enum(DISTRIBUTIONS).optional().meta({
      title: 'published spread of the days about their mean; both, and what they differ, where not given',
    }),
    persistence: z
      .strictObject({
        daily: z.number().min(0).max(0.97).meta({
          unit: '1',
          title: 'correlation of the part that lasts, from one day to the next',
        }),
        lasting: share.meta({ unit: '1', title: 'share of the variance that lasts' }),
        winter: z
          .number()
          .min(0)
          .max(0.3)
          .meta({ unit: '1', title: 'share of the variance that all days of a winter have in common' }),
      })
      .default(USUAL_PERSISTENCE)
      .meta({
        title: 'how days follow each other',
        assumption: 'that of a maritime place at 57.7 N, from twelve winters',
      }),
    learned_winters: z.int().min(1).max(1000).optional().meta({
      title: 'winters of the record it was learned from',
    }),
    learned_from: z.string().optional().meta({ title: 'what it was learned from, in words' }),
  })
  .meta({ title: 'what is known of the months, to make winters from' });

export type ClimateSection = z.output<typeof climateSchema>;
