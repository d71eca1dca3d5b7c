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

/** The value alone: of a call that is marked so, a bundle that does not need it takes nothing along. */
const valueFor = (key: keyof typeof CONSTANTS): number => CONSTANTS[key].value;

const thermalPerKelvin = (): number => valueFor('boltzmann') / valueFor('elementaryCharge');

/** Thermal voltage kT/q in volts per kelvin: multiply by the absolute temperature. */
export const THERMAL_VOLTAGE_V_PER_K = /* @__PURE__ */ thermalPerKelvin();

export const KELVIN_AT_ZERO_CELSIUS = /* @__PURE__ */ valueFor('zeroCelsius');
export const STANDARD_TEMPERATURE_DEG_C = /* @__PURE__ */ valueFor('standardTemperature');
export const FULL_SUN_W_M2 = /* @__PURE__ */ valueFor('fullSun');
/** Radians in a degree. */
export const RADIANS = Math.PI / 180;

/** Thermal voltage kT/q at a temperature in degrees Celsius, volts; at 25 degC unless stated. */
export function thermalVoltage_V(temperature_degC: number = STANDARD_TEMPERATURE_DEG_C): number {
  return THERMAL_VOLTAGE_V_PER_K * (temperature_degC + KELVIN_AT_ZERO_CELSIUS);
}
