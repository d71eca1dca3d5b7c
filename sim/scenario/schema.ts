import * as z from 'zod';
import { climateSchema } from '../climate/schema.ts';
import { visibleText } from '../common/visibleText.ts';
import { promiseSchema } from '../lamp/schedule/schema.ts';
import { type LampSection, lampSchema } from '../lamp/schema.ts';
import { spotSchema } from '../spot/schema.ts';
import { siteSchema } from '../sun/Site.ts';
import { weatherSchema } from '../weather/schema.ts';

/** Safe as the name of a folder, and read without a flag, so that editors take it from the JSON Schema as it is. */
const SAFE = /^(?![\s._-])(?:(?![<>:"/\\|?*])[ -~\u00a0-\uffff]){1,64}(?<![\s.])$/;
/** The same, and no digit first: a map whose keys are numbers would lose their order. */
const SAFE_KEY = /^(?![\s\d._-])(?:(?![<>:"/\\|?*])[ -~\u00a0-\uffff]){1,64}(?<![\s.])$/;

/** Halves of pairs cannot be written to a file. */
export const nameKey = z
  .string()
  .regex(SAFE_KEY)
  .refine((name) => !/\p{Cs}/u.test(name));

/** What prices are in: shown, never converted. */
export const currencySchema = z
  .string()
  .regex(/^[^\s\d<>&"]{1,12}$/)
  .refine(isSeen)
  .meta({ title: 'what prices are in, one word such as EUR; nothing is converted' });

function isSeen(name: string): boolean {
  return visibleText(name) === name;
}

/** Its keys are those of the lamp's sections: what is below them, `choicesOf` checks. */
const section = z.record(z.string(), z.unknown()).optional();

const choicesSchema = z
  .strictObject({
    spot: z.unknown().optional(),
    stand: section,
    ...(Object.fromEntries(Object.keys(lampSchema.shape).map((key) => [key, section])) as {
      [Section in keyof LampSection]: typeof section;
    }),
  })
  .meta({
    title:
      'what may be bought or set, for size: each key takes a value, a list, or a range such as 100..1000 by E6',
  });

/** A whole scenario, its parts already merged with the parts library. */
export const scenarioSchema = z
  .strictObject({
    format: z.literal(1).meta({ title: 'version of the way scenarios are written' }),
    name: z
      .string()
      .regex(SAFE)
      .refine(isSeen, { error: 'expected a name all of whose signs are seen, for the folder is called so' })
      .optional()
      .meta({
        title:
          'name of the scenario and of its folder under out/: up to 64 characters fit for a folder; the file name where not given',
      }),
    seed: z.int().min(0).max(4_294_967_295).default(1).meta({
      title: 'start of every random draw',
      assumption: 'any whole number will do',
    }),
    site: siteSchema,
    weather: weatherSchema
      .extend({ file: weatherSchema.shape.file.optional(), climate: climateSchema.optional() })
      .meta({ title: 'the weather the lamp lives through: a file, a climate to make winters from, or both' })
      .optional(),
    start: z
      .union([
        z.enum(['cyclic', 'lead-in']),
        z.strictObject({
          capacitor_V: z
            .number()
            .min(0)
            .max(100)
            .meta({ unit: 'V', title: 'capacitor voltage at the first hour' }),
        }),
      ])
      .default('cyclic')
      .meta({
        title: 'cyclic, lead-in (the first weeks of the record gone through before), or { capacitor_V: ... }',
        assumption:
          'a record of whole years is repeated until the capacitor at its end meets its start; of any other the first weeks are gone through before',
      }),
    parts: z
      .strictObject({ file: z.string().min(1).meta({ title: 'the file, relative to this one' }) })
      .optional()
      .meta({ title: 'own parts beside those of the parts library' }),
    currency: currencySchema.optional(),
    promise: promiseSchema.meta({ title: 'what counts as a good night' }),
    spots: z.record(nameKey, spotSchema).meta({ title: 'places in the garden, by name' }),
    lamps: z.record(nameKey, lampSchema).meta({ title: 'lamps, by name; each is tried in every spot' }),
    choices: choicesSchema.optional(),
    $schema: z.string().optional().meta({ title: 'address of the schema, for editors alone' }),
  })
  .meta({ title: 'a scenario of the solar lamp simulator' });

export type ScenarioValue = z.output<typeof scenarioSchema>;
