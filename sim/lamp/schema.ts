import * as z from 'zod';
import { capacitorSchema } from './capacitor/schema.ts';
import { cellSchema } from './cell/schema.ts';
import { diodeSchema } from './diode/schema.ts';
import { driverSchema } from './driver/schema.ts';
import { jarSchema } from './jar/schema.ts';
import { ledSchema } from './led/schema.ts';
import { scheduleSchema } from './schedule/schema.ts';

/** One lamp of the scenario, its parts already merged with the parts library. */
export const lampSchema = z.strictObject({
  cell: cellSchema.meta({ title: 'solar cell' }),
  diode: diodeSchema.meta({ title: 'blocking diode between cell and capacitor' }),
  capacitor: capacitorSchema.meta({ title: 'bank of supercapacitors' }),
  driver: driverSchema.meta({ title: 'driver between capacitor and LED' }),
  led: ledSchema.meta({ title: 'LED' }),
  jar: jarSchema.prefault({}).meta({ title: 'jar, as a heat capacitor' }),
  schedule: scheduleSchema.meta({ title: 'when the lamp tries to shine' }),
});

export type LampSection = z.infer<typeof lampSchema>;

/** A lamp without bench readings, or with what they gave in place of them. */
export type SettledSection = { [Part in keyof LampSection]: LampSection[Part] & { readings?: never } };
