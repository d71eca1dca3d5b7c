import { join } from 'node:path';
import { describe, expect, it, test, vi } from 'vitest';
import { InputProblem } from '../../sim/common/InputProblem.ts';
import { visibleText } from '../../sim/common/visibleText.ts';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import { changed, load, placeOf, refused, SOUND, written } from './writeScenario.ts';

describe('loadScenario refuses, with file, line, column and key', () => {
  /** What is changed, what the place of the problem begins with, and what is said. */
  const cases: {
    title: string;
    change: [string, string][];
    at: string;
    code: string;
    field: string;
    got: string;
    expected: string;
    fix?: string;
  }[] = [
    {
      title: 'a latitude of 95',
      change: [['latitude_deg: 54', 'latitude_deg: 95']],
      at: '95',
      code: 'SCENARIO_OUT_OF_RANGE',
      field: 'site.latitude_deg',
      got: '95',
      expected: 'a number from -90 to 90 deg (latitude, north positive)',
      fix: 'check the value; it is read in deg.',
    },
    {
      title: 'a misspelt key, and names the one that was meant',
      change: [['cell_tilt_deg', 'cell_titl_deg']],
      at: 'cell_titl_deg',
      code: 'SCENARIO_UNKNOWN_KEY',
      field: 'spots.lawn.cell_titl_deg',
      got: 'the key "cell_titl_deg"',
      expected: expect.stringMatching(/^one of cell_tilt_deg, .*, light_on_cell$/),
      fix: 'did you mean "cell_tilt_deg"?',
    },
    {
      title: 'a key in another unit, and gives the converted value',
      change: [['{ part: medium-capacitor }', '{ part: medium-capacitor, capacitance_mF: 5000 }']],
      at: 'capacitance_mF',
      code: 'SCENARIO_WRONG_UNIT',
      field: 'lamps.single.capacitor.capacitance_mF',
      got: 'capacitance_mF: 5000',
      expected:
        'capacitance_F, a number from 0.001 to 100000 F (rated capacitance of one part: timed discharge from 0.8 to 0.4 of the rated voltage)',
      fix: 'write capacitance_F: 5.',
    },
    {
      title: 'a key without its unit',
      change: [['longitude_deg', 'longitude']],
      at: 'longitude:',
      code: 'SCENARIO_UNKNOWN_KEY',
      field: 'site.longitude',
      got: 'the key "longitude"',
      expected: 'one of latitude_deg, longitude_deg, elevation_m, time_zone, albedo',
      fix: 'did you mean "longitude_deg"?',
    },
    {
      title: 'a key that belongs elsewhere, and says where',
      change: [['promise:', 'capacitance_rise: 0.2\npromise:']],
      at: 'capacitance_rise',
      code: 'SCENARIO_UNKNOWN_KEY',
      field: 'capacitance_rise',
      got: 'the key "capacitance_rise"',
      expected:
        'one of format, name, seed, site, weather, start, parts, currency, promise, spots, lamps, choices, $schema',
      fix: '"capacitance_rise" belongs to lamps.<name>.capacitor.',
    },
    {
      title: 'a missing key, pointing to what lacks it',
      change: [['  longitude_deg: 10\n', '']],
      at: 'site:',
      code: 'SCENARIO_MISSING_KEY',
      field: 'site.longitude_deg',
      got: 'nothing',
      expected: 'a number from -180 to 180 deg (longitude, east positive)',
      fix: 'add longitude_deg.',
    },
    {
      title: 'a scenario that does not say its format',
      change: [['format: 1\n', '']],
      at: 'site:',
      code: 'SCENARIO_MISSING_KEY',
      field: 'format',
      got: 'nothing',
      expected: '1 (version of the way scenarios are written)',
      fix: 'add format: 1.',
    },
    {
      title: 'a key without a value',
      change: [['longitude_deg: 10', 'longitude_deg:']],
      at: 'longitude_deg',
      code: 'SCENARIO_MISSING_KEY',
      field: 'site.longitude_deg',
      got: 'no value',
      expected: 'a number from -180 to 180 deg (longitude, east positive)',
      fix: 'write its value after "longitude_deg:", or take the key away.',
    },
    {
      title: 'a datasheet value that is missing',
      change: [['{ part: medium-capacitor }', '{ rated_V: 2.7, leakage_uA: 900 }']],
      at: 'capacitor: {',
      code: 'SCENARIO_MISSING_KEY',
      field: 'lamps.single.capacitor.capacitance_F',
      got: 'nothing',
      expected: 'a datasheet value, a library part, or raw model parameters',
      fix: 'add capacitance_F, or part: medium-capacitor.',
    },
    {
      title: 'a number with a unit of something else, and lists the units that fit',
      change: [['{ part: medium-capacitor }', '{ part: medium-capacitor, rated_V: 2.5 F }']],
      at: '2.5 F',
      code: 'SCENARIO_WRONG_UNIT',
      field: 'lamps.single.capacitor.rated_V',
      got: '"2.5 F", a capacitance',
      expected: 'a voltage: a number from 0.1 to 10 V (rated voltage of one part)',
      fix: 'write it in kV, V, mV, uV; a number alone is read in V.',
    },
    {
      title: 'a number with a unit that is none, and knows it by other capitals',
      change: [['{ part: inductor-driver }', '{ part: inductor-driver, standby_uA: 5 ua }']],
      at: '5 ua',
      code: 'SCENARIO_WRONG_UNIT',
      field: 'lamps.single.driver.standby_uA',
      got: '"5 ua", in a unit that is not known',
      expected:
        'a current: a number from 0 to 1000000 uA (current drawn from the capacitor while the LED is off)',
      fix: 'for 5 uA write 5.',
    },
    {
      title: 'a comma that may part thousands, and gives both numbers in the unit of the key',
      change: [['{ part: medium-capacitor }', '{ part: medium-capacitor, rated_V: "2,500 mV" }']],
      at: '"2,500 mV"',
      code: 'SCENARIO_WRONG_TYPE',
      field: 'lamps.single.capacitor.rated_V',
      got: '"2,500 mV", whose comma may stand before decimals or part thousands',
      expected: 'a number from 0.1 to 10 V (rated voltage of one part)',
      fix: 'write 0.0025 or 2.5.',
    },
    {
      title: 'a decimal comma within braces, where it ends the value',
      change: [['{ part: medium-capacitor }', '{ part: medium-capacitor, rated_V: 2,5 V }']],
      at: '5 V }',
      code: 'SCENARIO_UNKNOWN_KEY',
      field: 'lamps.single.capacitor.5 V',
      got: 'the key "5 V"',
      expected: expect.stringMatching(/^one of part, /),
      fix: 'a comma within { } ends the value before it: write rated_V: 2.5 V.',
    },
    {
      title: 'a decimal comma within braces of a number alone',
      change: [['{ part: medium-capacitor }', '{ part: medium-capacitor, rated_V: 2,5 }']],
      at: '5 }\n    driver',
      code: 'SCENARIO_UNKNOWN_KEY',
      field: 'lamps.single.capacitor.5',
      got: 'the key "5"',
      expected: expect.stringMatching(/^one of part, /),
      fix: 'a comma within { } ends the value before it: write a point, as in 1.8.',
    },
    {
      title: 'a number with a unit that is out of range when converted',
      change: [['latitude_deg: 54', 'latitude_deg: 2 rad']],
      at: '2 rad',
      code: 'SCENARIO_OUT_OF_RANGE',
      field: 'site.latitude_deg',
      got: '"2 rad", which is 114.591559026',
      expected: 'a number from -90 to 90 deg (latitude, north positive)',
      fix: 'check the value; it is read in deg.',
    },
    {
      title: 'a latitude of the south with its letter, and gives it with its sign',
      change: [['latitude_deg: 54', 'latitude_deg: 34.5° S']],
      at: '34.5° S',
      code: 'SCENARIO_WRONG_UNIT',
      field: 'site.latitude_deg',
      got: '"34.5° S", in a unit that is not known',
      expected: 'an angle: a number from -90 to 90 deg (latitude, north positive)',
      fix: 'write -34.5; north and east are positive.',
    },
    {
      title: 'a key in another unit whose value has a unit too, and gives the converted value',
      change: [['    cell_tilt_deg: 10', '    cell_height_cm: 150mm\n    cell_tilt_deg: 10']],
      at: 'cell_height_cm',
      code: 'SCENARIO_WRONG_UNIT',
      field: 'spots.lawn.cell_height_cm',
      got: 'cell_height_cm: 150mm',
      expected:
        'cell_height_m, a number from 0 to 100 m (height of the cell above the ground, for what obstacles hide; 0.15 where not given)',
      fix: 'write cell_height_m: 0.15.',
    },
    {
      title: 'a count with a unit',
      change: [['{ part: small-cell }', '{ part: small-cell, parallel: 2 pcs }']],
      at: '2 pcs',
      code: 'SCENARIO_WRONG_UNIT',
      field: 'lamps.single.cell.parallel',
      got: '"2 pcs", with a unit',
      expected: 'a whole number from 1 to 100 (cells in parallel)',
      fix: 'write the number alone: 2.',
    },
    {
      title: 'two numbers where one is wanted',
      change: [['latitude_deg: 54', 'latitude_deg: 54 1/2']],
      at: '54 1/2',
      code: 'SCENARIO_WRONG_TYPE',
      field: 'site.latitude_deg',
      got: '"54 1/2"',
      expected: 'a number from -90 to 90 deg (latitude, north positive)',
      fix: 'write one number in deg, or with another unit.',
    },
    {
      title: 'half a cell',
      change: [['{ part: small-cell }', '{ part: small-cell, parallel: 1.5 }']],
      at: '1.5',
      code: 'SCENARIO_WRONG_TYPE',
      field: 'lamps.single.cell.parallel',
      got: '1.5',
      expected: 'a whole number from 1 to 100 (cells in parallel)',
    },
    {
      title: 'a time zone that is none',
      change: [['Europe/Berlin', 'Garden/Shed']],
      at: 'Garden/Shed',
      code: 'SCENARIO_WRONG_TYPE',
      field: 'site.time_zone',
      got: '"Garden/Shed"',
      expected: 'a time zone by its IANA name, such as Europe/Berlin',
    },
    {
      title: 'a clock time that is none',
      change: [['{ on: dusk, hours: 8 }', '{ on: "25:00", hours: 8 }']],
      at: '"25:00"',
      code: 'SCENARIO_WRONG_TYPE',
      field: 'lamps.single.schedule.on',
      got: '"25:00"',
      expected: expect.stringMatching(/^when it switches on: dusk, .* civil time such as '18:30'$/),
    },
    {
      title: 'a choice that is none, and names the nearest',
      change: [['marks: start', 'marks: strat']],
      at: 'strat',
      code: 'SCENARIO_OUT_OF_RANGE',
      field: 'weather.stamp.marks',
      got: '"strat"',
      expected: 'one of start, middle, end (which instant of its hour a stamp marks)',
      fix: 'did you mean "start"?',
    },
    {
      title: 'an unknown part, and lists those there are, nearest first',
      change: [['small-cell', 'poor-cel']],
      at: 'poor-cel',
      code: 'SCENARIO_UNKNOWN_PART',
      field: 'lamps.single.cell.part',
      got: '"poor-cel"',
      expected: 'a cell of the parts library: poor-cell, small-cell, good-cell',
      fix: 'did you mean "poor-cell"?',
    },
    {
      title: 'a part under the wrong key',
      change: [['{ part: small-cell }', '{ part: inductor-driver }']],
      at: 'inductor-driver }\n    diode',
      code: 'SCENARIO_UNKNOWN_PART',
      field: 'lamps.single.cell.part',
      got: '"inductor-driver", which is a driver',
      expected: 'a cell of the parts library: small-cell, poor-cell, good-cell',
      fix: 'name one of these, or give its values.',
    },
    {
      title: 'a kind of driver that is none',
      change: [['{ part: inductor-driver }', '{ kind: bost, inductance_uH: 800 }']],
      at: 'bost',
      code: 'SCENARIO_OUT_OF_RANGE',
      field: 'lamps.single.driver.kind',
      got: '"bost"',
      expected: 'one of power, current, conductance, boost, table (driver between capacitor and LED)',
      fix: 'did you mean "boost"?',
    },
    {
      title: 'a driver without a kind',
      change: [['{ part: inductor-driver }', '{ inductance_uH: 800 }']],
      at: 'driver: {',
      code: 'SCENARIO_MISSING_KEY',
      field: 'lamps.single.driver.kind',
      got: 'nothing',
      expected: 'one of power, current, conductance, boost, table (driver between capacitor and LED)',
      fix: 'add kind.',
    },
    {
      title: 'a kind of driver that its part is not',
      change: [['{ part: inductor-driver }', '{ kind: power, part: inductor-driver, power_mW: 9 }']],
      at: 'power, part',
      code: 'SCENARIO_CONFLICT',
      field: 'lamps.single.driver.kind',
      got: 'kind power with part inductor-driver',
      expected: 'kind boost, which that part is',
      fix: 'take kind or part away.',
    },
    {
      title: 'a key of another kind of driver',
      change: [['{ part: inductor-driver }', '{ part: inductor-driver, conductance_mS: 9 }']],
      at: 'conductance_mS',
      code: 'SCENARIO_UNKNOWN_KEY',
      field: 'lamps.single.driver.conductance_mS',
      got: 'the key "conductance_mS"',
      expected: expect.stringMatching(/^one of kind, inductance_uH, .*, below_cutoff_uA$/),
      fix: '"conductance_mS" belongs to kind: conductance.',
    },
    {
      title: 'an efficiency above one',
      change: [['{ part: inductor-driver }', '{ part: inductor-driver, efficiency: 1.2 }']],
      at: '1.2',
      code: 'SCENARIO_OUT_OF_RANGE',
      field: 'lamps.single.driver.efficiency',
      got: '1.2',
      expected:
        'a number from 0.001 to 1, or a list of 1 or more (LED power over power drawn, a number or a table against the capacitor voltage)',
      fix: 'check the value.',
    },
    {
      title: 'a row of a table that lacks a value',
      change: [['{ part: inductor-driver }', '{ part: inductor-driver, efficiency: [{ capacitor_V: 1 }] }']],
      at: '{ capacitor_V: 1 }',
      code: 'SCENARIO_MISSING_KEY',
      field: 'lamps.single.driver.efficiency.0.efficiency',
      got: 'nothing',
      expected: 'a number from 0.001 to 1 (LED power over power drawn)',
      fix: 'add efficiency.',
    },
    {
      title: 'a start that is none',
      change: [['promise:', 'start: { capacitor_mV: 1500 }\npromise:']],
      at: 'capacitor_mV',
      code: 'SCENARIO_WRONG_UNIT',
      field: 'start.capacitor_mV',
      got: 'capacitor_mV: 1500',
      expected: 'capacitor_V, a number from 0 to 100 V (capacitor voltage at the first hour)',
      fix: 'write capacitor_V: 1.5.',
    },
    {
      title: 'a schedule with two ends',
      change: [['{ on: dusk, hours: 8 }', '{ on: dusk, hours: 8, until: dawn }']],
      at: 'dawn }',
      code: 'SCENARIO_CONFLICT',
      field: 'lamps.single.schedule.until',
      got: 'both hours: 8 and until: dawn',
      expected: 'one of them',
      fix: 'take one away.',
    },
    {
      title: 'a schedule without an end',
      change: [['{ on: dusk, hours: 8 }', '{ on: dusk }']],
      at: 'schedule:',
      code: 'SCENARIO_MISSING_KEY',
      field: 'lamps.single.schedule.hours',
      got: 'neither hours nor until',
      expected: 'how long or until when',
      fix: 'add hours: 6, or until: dawn.',
    },
    {
      title: 'a promise with two ends',
      change: [['hours: 6,', 'hours: 6, until: "23:00",']],
      at: '"23:00"',
      code: 'SCENARIO_CONFLICT',
      field: 'promise.until',
      got: 'both hours: 6 and until: 23:00',
      expected: 'one of them',
      fix: 'take one away.',
    },
    {
      title: 'a promise without an end',
      change: [['hours: 6, ', '']],
      at: 'promise:',
      code: 'SCENARIO_MISSING_KEY',
      field: 'promise.hours',
      got: 'neither hours nor until',
      expected: 'how long or until when',
      fix: 'add hours: 6, or until: dawn.',
    },
    {
      title: 'no spot at all',
      change: [['spots:\n  lawn:\n    cell_tilt_deg: 10\n    cell_bearing_deg: 180\n', 'spots: {}\n']],
      at: 'spots:',
      code: 'SCENARIO_MISSING_KEY',
      field: 'spots',
      got: 'an empty map',
      expected: 'at least one entry under spots',
      fix: 'add one, as in lawn: { cell_tilt_deg: 0 }.',
    },
    {
      title: 'a name that cannot be one',
      change: [['  lawn:', '  ../lawn:']],
      at: '../lawn',
      code: 'SCENARIO_WRONG_TYPE',
      field: 'spots.../lawn',
      got: 'the name "../lawn"',
      expected: 'a name that begins with a letter, without < > : " / \\ | ? *, of 64 characters at most',
      fix: 'choose a name such as north-side.',
    },
    {
      title: 'a name with half of a pair, which no file can hold',
      change: [['  lawn:', '  "la\\ud800wn":']],
      at: '"la\\ud800wn"',
      code: 'SCENARIO_WRONG_TYPE',
      field: 'spots.la\ud800wn',
      got: 'the name "la\ud800wn"',
      expected: 'a name that begins with a letter, without < > : " / \\ | ? *, of 64 characters at most',
      fix: 'choose a name such as north-side.',
    },
    {
      title: 'a folder whose name shows less than it holds',
      change: [['format: 1', 'format: 1\nname: "gar\\u202eden"']],
      at: '"gar',
      code: 'SCENARIO_WRONG_TYPE',
      field: 'name',
      got: '"gar\u202eden"',
      expected: 'a name all of whose signs are seen, for the folder is called so',
    },
    {
      title: 'no weather where a spot needs some',
      change: [[SOUND.slice(SOUND.indexOf('weather:'), SOUND.indexOf('promise:')), '']],
      at: 'format',
      code: 'SCENARIO_MISSING_KEY',
      field: 'weather',
      got: 'nothing',
      expected: 'hourly weather for lawn, which has no light_on_cell',
      fix: 'add weather: { file: ... }, weather: { climate: ... } with the means of the months, or light_on_cell to every spot.',
    },
    {
      title: 'a weather file that is not there, and offers one of nearly that name',
      change: [['file: year.csv', 'file: yaer.csv']],
      at: 'yaer.csv',
      code: 'FILE_MISSING',
      field: 'weather.file',
      got: '"yaer.csv", no such file',
      expected: 'a file to read, its path relative to the scenario',
      fix: 'did you mean "year.csv" in the same folder?',
    },
    {
      title: 'a spot that contradicts itself',
      change: [['    cell_bearing_deg: 180\n', '']],
      at: 'lawn:',
      code: 'SCENARIO_MISSING_KEY',
      field: 'spots.lawn.cell_bearing_deg',
      got: 'a cell tilted 10 deg without a bearing',
      expected: 'the bearing it faces, 0 to 360 deg clockwise from north',
      fix: 'add cell_bearing_deg: 180 for a cell that faces south.',
    },
    {
      title: 'raw parameters beside the datasheet values they replace',
      change: [
        [
          '{ part: white-led }',
          '{ raw: { forward_V: 2.7, efficacy_lm_W: 190 }, table: [{ current_mA: 1, forward_V: 2.7, efficacy_lm_W: 190 }] }',
        ],
      ],
      at: 'table:',
      code: 'SCENARIO_CONFLICT',
      field: 'lamps.single.led.table',
      got: 'both raw and table',
      expected: 'one of them: raw takes the place of table',
      fix: 'take table away, or raw.',
    },
    {
      title: 'a cut-off at or above the reachable voltage in full sun',
      change: [['{ part: inductor-driver }', '{ kind: power, power_mW: 9, cutoff_V: 2.4, restart_V: 2.5 }']],
      at: '2.4,',
      code: 'LAMP_CUTOFF_ABOVE_REACHABLE',
      field: 'lamps.single.driver.cutoff_V',
      got: 'a cut-off of 2.40 V, and a reachable voltage of 2.35 V in full sun at 25 degC',
      expected: 'a cut-off below the reachable voltage: this capacitor can never light the LED',
      fix: 'lower cutoff_V, or take a cell of more voltage or a diode of less drop.',
    },
    {
      title: "a capacitor that reaches the LED's voltage on a boost",
      change: [
        ['{ part: small-cell }', '{ part: small-cell, series: 2 }'],
        ['{ part: medium-capacitor }', '{ part: medium-capacitor, series: 2 }'],
      ],
      at: 'driver: {',
      code: 'SCENARIO_CONFLICT',
      field: 'lamps.single.driver.kind',
      got: 'a capacitor that reaches 4.80 V on a boost whose output is 2.62 V',
      expected:
        'a capacitor that stays below the output: above it, it conducts straight through inductor and rectifier into the LED',
      fix: 'add capacitor.limiter: { at_V: 2.5 }, take LEDs in series, or another kind of driver.',
    },
  ];

  it.each(cases)('$title', ({ change, at, title: _, fix, ...said }) => {
    const text = changed(...change);
    const { problems, message, file } = refused(text);
    const place = placeOf(text, at);
    expect(problems).toEqual([{ file, ...place, ...said, ...(fix === undefined ? {} : { fix }) }]);
    expect(message).toBe(
      `${said.code}  ${file}:${place.line}:${place.column}, "${visibleText(said.field)}"\n` +
        `  got ${visibleText(said.got)}; expected ${problems[0]!.expected}.${fix === undefined ? '' : ` Fix: ${fix}`}`,
    );
  });

  it.each([
    ['capacitor: { part: medium-capacitor }', 'store: { part: medium-capacitor }', 'capacitor'],
    ['promise:', 'start: { store_V: 1.5 }\npromise:', 'capacitor_V'],
    ['inductor-driver }', 'inductor-driver, efficiency: [{ store_V: 1, efficiency: 0.8 }] }', 'capacitor_V'],
    [
      'part: inductor-driver',
      'kind: table, cutoff_V: 1, table: [{ store_V: 1, current_mA: 5 }]',
      'capacitor_V',
    ],
    ['inductor-driver }', 'inductor-driver, readings: { rows: [{ store_V: 1 }] } }', 'capacitor_V'],
    ['inductor-driver }', 'inductor-driver, readings: { stops_V: 0.9 } }', 'cutoff_V'],
    ['inductor-driver }', 'inductor-driver, floor_V: 0.9 }', 'cutoff_V'],
    ['inductor-driver }', 'inductor-driver, below_floor_uA: 3 }', 'below_cutoff_uA'],
    ['-capacitor }', '-capacitor, slow_share: 0.1 }', 'delayed_share'],
    ['-capacitor }', '-capacitor, slow_hours: 2 }', 'delayed_hours'],
    ['-capacitor }', '-capacitor, raw: { capacitance_F: 9, slow_branches: [] } }', 'delayed_branches'],
    ['-capacitor }', '-capacitor, leakage_fold_V: 0.3 }', 'leakage_e_fold_V'],
    ['-capacitor }', '-capacitor, readings: { rest: { from_V: 2, store_degC: 20 } } }', 'capacitor_degC'],
    ['hours: 8', 'hours: 8, share: 0.5', 'on_share'],
    ['hours: 8', 'hours: 8, dim: [{ after_h: 3, share: 0.5 }]', 'light_share'],
    ['hours: 8', 'hours: 8, dim: [{ after_h: 3, on_share: 0.5 }]', 'light_share'],
    ['on: dusk, hours: 8', 'on: dark, sense: { by: cell-voltage, dark_below_V: 1 }', 'night_below_V'],
    ['on: dusk, hours: 8', 'on: dark, sense: { by: cell-voltage, light_above_V: 1 }', 'day_above_V'],
    ['on: dusk, hours: 8', 'on: dark, sense: { by: lux, dark_below_lux: 1 }', 'night_below_lux'],
    ['on: dusk, hours: 8', 'on: dark, sense: { by: lux, light_above_lux: 1 }', 'day_above_lux'],
  ])('the first name of a key: for %s, %s, and gives the name it has now, %s', (from, to, now) => {
    const { problems } = refused(changed([from, to]));
    const told = problems.filter(({ fix }) => fix === `this key is now ${now}.`);
    expect(told).toHaveLength(1);
    expect(told[0]!.code).toBe('SCENARIO_UNKNOWN_KEY');
    // Never also that the key of today is missing.
    expect(problems.map(({ field }) => field?.split('.').at(-1))).not.toContain(now);
  });

  it.each([
    ['medium-capacitor', 'medium-store'],
    ['inductor-driver', 'coil-driver'],
  ])('the first name of the part %s, and gives the name it has now', (now, first) => {
    const [problem, ...others] = refused(changed([now, first])).problems;
    expect(problem).toMatchObject({ code: 'SCENARIO_UNKNOWN_PART', fix: `this part is now ${now}.` });
    expect(others).toEqual([]);
  });

  it('a file that is not there', () => {
    const path = join(written(SOUND), '..', 'scenario-01.yaml');
    expect(() => loadScenario(path)).toThrowError(
      `FILE_MISSING  ${path}\n  got no such file; expected a file to read. Fix: did you mean "scenario-1.yaml" in the same folder?`,
    );
  });

  it('text that is not YAML', () => {
    const { problems } = refused('start_utc,ghi,air\n2025-01-01T00:00:00Z,0.0,0.4\n');
    expect(problems[0]).toMatchObject({ code: 'YAML_SYNTAX', line: 1, got: 'text without any key' });
  });

  it('a key that stands twice', () => {
    const text = changed(['  longitude_deg: 10', '  longitude_deg: 10\n  latitude_deg: 55']);
    expect(refused(text).problems).toEqual([
      {
        code: 'YAML_DUPLICATE_KEY',
        file: expect.stringContaining('.yaml'),
        line: 5,
        column: 3,
        field: 'latitude_deg',
        got: '"latitude_deg" a second time; it stands on line 3 already',
        expected: 'each key once in its map',
        fix: 'remove one of the two.',
      },
    ]);
  });
});

test('loadScenario reports all problems of a file together, by line', () => {
  const text = changed(
    ['latitude_deg: 54', 'latitude_deg: 95'],
    ['file: year.csv', 'file: none-of-these.csv'],
    ['hours: 6,', ''],
    ['cell_tilt_deg: 10', 'cell_tilt_rad: 0.17453292519943295'],
    ['small-cell', 'large-cell'],
    ['{ part: medium-capacitor }', '{ rated_V: 2.7, leakage_uA: 900 }'],
    ['led: { part: white-led }\n', 'led: { part: white-led, cuont: 2 }\n'],
    ['hours: 8 }', 'hours: eight }'],
  );
  const { problems } = refused(text);
  expect(problems.map(({ code, line, field }) => [code, line, field])).toEqual([
    ['SCENARIO_OUT_OF_RANGE', 3, 'site.latitude_deg'],
    ['FILE_MISSING', 7, 'weather.file'],
    ['SCENARIO_MISSING_KEY', 12, 'promise.hours'],
    ['SCENARIO_WRONG_UNIT', 15, 'spots.lawn.cell_tilt_rad'],
    ['SCENARIO_UNKNOWN_PART', 19, 'lamps.single.cell.part'],
    ['SCENARIO_MISSING_KEY', 21, 'lamps.single.capacitor.capacitance_F'],
    ['SCENARIO_UNKNOWN_KEY', 23, 'lamps.single.led.cuont'],
    ['SCENARIO_WRONG_TYPE', 24, 'lamps.single.schedule.hours'],
  ]);
  expect(problems[3]!.fix).toBe('write cell_tilt_deg: 10.');
});

describe('loadScenario does not report twice of one mistake', () => {
  it('when a key that is needed is misspelt', () => {
    const { problems } = refused(changed(['longitude_deg', 'longitud_deg']));
    expect(problems.map(({ code }) => code)).toEqual(['SCENARIO_UNKNOWN_KEY']);
  });

  it('when the part that would supply the keys is unknown', () => {
    const { problems } = refused(changed(['inductor-driver', 'inductor-drivre']));
    expect(problems.map(({ code }) => code)).toEqual(['SCENARIO_UNKNOWN_PART']);
  });
});

describe('loadScenario gives a scenario', () => {
  it('with the keys beside a part before those of the part', () => {
    const { section, params } = load(
      changed(['{ part: medium-capacitor }', '{ part: medium-capacitor, capacitance_F: 400, parallel: 2 }']),
    ).lamps[0]!;
    expect(section.capacitor).toMatchObject({
      part: 'medium-capacitor',
      capacitance_F: 400,
      rated_V: 2.7,
      esr_mohm: 7,
    });
    expect(params.capacitor.series_ohm).toBeCloseTo(0.0035, 12);
  });

  it('without a front of its own for a cell that is cast in resin', () => {
    const frontUnder = (part: string) => {
      const { spots } = load(
        changed(['cell_bearing_deg: 180\n', `cell_bearing_deg: 180\n    cover: { part: ${part} }\n`]),
      ).resolved;
      return (spots as Record<string, Record<string, unknown>>).lawn!.cell_front;
    };
    expect([frontUnder('flat-lid'), frontUnder('clear-resin')]).toEqual(['flat', undefined]);
  });

  it('with the driver of a part that says its kind', () => {
    expect(load(SOUND).lamps[0]!.section.driver.kind).toBe('boost');
  });

  it('with the same values whether they are numbers or have another unit, and shows how they were written', () => {
    const fence = (width: string, height: string) =>
      `    obstacles:\n      fence: { kind: fence, bearing_deg: 180, distance_m: 5, openness: 0.4, width_m: ${width}, height_m: ${height} }\n`;
    const scenario = (ofFence: string, capacitor: string, driver: string, diode: string, promise: string) =>
      load(
        changed(
          ['format: 1', 'format: 1\nname: units'],
          ['lamps:', `${ofFence}lamps:`],
          ['{ part: medium-capacitor }', `{ part: medium-capacitor, ${capacitor} }`],
          ['{ part: inductor-driver }', `{ part: inductor-driver, ${driver} }`],
          ['{ part: small-schottky }', `{ forward_drop: [{ ${diode} }] }`],
          ['hours: 6, least_lumen: 0.5', promise],
        ),
      );
    const numbers = scenario(
      fence('12', '1.8'),
      'leakage_uA: 700, rated_V: 2.7',
      'inductance_uH: 470, duty: 0.25, efficiency: 0.8',
      'current_mA: 10, drop_V: 0.2',
      'hours: 6, least_lumen: 0.5, tolerance_h: 0.25',
    );
    const texts = scenario(
      fence('"12,0 m"', '180cm'),
      'leakage_uA: 0.7mA, rated_V: 2700mV',
      'inductance_uH: 0.47mH, duty: 25 %, efficiency: 80 %',
      'current_mA: 0.01 A, drop_V: 200 mV',
      'hours: 6 h, least_lumen: 0.5 lm, tolerance_h: 15 min',
    );
    expect(texts.resolved).toEqual(numbers.resolved);
    expect(texts.lamps[0]!.params).toEqual(numbers.lamps[0]!.params);
    const told = Object.fromEntries(texts.origins.map(({ path, from }) => [path.join('.'), from]));
    expect(told).toMatchObject({
      'spots.lawn.obstacles.fence.height_m': 'scenario line 19: 180cm',
      'lamps.single.capacitor.leakage_uA': 'scenario line 24: 0.7mA',
      'lamps.single.driver.efficiency': 'scenario line 25: 80 %',
      'lamps.single.diode.forward_drop': 'scenario line 23: 0.01 A, 200 mV',
      'promise.tolerance_h': 'scenario line 13: 15 min',
      'site.latitude_deg': 'scenario line 4',
    });
  });

  it('with the lowest voltage of a lithium hybrid, which is assumed', () => {
    const { origins, lamps } = load(
      changed(
        [
          '{ part: medium-capacitor }',
          '{ part: medium-capacitor, kind: lithium-hybrid, rated_V: 3.8, series: 2 }',
        ],
        ['{ part: inductor-driver }', '{ kind: power, power_mW: 9 }'],
      ),
    );
    expect(lamps[0]!.params.capacitor.lowest_V).toBe(4.4);
    expect(origins.find(({ path }) => path.at(-1) === 'lowest_V')).toMatchObject({
      value: 2.2,
      from: 'default: a lithium hybrid, from memory',
    });
  });

  it('named after its file where it has no name', () => {
    expect(load(SOUND).name).toMatch(/^scenario-\d+$/);
    expect(load(changed(['format: 1', 'format: 1\nname: my garden'])).name).toBe('my garden');
  });

  it('with nothing of where it lies in what results show', () => {
    const path = written(SOUND);
    const absolute = join(path, '..', 'year.csv');
    for (const text of [SOUND, changed(['file: year.csv', `file: ${absolute}`])]) {
      const { resolved, origins, weather, assumptions } = load(text);
      const folder = join(path, '..');
      expect(JSON.stringify([resolved, origins, weather!.section, assumptions])).not.toContain(folder);
      expect(weather).toMatchObject({ section: { file: 'year.csv' }, path: absolute });
    }
  });

  it('that is the same whatever the folder it is loaded from', () => {
    const path = written(SOUND);
    const told = () => {
      const { resolved, origins, sha256, assumptions, weather } = loadScenario(path);
      return JSON.stringify({ resolved, origins, sha256, assumptions, weather });
    };
    const first = told();
    // A thread cannot change its folder; a path that is absolute must not even ask for it.
    const elsewhere = vi.spyOn(process, 'cwd').mockReturnValue('/');
    expect(told()).toBe(first);
    expect(elsewhere).not.toHaveBeenCalled();
    elsewhere.mockRestore();
  });

  it('with a weather file alone, which is recognised when it is read', () => {
    const text = changed([
      SOUND.slice(SOUND.indexOf('weather:'), SOUND.indexOf('promise:')),
      'weather: { file: year.csv }\n',
    ]);
    expect(load(text).weather!.section).toEqual({ file: 'year.csv', accept_filled: false, missing: [''] });
  });

  it('without weather where the light on every cell was logged', () => {
    const text = changed(
      [SOUND.slice(SOUND.indexOf('weather:'), SOUND.indexOf('promise:')), ''],
      [
        '    cell_tilt_deg: 10\n    cell_bearing_deg: 180\n',
        '    light_on_cell: { file: year.csv, stamp: { column: start_utc, zone: UTC, marks: start }, column: ghi, unit: W/m2 }\n',
      ],
    );
    const { weather, spots, resolved } = load(text);
    expect(weather).toBeUndefined();
    expect(spots[0]!.params.loggedLight).toMatchObject({ file: 'year.csv', column: 'ghi' });
    expect(Object.keys((resolved.spots as { lawn: object }).lawn)).toEqual([
      'night_light_lux',
      'light_on_cell',
    ]);
  });

  it('with a flag, but no refusal, where the cell drives the capacitor above its rated voltage', () => {
    const { lamps } = load(
      changed(
        ['{ part: medium-capacitor }', '{ part: medium-capacitor, rated_V: 2.1 }'],
        ['{ part: inductor-driver }', '{ kind: power, power_mW: 9 }'],
      ),
    );
    expect(lamps[0]!.flags).toEqual([
      'Above the rated voltage: full sun drives the capacitor to 2.30 V at 25 degC, and it is rated 2.10 V. That ages it fast and can burst it; a limiter or a cell of less voltage prevents it.',
    ]);
  });

  it('that keeps the order of spots and lamps', () => {
    const { spots } = load(changed(['  lawn:', '  zoo: {}\n  b2: {}\n  lawn:']));
    expect(spots.map(({ name }) => name)).toEqual(['zoo', 'b2', 'lawn']);
  });
});

describe('every resolved value has an origin', () => {
  const { origins, resolved } = load(
    changed(['{ part: medium-capacitor }', '{ part: medium-capacitor, capacitance_F: 400 }']),
  );
  const from = (...path: string[]) => origins.find((origin) => origin.path.join() === path.join());

  it('the line of the scenario', () => {
    expect(from('site', 'latitude_deg')).toMatchObject({
      value: 54,
      kind: 'scenario',
      from: 'scenario line 3',
    });
    expect(from('lamps', 'single', 'capacitor', 'capacitance_F')).toMatchObject({
      value: 400,
      from: 'scenario line 21',
    });
  });

  it('the part', () => {
    expect(from('lamps', 'single', 'capacitor', 'esr_mohm')).toMatchObject({
      value: 7,
      kind: 'part',
      from: 'part medium-capacitor (generic; the middle of what is sold, from memory)',
    });
    expect(from('spots', 'lawn', 'cover', 'thickness_mm')).toMatchObject({ kind: 'part' });
  });

  it('or a default, with the assumption it rests on', () => {
    expect(from('site', 'albedo')).toMatchObject({
      value: 0.2,
      kind: 'default',
      from: 'default: grass and soil without snow, common practice',
    });
    expect(from('spots', 'lawn', 'cover', 'part')).toMatchObject({ from: 'default: a glass lid' });
  });

  it('and there are as many as values', () => {
    const leaves = (value: unknown): number =>
      typeof value === 'object' && value !== null && !Array.isArray(value)
        ? Object.values(value).reduce((sum: number, below) => sum + leaves(below), 0)
        : 1;
    expect(origins).toHaveLength(leaves(resolved));
  });
});

test('keys that raw parameters replace are left out of what is resolved', () => {
  const { resolved, assumptions } = load(
    changed(['{ part: medium-capacitor }', '{ part: medium-capacitor, raw: { capacitance_F: 500 } }']),
  );
  const { capacitor } = (resolved.lamps as Record<string, Record<string, object>>).single!;
  expect(Object.keys(capacitor!)).toEqual([
    ...['part', 'raw', 'rated_V', 'lowest_degC', 'life', 'price', 'price_per_F', 'parallel', 'series'],
  ]);
  expect(assumptions.join('\n')).not.toContain('delayed_share');
});

test('an InputProblem is all that a bad scenario throws', () => {
  for (const text of [
    'a: [',
    '- 1\n- 2',
    '',
    '\0',
    'format: 1\nlamps: 3\nspots: [1]\nsite: x',
    'lamps: { a: [], b: 1 }',
  ]) {
    expect(() => load(text)).toThrow(InputProblem);
  }
});

describe('a scenario of any size or shape is refused in few and short lines', () => {
  const lineCount = (message: string) => message.split('\n').length;

  it('20 000 unknown keys: ten of them, and how many more', () => {
    const keys = Array.from({ length: 20_000 }, (_, k) => `odd${k}: 1\n`).join('');
    const { problems, message } = refused(SOUND + keys);
    expect(problems).toHaveLength(10);
    expect(lineCount(message)).toBe(20);
    expect(message).toContain('"odd9" ... and 19990 more like it;');
  });

  it('20 000 keys that stand twice, and names that cannot be', () => {
    const twice = Array.from({ length: 20_000 }, (_, k) => `odd${k % 10_000}: 1\n`).join('');
    expect(lineCount(refused(SOUND + twice).message)).toBe(20);
    const spots = Array.from({ length: 2000 }, (_, k) => `  "a<${k}": { cell_tilt_deg: 10 }\n`).join('');
    expect(lineCount(refused(changed(['spots:\n', `spots:\n${spots}`])).message)).toBe(20);
  });

  it('problems of different kinds are listed beside each other', () => {
    const keys = Array.from({ length: 30 }, (_, k) => `odd${k}: 1\n`).join('');
    const { problems } = refused(changed(['latitude_deg: 54', 'latitude_deg: 95']) + keys);
    expect(problems.map(({ code }) => code)).toEqual([
      'SCENARIO_OUT_OF_RANGE',
      ...Array.from({ length: 10 }, () => 'SCENARIO_UNKNOWN_KEY'),
    ]);
  });

  it('a key of 5 kB', () => {
    for (const key of ['k'.repeat(5000), 'k" k, '.repeat(1000)]) {
      const { message } = refused(`${SOUND}? ${JSON.stringify(key)}\n: 1\n`);
      expect(message).toContain('SCENARIO_UNKNOWN_KEY');
      expect(message.length).toBeLessThan(1000);
    }
  });

  /** What is said of a scenario; '' where it is accepted. */
  const messageOf = (text: string): string => {
    try {
      load(text);
      return '';
    } catch (error) {
      expect(error).toBeInstanceOf(InputProblem);
      return (error as InputProblem).message;
    }
  };

  /** Every place in the sound scenario where a value stands. */
  const values = [...SOUND.matchAll(/(?<=: )[^{}\n,]+(?=[,\n }])/g)];

  it.each([
    ['a map', '{ a: { b: 1 } }'],
    ['a map that cannot be turned into text', '{ toString: 1, valueOf: 1 }'],
    ['a list of maps', '[{ a: 1 }, { b: 2 }]'],
    ['a text of 5 kB', `"${'x y'.repeat(1700)}"`],
    ['a number beyond all numbers', '1e999'],
  ])('%s in the place of any value', (_, odd) => {
    expect(values.length).toBeGreaterThan(20);
    for (const { index, 0: value } of values) {
      const text = `${SOUND.slice(0, index)}${odd}${SOUND.slice(index + value.length)}`;
      const message = messageOf(text);
      expect(message).not.toContain('[object');
      for (const line of message.split('\n')) expect(line.length).toBeLessThan(1600);
    }
  });
});
