import type { CellSection } from './schema.ts';

/** Open-circuit volts of one junction in full sun, crystalline to amorphous silicon. */
const JUNCTION_V = [0.4, 1] as const;
/** Short-circuit current of a square centimetre in full sun: poor to the best of silicon. */
const CURRENT_MA_CM2 = [5, 45] as const;

/**
 * What makes the datasheet values of a cell unlikely: volts of a junction, current of an area. Sentences for a maker.
 *
 * in: section, as the schema gives it, library part merged in
 * valid: silicon; bounds from memory
 */
export function doubtfulCell(section: CellSection): string[] {
  const { open_circuit_V, short_circuit_mA, cells_in_series, area_cm2 } = section;
  if (section.raw !== undefined) return [];
  const doubts: string[] = [];
  if (open_circuit_V !== undefined) {
    const each_V = open_circuit_V / cells_in_series;
    if (each_V < JUNCTION_V[0] || each_V > JUNCTION_V[1]) {
      doubts.push(
        `Is cells_in_series right? ${open_circuit_V} V over ${cells_in_series} junctions is ${each_V.toFixed(2)} V each; silicon has ${JUNCTION_V[0]} to ${JUNCTION_V[1]} V.`,
      );
    }
  }
  if (short_circuit_mA !== undefined && area_cm2 !== undefined) {
    // Junctions in series share the area between them.
    const each_mA_cm2 = (short_circuit_mA * cells_in_series) / area_cm2;
    if (each_mA_cm2 < CURRENT_MA_CM2[0] || each_mA_cm2 > CURRENT_MA_CM2[1]) {
      doubts.push(
        `Are short_circuit_mA and area_cm2 right? ${short_circuit_mA} mA from ${cells_in_series} junctions on ${area_cm2} cm2 is ${each_mA_cm2.toPrecision(2)} mA from each square centimetre; silicon gives ${CURRENT_MA_CM2[0]} to ${CURRENT_MA_CM2[1]} in full sun.`,
      );
    }
  }
  return doubts;
}
