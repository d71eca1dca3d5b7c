import { expect, test } from 'vitest';
import { labelFromHeading, labelFromWords } from '../../../sim/weather/recognise/labelClaim.ts';
import { QUANTITY_WORDS } from '../../../sim/weather/recognise/quantityWords.ts';
import { unitFromWords } from '../../../sim/weather/recognise/unitFromWords.ts';
import { zoneFromWords } from '../../../sim/weather/recognise/zoneClaim.ts';

test.each([
  ['Global radiation [W/m²]', 'ghi', 'W/m2'],
  ['ghi_W_m2', 'ghi', 'W/m2'],
  ['W m-2', 'ghi', 'W/m2'],
  ['watt per square metre', 'ghi', 'W/m2'],
  ['W/sq m', 'ghi', 'W/m2'],
  ['in J/cm2 per hour', 'ghi', 'J/cm2'],
  ['kJ m**-2', 'ghi', 'kJ/m2'],
  ['MJ/m^2', 'ghi', 'MJ/m2'],
  ['kWh/m²', 'ghi', 'kWh/m2'],
  ['Wh.m-2', 'ghi', 'Wh/m2'],
  ['Langleys', 'ghi', 'langley'],
  ['cal/cm2', 'ghi', 'langley'],
  ['Globalstrahlung [mW/m²]', 'ghi', 'mW/m2'],
  ['Pyranometer (µW/cm2)', 'ghi', 'uW/cm2'],
  ['Pyranometer [uW/cm²]', 'ghi', 'uW/cm2'],
  ['G (0.1 W/m2)', 'ghi', '0.1 W/m2'],
  ['G (W/m2)', 'ghi', 'W/m2'],
  ['klux', 'ghi', 'klx'],
  ['Air temperature (°C)', 'air_temperature', 'degC'],
  ['T [K]', 'air_temperature', 'K'],
  ['Temperature outside (°F)', 'air_temperature', 'degF'],
  ['in 0.1 degrees Celsius', 'air_temperature', '0.1 degC'],
  ['0,1 °C', 'air_temperature', '0.1 degC'],
  ['in 0.1 m/s', 'wind', '0.1 m/s'],
  ['km/h', 'wind', 'km/h'],
  ['knots', 'wind', 'kn'],
  ['snow depth (cm)', 'snow_depth', 'cm'],
  ['snow_depth (m)', 'snow_depth', 'm'],
  ['in 0.1 mm', 'rain', '0.1 mm'],
  ['kg m-2', 'rain', 'kg/m2'],
] as const)('unitFromWords reads "%s" of %s as %s', (text, quantity, unit) => {
  expect(unitFromWords(text, quantity)?.unit).toBe(unit);
});

test('unitFromWords finds no unit where none is, and tells energies per hour', () => {
  expect(unitFromWords('Global radiation', 'ghi')).toBeUndefined();
  expect(unitFromWords('Rg', 'ghi')).toBeUndefined();
  expect(unitFromWords('MJ/m2/h', 'ghi')).toEqual({ unit: 'MJ/m2', per_s: 3600 });
});

test.each([
  ['Tid (UTC)', { kind: 'fixed', offset_min: 0 }],
  ['GMT+1', { kind: 'fixed', offset_min: 60 }],
  ['UTC-05:30', { kind: 'fixed', offset_min: -330 }],
  ['Time zone: -3.5', { kind: 'fixed', offset_min: -210 }],
  ['Zeitzone: MEZ', { kind: 'fixed', offset_min: 60 }],
  ['time in CET/CEST', { kind: 'civil', zone: 'Europe/Berlin' }],
  ['local time (America/New_York)', { kind: 'civil', zone: 'America/New_York' }],
  ['true solar time', { kind: 'solar' }],
  ['wahre Ortszeit', { kind: 'solar' }],
  ['clock in UT; noon is 13 h MET', { kind: 'fixed', offset_min: 0 }],
  ['local time', { kind: 'unstated' }],
  ['local standard time', { kind: 'unstated' }],
  ['Heures en TU', { kind: 'fixed', offset_min: 0 }],
  ['heure TU+1', { kind: 'fixed', offset_min: 60 }],
  ['heure (TUC)', { kind: 'fixed', offset_min: 0 }],
  ['Zeit in MEZ', { kind: 'fixed', offset_min: 60 }],
  ['tid i UTC +1', { kind: 'fixed', offset_min: 60 }],
  ['czas uniwersalny', { kind: 'fixed', offset_min: 0 }],
])('zoneFromWords understands "%s"', (text, claim) => {
  expect(zoneFromWords(text, 'heading')).toMatchObject(claim);
});

test('zoneFromWords takes standard time with the offset stated elsewhere, and nothing from other words', () => {
  expect(zoneFromWords('Local standard time', 'preamble', 120)).toMatchObject({
    kind: 'fixed',
    offset_min: 120,
  });
  expect(zoneFromWords('output of the cutter', 'preamble')).toBeUndefined();
  expect(zoneFromWords('utc_offset_seconds', 'preamble')).toBeUndefined();
});

test.each([
  ['Hour ending', 'end'],
  ['mean over the preceding hour', 'end'],
  ['Hour 7 runs from 6.00 UT to 7.00 UT', 'end'],
  ['hour 5 is 05:00 to 06:00', 'start'],
  ['Time marks the beginning of the interval', 'start'],
  ['values are instantaneous', 'middle'],
  ['Mittelwert der vorangegangenen Stunde', 'end'],
  ['som over het afgelopen uur', 'end'],
  ['medelvärde för föregående timme', 'end'],
  ['edellisen tunnin keskiarvo', 'end'],
  ["moyenne de l'heure précédente", 'end'],
  ['media de la hora anterior', 'end'],
  ["media dell'ora precedente", 'end'],
  ['média da hora anterior', 'end'],
  ['średnia z poprzedniej godziny', 'end'],
  ['průměr za předchozí hodinu', 'end'],
  ['middelværdi for den foregående time', 'end'],
  ['gjennomsnitt siste time', 'end'],
  ['Beginn der Stunde', 'start'],
])('labelFromWords understands "%s"', (text, label) => {
  expect(labelFromWords(text, 'preamble')?.label).toBe(label);
});

test('labelFromWords finds nothing in lines about other things', () => {
  for (const text of [
    '= HEAD OF THE TABLE =',
    'made up hourly values',
    'Mean wind of the 10 minutes',
    'one value each hour',
  ]) {
    expect(labelFromWords(text, 'preamble')).toBeUndefined();
  }
});

test.each([
  ['start_utc', 'start'],
  ['STAMP_END', 'end'],
  ['von', 'start'],
  ['time', undefined],
  ['Datum', undefined],
])('labelFromHeading understands "%s"', (heading, label) => {
  expect(labelFromHeading(heading)?.label).toBe(label);
});

test.each([
  ['ghi', 'global radiation 10 min', true],
  ['ghi', 'global radiation min', false],
  ['ghi', 'pv solar irradiance', false],
  ['ghi', 'solar yield', false],
  ['air_temperature', 'temp 10 min mean', true],
  ['air_temperature', 'temp min', false],
  ['air_temperature', 'aussen', true],
  ['air_temperature', 'outdoor c', true],
  ['air_temperature', 'tavg f', true],
  ['air_temperature', 't mittel', true],
  ['air_temperature', 'light outside lx', false],
  ['air_temperature', 'outside humidity', false],
] as const)('a column of %s may have the heading "%s": %s', (quantity, heading, is) => {
  const { yes, no } = QUANTITY_WORDS[quantity];
  expect(yes.some(([pattern]) => pattern.test(heading)) && !no.test(heading)).toBe(is);
});
