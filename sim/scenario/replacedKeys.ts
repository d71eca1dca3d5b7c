import type { PartKind } from './parts.ts';

/** Keys that, where they are given, take the place of others of the same part: those then have no effect. */
export const REPLACED_KEYS: Readonly<Record<PartKind, Readonly<Record<string, readonly string[]>>>> = {
  cell: {
    raw: [
      'readings',
      'short_circuit_mA',
      'open_circuit_V',
      'best_current_mA',
      'best_voltage_V',
      'shunt_V',
      'low_light_point',
    ],
    low_light_point: ['shunt_V'],
  },
  diode: {
    switch_on_ohm: ['raw', 'readings', 'forward_drop', 'ideality', 'barrier_eV'],
    raw: ['readings', 'forward_drop', 'ideality', 'series_ohm'],
  },
  capacitor: {
    raw: [
      'readings',
      'capacitance_F',
      'esr_mohm',
      'capacitance_rise',
      'delayed_share',
      'delayed_hours',
      'leakage_uA',
      'leakage_rest_h',
      'leakage_law',
      'leakage_e_fold_V',
      'leakage_doubling_K',
    ],
  },
  driver: {},
  led: { raw: ['readings', 'table'] },
  jar: { fixed_degC: ['readings', 'rise_K_full_sun', 'time_constant_min'] },
  cover: { raw: ['refractive_index', 'absorption_per_m', 'thickness_mm'] },
};
