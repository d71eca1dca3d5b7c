/** A constant with its unit and the key of its source in SOURCES.md. */
export interface Constant {
  value: number;
  unit: string;
  source: string;
}

/** Physical constants used anywhere in the simulator. Keys of sources resolve in SOURCES.md. */
export const CONSTANTS = {
  boltzmann: { value: 1.380649e-23, unit: 'J/K', source: 'SI2019' },
  elementaryCharge: { value: 1.602176634e-19, unit: 'C', source: 'SI2019' },
  zeroCelsius: { value: 273.15, unit: 'K', source: 'SI2019' },
  solarConstant: { value: 1361.1, unit: 'W/m2', source: 'Gueymard2018' },
  standardTemperature: { value: 25, unit: 'degC', source: 'IEC60904' },
  fullSun: { value: 1000, unit: 'W/m2', source: 'IEC60904' },
} as const satisfies Record<string, Constant>;

/** Thermal voltage kT/q in volts per kelvin: multiply by the absolute temperature. */
export const THERMAL_VOLTAGE_V_PER_K = CONSTANTS.boltzmann.value / CONSTANTS.elementaryCharge.value;

export const KELVIN_AT_ZERO_CELSIUS = CONSTANTS.zeroCelsius.value;
export const STANDARD_TEMPERATURE_DEG_C = CONSTANTS.standardTemperature.value;
export const FULL_SUN_W_M2 = CONSTANTS.fullSun.value;
/** Radians in a degree. */
export const RADIANS = Math.PI / 180;

/** Thermal voltage kT/q at a temperature in degrees Celsius, volts; at 25 degC unless stated. */
export function thermalVoltage_V(temperature_degC: number = STANDARD_TEMPERATURE_DEG_C): number {
  return THERMAL_VOLTAGE_V_PER_K * (temperature_degC + KELVIN_AT_ZERO_CELSIUS);
}
