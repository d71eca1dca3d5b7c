import type { ClimateAnswer } from './climateText.ts';
import { jsonText, published } from './json.ts';
import type { Program } from './program.ts';

/**
 * The text of what `climate --json` prints, schema 1: what was learned, under the keys of a climate file, how well it
 * foretells the record's own winters, and the break in the record. Keys in a fixed order.
 *
 * in: answer; program, what made it
 * out: JSON text, ending in LF
 */
export function climateJson({ section, heldOut, southern, broken }: ClimateAnswer, program: Program): string {
  return jsonText(program, {
    section,
    held_out: {
      splits: heldOut.splits,
      figures: heldOut.figures.map(({ what, recorded, made, held, tried }) =>
        published({ what, recorded_kWh_m2_day: recorded, made_kWh_m2_day: made, held, tried }, 6),
      ),
    },
    southern,
    broken,
  });
}
