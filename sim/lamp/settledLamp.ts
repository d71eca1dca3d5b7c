import { fitLamp } from './fitLamp.ts';
import type { LampSection } from './schema.ts';

/**
 * A lamp with what its readings gave written in place of them, so that a single value of it can be changed.
 *
 * in: section, one lamp of the scenario whose readings draw no problem
 * out: the same lamp without readings; the section itself where it has none
 */
export function settledLamp(section: LampSection): LampSection {
  const fits = fitLamp(section, () => {});
  if (Object.keys(fits).length === 0) return section;
  const { readings: _cell, ...cell } = section.cell;
  const { readings: _diode, ...diode } = section.diode;
  const { readings: _capacitor, ...capacitor } = section.capacitor;
  const { readings: _driver, ...driver } = section.driver;
  const { readings: _led, ...led } = section.led;
  const { readings: _jar, ...jar } = section.jar;
  return {
    ...section,
    cell: { ...cell, ...fits.cell?.keys },
    diode: { ...diode, ...fits.diode?.keys },
    capacitor: { ...capacitor, ...fits.capacitor?.keys },
    driver: { ...driver, ...fits.driver?.keys } as LampSection['driver'],
    led: { ...led, ...fits.led?.keys },
    jar: { ...jar, ...fits.jar?.keys },
  };
}
