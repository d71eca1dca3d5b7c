/** What an editor tells of a key beside what it is. */
export interface KeyGuide {
  /** What most lamps and gardens have. */
  typical?: string;
  /** How it comes to be known: what to read, and how. */
  read?: string;
}

/**
 * What values are usual for a key of a scenario, and how to come to its own. Common practice and values from memory, no
 * source; what a default rests on stands with the key itself.
 *
 * in: path, keys from the root of a scenario's schema; names of spots, lamps and obstacles as '*', a row of a list as '[]'
 * out: its guide; undefined where its title says all
 */
export function keyGuide(path: readonly string[]): KeyGuide | undefined {
  const [first, ...rest] = path.filter((step) => step !== '*' && step !== '[]');
  const key = ['lamps', 'spots', 'choices'].includes(first ?? '') ? rest : [first, ...rest];
  return GUIDES[(key[0] === 'stand' ? key.slice(1) : key).join('.')];
}

const SUN_SHORT = 'ammeter alone across the cell, square to full sun';
const SUN_OPEN = 'voltmeter alone on the cell in full sun, the cell still cool';
const SUPPLY = 'a bench supply in place of the capacitor, its current limited';

/** Section and key; keys of a spot by themselves. */
const GUIDES: Readonly<Record<string, KeyGuide>> = {
  'site.latitude_deg': { read: 'from any map, to a hundredth of a degree; south is negative' },
  'site.longitude_deg': { read: 'from any map, to a hundredth of a degree; west is negative' },
  'site.elevation_m': { typical: '0 to 500', read: 'from any map' },
  'site.albedo': {
    typical: '0.2 over grass, 0.25 over pale gravel, 0.6 and more over snow',
    read: 'lux with the meter facing down over lux facing up, at a metre, on an evenly dull day',
  },
  'promise.hours': { typical: '4 to 8' },
  'promise.least_lumen': {
    typical: '0.3 to 3: a candle gives about 12',
    read: 'the level at which you would call the lamp dark, with the dimmer of a lamp whose lumens are known',
  },
  'promise.tolerance_h': { typical: '0.25 to 0.5' },
  'start.capacitor_V': { read: 'voltmeter on the capacitor at dusk of the first day' },

  cell_tilt_deg: {
    typical: '0 under a flat lid, 45 to 70 towards the equator for winter',
    read: 'a protractor with a plumb line',
  },
  cell_bearing_deg: {
    typical: '180 (south), 0 south of the equator',
    read: 'a compass, its declination added',
  },
  cell_height_m: { typical: '0.1 to 0.5' },
  cell_front: {
    read: 'smooth glass or resin is flat; a grain that scatters a lamp is textured; a blue or violet sheen at a slant is coated',
  },
  'cover.refractive_index': { typical: '1.52 glass, 1.49 acrylic, 1.5 resin' },
  'cover.absorption_per_m': {
    typical: '4 clear glass, 30 green bottle glass',
    read: 'short circuit of the cell square to a steady sun, with the lid over it and without',
  },
  'cover.thickness_mm': { typical: '2 to 5', read: 'a calliper' },
  'cover.inner_width_mm': { typical: '70 to 110', read: 'a rule across the open jar' },
  'cover.cell_below_lid_mm': { typical: '10 to 60', read: 'a rule from lid to cell' },
  'cover.dirt_loss': {
    typical: '0.03 to 0.1 where nobody wipes it',
    read: 'short circuit of the cell under the lid in steady sun, then at once with the lid wiped: the share that was missing',
  },
  'cover.dirt_percent_year': { typical: '2 to 8' },
  'cover.yellowing_percent_year': { typical: '0 glass, 1 to 2 resin or plastic' },
  'horizon.reflectance': { typical: '0.8 white paint, 0.3 brick, 0.2 leaves' },
  'obstacles.bearing_deg': { read: 'a compass from the spot to its middle' },
  'obstacles.distance_m': { read: 'paces or a tape, from the spot to its middle' },
  'obstacles.height_m': {
    read: 'a protractor with a plumb line: the distance times the tangent of the angle to its top, and your eye height',
  },
  'obstacles.width_m': { read: 'paces along it' },
  'obstacles.depth_m': { typical: '0.5 to 1 a hedge, 7 to 10 a house' },
  'obstacles.ridge_height_m': { typical: '6 to 9' },
  'obstacles.eaves_m': { typical: '0.3 to 0.6' },
  'obstacles.reflectance': { typical: '0.8 white paint, 0.3 brick, 0.2 leaves' },
  'obstacles.transmittance': {
    typical: '0.02 to 0.1 a clipped hedge, 0.05 to 0.2 a tree in leaf',
    read: 'lux behind or under it over lux in the open, within a minute, on an evenly dull day',
  },
  'obstacles.bare_transmittance': {
    typical: '0.4 to 0.7 a bare tree',
    read: 'lux behind or under it over lux in the open, within a minute, on an evenly dull day in winter',
  },
  'obstacles.openness': { typical: '0.1 to 0.5', read: 'width of a gap over a board and a gap' },
  'obstacles.trunk_width_m': { typical: '0.2 to 0.5' },
  'obstacles.crown_base_m': { typical: '1.5 to 3' },
  'obstacles.crown_top_m': { typical: '4 to 12' },
  'obstacles.crown_width_m': { typical: '3 to 8', read: 'paces from edge to edge under it' },
  'snow.ground_albedo': { typical: '0.4 old snow to 0.85 fresh' },
  'shading.factor': {
    typical: '0.3 to 0.8 under a tree',
    read: 'lux at the spot over lux in the open, within a minute, on an evenly dull day',
  },
  night_light_lux: { typical: '1 to 10 near a street lamp', read: 'lux on the lid at midnight' },
  'measured_light.lumen_per_W': { typical: '105 to 120' },

  'cell.short_circuit_mA': { typical: '50 to 500', read: SUN_SHORT },
  'cell.open_circuit_V': { typical: '0.55 to 0.6 for each junction in series', read: SUN_OPEN },
  'cell.best_current_mA': { typical: '0.85 to 0.93 of the short-circuit current' },
  'cell.best_voltage_V': { typical: '0.78 to 0.84 of the open-circuit voltage' },
  'cell.cells_in_series': {
    typical: '4 to 10',
    read: 'count the stripes; else the open-circuit voltage over 0.58 V',
  },
  'cell.current_tempco_percent_K': { typical: '0.03 to 0.06' },
  'cell.voltage_tempco_mV_K': {
    typical: '-2.3 to -1.9 for each junction',
    read: 'open circuit in full sun, cell cold and cell warm, a thermometer on its back: millivolts over kelvins, by the junctions in series',
  },
  'cell.shunt_V': {
    typical: '200 plain crystalline cells, 1000 and more those made for dim light',
    read: 'open circuit in the shade at a known light (low_light_point) tells it best',
  },
  'cell.low_light_point.irradiance_W_m2': {
    typical: '5 to 30: a dull day in December, or a window',
    read: 'the short-circuit current there over that of full sun, times 1000',
  },
  'cell.low_light_point.open_circuit_V': { read: 'voltmeter alone on the cell in that light' },
  'cell.area_cm2': { typical: '20 to 100', read: 'a rule, dark edges and stripes included' },
  'cell.decline_percent_year': { typical: '0.3 to 1' },
  'cell.parallel': { typical: '1 or 2' },
  'cell.series': { typical: '1' },

  'diode.ideality': { typical: '1.02 to 1.1 Schottky, 1.5 to 2 silicon junction' },
  'diode.series_ohm': { typical: '0.03 to 0.3' },
  'diode.switch_on_ohm': { typical: '0.05 to 0.3' },
  'diode.forward_drop.current_mA': { typical: '1 to 100', read: 'ammeter in series with it' },
  'diode.forward_drop.drop_V': {
    typical: '0.15 to 0.35 Schottky, 0.6 to 0.75 silicon junction',
    read: 'voltmeter across it while that current flows',
  },
  'diode.reverse_leakage_uA': {
    typical: '1 to 50 Schottky, below 0.1 silicon junction',
    read: '2 V the wrong way through 10 kohm: 10 mV across the resistor are 1 uA',
  },
  'diode.barrier_eV': {
    typical: '0.6 to 0.75 Schottky, 1.11 silicon junction',
    read: 'forward drop at a few milliamperes, in the room and again in the refrigerator',
  },
  'diode.reverse_voltage_V': { typical: '2, about a full capacitor before a dark cell' },
  'diode.reverse_doubling_K': { typical: '8 to 12' },

  'capacitor.capacitance_F': {
    typical: '50 to 700',
    read: 'a timed discharge through a known resistor from 0.8 to 0.4 of the rated voltage: seconds over ohms and 0.693',
  },
  'capacitor.rated_V': { typical: '2.5 to 3.0; lithium hybrids 3.8', read: 'printed on the can' },
  'capacitor.lowest_V': { typical: '0; lithium hybrids 2.2 to 2.5' },
  'capacitor.esr_mohm': {
    typical: '1 to 30 at some 100 F, 100 and more at a few farad',
    read: 'a known resistor of a few ohms across the full capacitor: volts of the step over amperes',
  },
  'capacitor.esr_factor_minus20': {
    typical: '1.3 to 3',
    read: 'a known resistor of a few ohms across the full capacitor, after some hours at -20 degC and again in the room',
  },
  'capacitor.esr_factor_minus40': { typical: '2 to 10' },
  'capacitor.lowest_degC': { typical: '-40; many lithium hybrids -20 or -15' },
  'capacitor.capacitance_rise': {
    typical: '0.1 to 0.3',
    read: 'two timed discharges, over the upper and over the lower half of the voltage: the same resistor, stopwatch',
  },
  'capacitor.delayed_share': {
    typical: '0.05 to 0.15',
    read: 'filled within some minutes from empty, then nothing connected: read it after 1 h, 8 h and 72 h',
  },
  'capacitor.delayed_hours': {
    typical: '1 to 10',
    read: 'filled within some minutes from empty, then nothing connected: read it every hour',
  },
  'capacitor.leakage_uA': {
    typical: '50 to 500 at some 100 F in datasheets, often less when measured',
    read: 'held full for three days, then nothing connected: farad times the volts lost in a day over 86400 s',
  },
  'capacitor.leakage_e_fold_V': { typical: '0.2 to 0.5' },
  'capacitor.leakage_rest_h': { typical: '72', read: 'in the datasheet, beside the leakage' },
  'capacitor.leakage_doubling_K': {
    typical: '8 to 15',
    read: 'three days at rest in the refrigerator after 8 h held full in the room, beside the same at room temperature',
  },
  'capacitor.parallel': { typical: '1 or 2' },
  'capacitor.series': { typical: '1; 2 where the driver needs more volts, then with balancing' },
  'capacitor.balancing_kohm': { typical: '0.5 to 10' },
  'capacitor.limiter.at_V': {
    typical: '0.1 to 0.3 below the rated voltage of the bank',
    read: 'a supply in place of the cell, turned up slowly: where the current begins to rise',
  },
  'capacitor.limiter.slope_ohm': { typical: '0.05 to 1' },
  'capacitor.price_per_F': { typical: '0.005 to 0.03 EUR' },
  'capacitor.life.hours': { typical: '1000 to 2000', read: 'in the datasheet, beside its temperature' },
  'capacitor.life.at_degC': { typical: '65 or 70; 85 for some' },
  'capacitor.life.at_V': { typical: 'the rated voltage' },

  'driver.power_mW': { typical: '5 to 60', read: `${SUPPLY}: volts times milliamperes` },
  'driver.table.capacitor_V': { typical: '0.8 to 2.7', read: `${SUPPLY}, a voltmeter at its terminals` },
  'driver.table.current_mA': { typical: '3 to 30', read: `${SUPPLY}, an ammeter in its lead` },
  'driver.efficiency.capacitor_V': { typical: '0.8 to 2.7', read: `${SUPPLY}, a voltmeter at its terminals` },
  'driver.current_mA': { typical: '3 to 30', read: `${SUPPLY}, an ammeter in its lead` },
  'driver.conductance_mS': { typical: '2 to 15', read: `${SUPPLY}: milliamperes over volts` },
  'driver.inductance_uH': { typical: '100 to 1500', read: 'printed on it, or an inductance meter' },
  'driver.frequency_kHz': {
    typical: '5 to 200',
    read: 'a meter with a frequency range, or an oscilloscope, across the switch',
  },
  'driver.duty': { typical: '0.2 to 0.9' },
  'driver.rectifier_drop_V': { typical: '0 synchronous, 0.3 Schottky' },
  'driver.current_limit_mA': { typical: '20 to 100' },
  'driver.lowest_degC': { typical: '-40 to -20', read: 'in the datasheet' },
  'driver.efficiency': {
    typical: '0.7 to 0.88',
    read: 'LED volts times milliamperes over those drawn from the supply',
  },
  'driver.cutoff_V': { typical: '0.7 to 1.0', read: `${SUPPLY}, turned down slowly: where the LED goes out` },
  'driver.restart_V': { typical: '0.05 to 0.3 V above the cut-off', read: `${SUPPLY}, turned up again` },
  'driver.standby_uA': {
    typical: '1 to 30',
    read: `${SUPPLY}, LED off, 1 kohm in its lead: millivolts across it are microamperes`,
  },
  'driver.below_cutoff_uA': {
    typical: '1 to 10',
    read: `${SUPPLY}, just below the cut-off, 1 kohm in its lead: millivolts across it are microamperes`,
  },

  'led.count': { typical: '1' },
  'led.in_series': { typical: '1' },
  'led.table': {
    read: 'lux beside an LED whose lumens are known, each in turn at the same current in a box lined with white paper, the meter shaded from straight light',
  },
  'led.table.current_mA': { typical: '1 to 20' },
  'led.table.forward_V': {
    typical: '2.6 to 3.1 white',
    read: 'voltmeter across it while that current flows',
  },
  'led.table.efficacy_lm_W': { typical: '100 to 220 white' },
  'led.life.hours': { typical: '20000 to 50000' },
  'led.life.at_mA': { typical: '20', read: 'in the datasheet, beside the hours' },
  'led.life.at_degC': { typical: '25 to 55' },
  'led.lowest_degC': { typical: '-40 to -20', read: 'in the datasheet' },

  'jar.rise_K_full_sun': {
    typical: '10 to 30',
    read: 'inside and outside temperature after an hour of full sun, both thermometers shaded',
  },
  'jar.time_constant_min': {
    typical: '10 to 60',
    read: 'inside temperature every ten minutes from when it is carried into the sun: the time to two thirds of the rise',
  },
  'jar.seal_fails_percent_year': { typical: '1 to 5' },
  'jar.fixed_degC': { typical: '20, to hold a result against the bench' },
  'schedule.hours': { typical: '4 to 8, as promised' },
  'schedule.before_dawn_h': { typical: '1 to 2' },
  'schedule.sense.night_below_V': { typical: 'a third to a half of the cell in full sun' },
  'schedule.sense.day_above_V': { typical: 'a tenth or more above the voltage of the dark' },
  'schedule.sense.night_below_lux': { typical: '5 to 30' },
  'schedule.sense.day_above_lux': { typical: 'twice the light of the dark' },
  'schedule.motion.triggers_per_h': { typical: '1 to 6' },
  'schedule.motion.shines_s': { typical: '20 to 60' },
};

/** Every key that has a guide, section and key. */
export const GUIDED_KEYS: readonly string[] = Object.keys(GUIDES);
