import { gzipSync } from 'node:zlib';
import { DateTime } from 'luxon';
import { expect, test } from 'vitest';
import { sunOfDay } from '../../../sim/sun/sunOfDay.ts';
import { fromCanonical } from '../../../sim/tables/units.ts';
import { toHourly } from '../../../sim/weather/read/toHourly.ts';
import { type KnownSeries, knownSeries } from './knownSeries.ts';
import { readText } from './readText.ts';

const HOUR = 3_600_000;
const SPRING = knownSeries(Date.UTC(2025, 2, 1), 61);
const PLACE = { place: { latitude_deg: 54, longitude_deg: 10 } };

/** Wall clock of the start of an hour (shifted by some minutes), in a zone. */
const wall = (known: KnownSeries, i: number, minutes = 0, zone = 'UTC'): DateTime =>
  DateTime.fromMillis(known.start_ms + i * HOUR + minutes * 60_000, { zone });

/** Lines made of every hour. */
function rows(known: KnownSeries, line: (i: number) => string): string[] {
  return Array.from({ length: known.count }, (_, i) => line(i));
}

const ghi = (known: KnownSeries, i: number): number => known.ghi_W_m2[i]!;
const air = (known: KnownSeries, i: number): number => known.air_degC[i]!;

/** Greatest difference of a column from what was written, W/m2 or degC; NaN where an hour lacks. */
function off(
  got: Awaited<ReturnType<typeof readText>>,
  quantity: 'ghi' | 'dni' | 'dhi' | 'air_temperature',
  values: Float64Array,
  start_ms: number,
): number {
  let most = 0;
  const at = (start_ms - got.hourly.start_ms) / HOUR;
  for (let i = 0; i < values.length; i++) {
    const apart = Math.abs((got.hourly.columns[quantity]?.[at + i] ?? Number.NaN) - values[i]!);
    if (!(apart <= most)) most = apart;
  }
  return most;
}

interface Layout {
  name: string;
  text: string | Uint8Array;
  known?: KnownSeries;
  site?: typeof PLACE;
  /** Digits after the point that the file keeps. */
  digits?: number;
  air?: boolean;
  zone?: object;
  label?: string;
  place?: object;
  offset_min?: number;
}

const one = (value: number): string => value.toFixed(1);
const german = (value: number): string => value.toFixed(2).replace('.', ',');

const LAYOUTS: Layout[] = [
  {
    name: 'German words, semicolons, decimal commas, Latin-1, place in the preamble',
    text: Buffer.from(
      [
        'Station: Erfundener Garten',
        'Breitengrad: 54,0',
        'Längengrad: 10,0',
        'Höhe über NN: 20 m',
        'Zeitzone: UTC+1',
        'Die Zeit ist das Ende der Stunde',
        '',
        'Datum;Uhrzeit;Globalstrahlung in W/m²;Lufttemperatur in °C;Qualität',
        ...rows(
          SPRING,
          (i) =>
            `${wall(SPRING, i, 60, 'UTC+1').toFormat('dd.MM.yyyy;HH:mm')};${german(ghi(SPRING, i))};${german(air(SPRING, i))};1`,
        ),
      ].join('\r\n'),
      'latin1',
    ),
    digits: 2,
    label: 'end',
    zone: { kind: 'fixed', offset_min: 60 },
    place: { latitude_deg: 54, longitude_deg: 10, elevation_m: 20 },
  },
  {
    name: 'Dutch legend of short names, tenths, J/cm2, hours 1 to 24, padded blanks',
    text: [
      'VERZONNEN WEER VAN EEN TUIN',
      'UUR  = uur van de dag in UT; uur 7 loopt van 6.00 UT tot 7.00 UT',
      'LT   = luchttemperatuur (in 0.1 graden Celsius) op twee meter',
      'LTG  = minimumtemperatuur (in 0.1 graden Celsius) vlak boven het gras',
      'ZD   = duur van de zonneschijn (in 0.1 uren), geschat uit globale straling',
      'GS   = globale straling (in J/cm2) in dat uur',
      '# NR,   DATUM, UUR,   LT,  LTG,   ZD,   GS',
      '',
      ...rows(SPRING, (i) => {
        const start = wall(SPRING, i);
        return `  1,${start.toFormat('yyyyMMdd')},${String(start.hour + 1).padStart(4)},${String(Math.round(air(SPRING, i) * 10)).padStart(5)},     ,    0,${String(Math.round(ghi(SPRING, i) * 0.36)).padStart(5)}`;
      }),
    ].join('\n'),
    site: PLACE,
    digits: 0,
    label: 'end',
    zone: { kind: 'fixed', offset_min: 0 },
  },
  {
    name: 'Swedish tables above the rows, notes in extra columns, a quality flag',
    text: [
      'Plats;Givarens höjd över marken (m)',
      'Påhittad trädgård;2.0',
      '',
      'Vad;Hur;I vad',
      'Globalstrålning;medelvärde 1 timme;watt per kvadratmeter',
      '',
      'Gäller sedan;Markens höjd (m);Latitud (grader);Longitud (grader)',
      '2025-01-01 00:00:00;20.0;54.0000;10.0000',
      '',
      'Dag;Tid i UTC;Globalstrålning;Kvalitet;;Att veta:',
      ...rows(
        SPRING,
        (i) =>
          `${wall(SPRING, i, 60).toFormat('yyyy-MM-dd;HH:mm:ss')};${ghi(SPRING, i).toFixed(2)};G${i < 3 ? `;;anmärkning ${i}` : ''}`,
      ),
    ].join('\n'),
    digits: 2,
    air: false,
    zone: { kind: 'fixed', offset_min: 0 },
    place: { latitude_deg: 54, longitude_deg: 10, elevation_m: 20 },
    offset_min: 30,
  },
  {
    name: 'Finnish short names, parts of the date in columns, -999 for missing',
    text: [
      'vuosi,kk,pv,tunti,min,sade,ilman_lampo,kosteus,lumen_syvyys,kokonaissateily',
      ...rows(
        SPRING,
        (i) =>
          `${wall(SPRING, i).toFormat('yyyy,M,d,H')},0,${i === 100 ? -999 : 0},${one(air(SPRING, i))},80,12,${one(ghi(SPRING, i))}`,
      ),
    ].join('\n'),
    site: PLACE,
    digits: 1,
    offset_min: -30,
  },
  {
    name: 'French, quoted cells, heading and unit rows',
    text: [
      '"Données inventées, sans mesure"',
      '"Date","Heure UTC","Rayonnement global","Température de l\'air"',
      '"","","J/cm²","°C"',
      ...rows(
        SPRING,
        (i) =>
          `"${wall(SPRING, i).toFormat('dd/MM/yyyy')}","${wall(SPRING, i).toFormat('HH:mm')}","${(ghi(SPRING, i) * 0.36).toFixed(3)}","${one(air(SPRING, i))}"`,
      ),
    ].join('\n'),
    site: PLACE,
    digits: 1,
    zone: { kind: 'fixed', offset_min: 0 },
    offset_min: -30,
  },
  {
    name: 'Spanish, decimal commas in quotes',
    text: [
      'Fecha (UTC),Radiación solar global (W/m2),Temperatura del aire (°C)',
      ...rows(
        SPRING,
        (i) =>
          `${wall(SPRING, i).toFormat('dd/MM/yyyy HH:mm')},"${german(ghi(SPRING, i))}","${german(air(SPRING, i))}"`,
      ),
    ].join('\n'),
    site: PLACE,
    digits: 2,
    offset_min: -30,
  },
  {
    name: 'Italian, tabs, the start of the hour said in words',
    text: [
      "Dati inventati. Ora UTC+1, inizio dell'ora",
      'data\tora\tradiazione globale (W/m²)\ttemperatura aria (°C)\tumidità (%)',
      ...rows(
        SPRING,
        (i) =>
          `${wall(SPRING, i, 0, 'UTC+1').toFormat('yyyy-MM-dd\tHH:mm')}\t${one(ghi(SPRING, i))}\t${one(air(SPRING, i))}\t70`,
      ),
    ].join('\n'),
    site: PLACE,
    digits: 1,
    label: 'start',
    zone: { kind: 'fixed', offset_min: 60 },
  },
  {
    name: 'Polish and day-first dates',
    text: [
      'Data;Godzina;Promieniowanie całkowite [W/m2];Temperatura powietrza [°C];Wilgotność',
      ...rows(
        SPRING,
        (i) =>
          `${wall(SPRING, i).toFormat('dd-MM-yyyy;HH')};${german(ghi(SPRING, i))};${german(air(SPRING, i))};70`,
      ),
    ].join('\n'),
    site: PLACE,
    digits: 2,
    offset_min: -30,
  },
  {
    name: 'Czech, Danish and Norwegian words together with a bar',
    text: [
      'tidspunkt (UTC)|globální záření (W/m2)|lufttemperatur (grader C)|rychlost větru (m/s)',
      ...rows(
        SPRING,
        (i) =>
          `${wall(SPRING, i).toFormat('yyyy-MM-dd HH:mm')}|${one(ghi(SPRING, i))}|${one(air(SPRING, i))}|3.1`,
      ),
    ].join('\n'),
    site: PLACE,
    digits: 1,
    offset_min: -30,
  },
  {
    name: 'Portuguese, UTF-16 with its mark',
    text: Buffer.from(
      `\ufeff${[
        'Data da leitura;Hora (UTC);Radiação solar global (kJ/m²);Temperatura do ar (°C)',
        ...rows(
          SPRING,
          (i) =>
            `${wall(SPRING, i).toFormat('yyyy/MM/dd;HHmm')};${german(ghi(SPRING, i) * 3.6)};${german(air(SPRING, i))}`,
        ),
      ].join('\r\n')}`,
      'utf16le',
    ),
    site: PLACE,
    digits: 1,
    offset_min: -30,
  },
  {
    name: 'gzip, UTF-8 with its mark, a comment mark before preamble and heading',
    text: gzipSync(
      `\ufeff${[
        '# made up, as if seen from above',
        '# lat (north is positive): 54.0000',
        '# lon (east is positive): 10.0000',
        '# height of the ground (m): 20',
        '# the clock is universal time (UT)',
        '# column 1: interval; 2: extraterrestrial; 3: global; 4: beam normal; 5: diffuse',
        '# interval;extraterrestrial;global;beam normal;diffuse;trust',
        ...rows(
          SPRING,
          (i) =>
            `${wall(SPRING, i).toFormat("yyyy-MM-dd'T'HH:mm:ss.0")}/${wall(SPRING, i, 60).toFormat("yyyy-MM-dd'T'HH:mm:ss.0")};${(ghi(SPRING, i) * 1.6).toFixed(4)};${ghi(SPRING, i).toFixed(4)};${SPRING.dni_W_m2[i]!.toFixed(4)};${SPRING.dhi_W_m2[i]!.toFixed(4)};1.0`,
        ),
      ].join('\n')}\n`,
    ),
    digits: 4,
    air: false,
    label: 'start',
    zone: { kind: 'fixed', offset_min: 0 },
    place: { latitude_deg: 54, longitude_deg: 10, elevation_m: 20 },
  },
  {
    name: 'a satellite table: packed stamps with a colon, keys with tabs, a footer',
    text: [
      'Latitude, degrees:\t54.000',
      'Longitude, degrees:\t10.000',
      'Elevation, m:\t20',
      '',
      'stamp,global_light,sun_height,air_temp,wind,guessed',
      ...rows(
        SPRING,
        (i) =>
          `${wall(SPRING, i, 30).toFormat('yyyyMMdd:HHmm')},${one(ghi(SPRING, i))},${i % 24},${one(air(SPRING, i))},2.9,0.0`,
      ),
      '',
      'global_light: irradiance of level ground (W/m2)',
      'air_temp: air at two metres (degree Celsius)',
      '',
      'made up for a test',
    ].join('\r\n'),
    digits: 1,
    place: { latitude_deg: 54, longitude_deg: 10, elevation_m: 20 },
    offset_min: 0,
  },
  {
    name: 'a table of values below its headings, time zone among them, several lights and temperatures',
    text: [
      'origin,number,village,latitude,longitude,time zone,elevation,remark',
      'made up,1,-,54.0,10.0,1,20,1',
      'year,month,day,hour,minute,beam normal,diffuse,global,global under a clear sky,dew point,air temperature,wind',
      ...rows(
        SPRING,
        (i) =>
          `${wall(SPRING, i, 30, 'UTC+1').toFormat('yyyy,M,d,H,m')},${one(SPRING.dni_W_m2[i]!)},${one(SPRING.dhi_W_m2[i]!)},${one(ghi(SPRING, i))},${one(ghi(SPRING, i) * 1.3)},1.0,${one(air(SPRING, i))},3`,
      ),
    ].join('\n'),
    digits: 1,
    zone: { kind: 'fixed', offset_min: 60 },
    place: { latitude_deg: 54, longitude_deg: 10, elevation_m: 20 },
    offset_min: 0,
  },
  {
    name: 'degrees and minutes with their letters, a place west and south',
    known: knownSeries(Date.UTC(2025, 8, 1), 61, -33.75, -70.5),
    text: (() => {
      const known = knownSeries(Date.UTC(2025, 8, 1), 61, -33.75, -70.5);
      return [
        "Site 33° 45' S, 70° 30' W; 500 m",
        'Local standard time, UTC-4; value at the end of the hour',
        'time,solar radiation (MJ/m2),temp (C)',
        ...rows(
          known,
          (i) =>
            `${wall(known, i, 60, 'UTC-4').toFormat('yyyy-MM-dd HH:mm')},${(ghi(known, i) * 0.0036).toFixed(6)},${one(air(known, i))}`,
        ),
      ].join('\n');
    })(),
    digits: 1,
    zone: { kind: 'fixed', offset_min: -240 },
    label: 'end',
    place: { latitude_deg: -33.75, longitude_deg: -70.5 },
  },
  {
    name: 'twelve-hour clock, Fahrenheit, mph, inches, a zone by name',
    text: [
      'when (America/Chicago),temperature outside (°F),wind (mph),rain (in/hr),solar energy (W/m^2),UV',
      ...rows(
        SPRING,
        (i) =>
          `${wall(SPRING, i, 0, 'America/Chicago').toFormat('M/d/yyyy h:mm a')},${(air(SPRING, i) * 1.8 + 32).toFixed(2)},4.1,0,${one(ghi(SPRING, i))},1`,
      ),
    ].join('\n'),
    site: PLACE,
    digits: 1,
    zone: { kind: 'civil', zone: 'America/Chicago' },
    offset_min: -30,
  },
  {
    name: 'four heading rows of a logger: names, units and kinds of mean, quoted stamps',
    text: [
      '"made up","of a garden","box","12"',
      '"stamp","row","sun_global","air_temp","supply"',
      '"-","-","W/m^2","Deg C","Volts"',
      '"","","mean","mean","lowest"',
      ...rows(
        SPRING,
        (i) =>
          `"${wall(SPRING, i, 60).toFormat('yyyy-MM-dd HH:mm:ss')}",${i},${ghi(SPRING, i).toFixed(3)},${air(SPRING, i).toFixed(2)},12.6`,
      ),
    ].join('\r\n'),
    site: PLACE,
    digits: 2,
    offset_min: 30,
  },
  {
    name: 'day of the year and hhmm, no commas',
    text: [
      'year doy hhmm ghi_W_m2 t_air_degC',
      ...rows(
        SPRING,
        (i) => `${wall(SPRING, i).toFormat('yyyy o HHmm')} ${one(ghi(SPRING, i))} ${one(air(SPRING, i))}`,
      ),
    ].join('\n'),
    site: PLACE,
    digits: 1,
    offset_min: -30,
  },
  {
    name: 'fixed blanks, right aligned, units under the names',
    text: [
      '      DATE  TIME     GHI    TAIR',
      '         -   UTC    W/m2    degC',
      ...rows(
        SPRING,
        (i) =>
          `${wall(SPRING, i).toFormat('yyyy-MM-dd HH:mm')}${one(ghi(SPRING, i)).padStart(8)}${one(air(SPRING, i)).padStart(8)}`,
      ),
    ].join('\n'),
    site: PLACE,
    digits: 1,
    zone: { kind: 'fixed', offset_min: 0 },
    offset_min: -30,
  },
  {
    name: 'the newest row first',
    text: [
      'time,ghi (W/m2),temperature (degC)',
      ...rows(
        SPRING,
        (i) =>
          `${wall(SPRING, i).toFormat("yyyy-MM-dd'T'HH:mm'Z'")},${one(ghi(SPRING, i))},${one(air(SPRING, i))}`,
      ).reverse(),
    ].join('\n'),
    site: PLACE,
    digits: 1,
    zone: { kind: 'each' },
    offset_min: -30,
  },
  {
    name: 'the heading repeated every day, comments between the rows',
    text: rows(
      SPRING,
      (i) =>
        `${i % 24 === 0 ? `${i > 0 ? `# day ${i / 24}\n` : ''}time utc;irradiance W/m2;air temp C\n` : ''}${wall(SPRING, i).toFormat('yyyy-MM-dd HH:mm')};${one(ghi(SPRING, i))};${one(air(SPRING, i))}`,
    ).join('\n'),
    site: PLACE,
    digits: 1,
    offset_min: -30,
  },
  {
    name: 'offsets in the stamps that change with daylight saving',
    text: [
      'local time,global horizontal irradiance [W/m²],air temperature [°C]',
      ...rows(
        SPRING,
        (i) =>
          `${wall(SPRING, i, 0, 'Europe/Berlin').toISO({ suppressMilliseconds: true })},${one(ghi(SPRING, i))},${one(air(SPRING, i))}`,
      ),
    ].join('\n'),
    site: PLACE,
    digits: 1,
    zone: { kind: 'each' },
    offset_min: -30,
  },
  {
    name: 'begin and end of every interval in columns of their own',
    text: [
      'from_utc,to_utc,ghi,air_temp',
      ...rows(
        SPRING,
        (i) =>
          `${wall(SPRING, i).toFormat('yyyy-MM-dd HH:mm')},${wall(SPRING, i, 60).toFormat('yyyy-MM-dd HH:mm')},${one(ghi(SPRING, i))},${one(air(SPRING, i))}`,
      ),
    ].join('\n'),
    site: PLACE,
    digits: 1,
    label: 'start',
  },
  {
    name: 'both UTC and local columns: UTC is taken',
    text: [
      'time_local,time_utc,SWD,T2',
      ...rows(
        SPRING,
        (i) =>
          `${wall(SPRING, i, 0, 'UTC+1').toFormat('yyyy-MM-dd HH:mm')},${wall(SPRING, i).toFormat('yyyy-MM-dd HH:mm')},${one(ghi(SPRING, i))},${one(air(SPRING, i))}`,
      ),
    ].join('\n'),
    site: PLACE,
    digits: 1,
    zone: { kind: 'fixed', offset_min: 0 },
    offset_min: -30,
  },
  {
    name: 'kelvin and no units said at all',
    text: [
      'timestamp,incoming_shortwave,air_temp',
      ...rows(
        SPRING,
        (i) =>
          `${(SPRING.start_ms + i * HOUR) / 1000},${one(ghi(SPRING, i))},${(air(SPRING, i) + 273.15).toFixed(2)}`,
      ),
    ].join('\n'),
    site: PLACE,
    digits: 1,
    zone: { kind: 'fixed', offset_min: 0 },
    offset_min: -30,
  },
  {
    name: '9999 and 99.9 for missing values, blanks too',
    text: [
      'date,hour (UTC),global rad. (W/m2),air temp. (C)',
      ...rows(
        SPRING,
        (i) =>
          `${wall(SPRING, i).toFormat('yyyy-MM-dd,H')},${i % 200 === 7 ? '9999' : ghi(SPRING, i).toFixed(1)},${i % 300 === 5 ? '' : i % 300 === 6 ? '99.9' : one(air(SPRING, i))}`,
      ),
    ].join('\n'),
    site: PLACE,
    digits: Number.POSITIVE_INFINITY,
    offset_min: -30,
  },
  {
    name: 'a year without a heading, beam and diffuse beside, a line of words and numbers above',
    known: knownSeries(Date.UTC(2023, 0, 1), 365),
    text: (() => {
      const known = knownSeries(Date.UTC(2023, 0, 1), 365);
      return [
        'garden,made up,no number,54.00000,10.00000,1.0,20.0',
        ...rows(known, (i) => {
          const w = wall(known, i, 0, 'UTC+1');
          return `${w.toFormat('yyyy,M,d')},${w.hour + 1},${one(air(known, i))},${one(air(known, i) - 3 - (i % 7) * 0.3)},77,${one(ghi(known, i))},${one(known.dni_W_m2[i]!)},${one(known.dhi_W_m2[i]!)},${(i % 11) * 0.7}`;
        }),
      ].join('\n');
    })(),
    digits: 1,
    zone: { kind: 'fixed', offset_min: 60 },
    offset_min: 30,
    place: { latitude_deg: 54, longitude_deg: 10, elevation_m: 20 },
  },
  {
    name: 'a stamp packed to the hour with minutes after a colon, opaque names, J/cm2 unsaid, true solar time beside UTC',
    text: [
      'nr;stempel;guete;gegenstr;q3;sonne_min;stempel_WOZ;schluss',
      ...rows(SPRING, (i) => {
        const utc = wall(SPRING, i);
        const solar = DateTime.fromMillis(
          SPRING.start_ms +
            i * HOUR +
            40 * 60_000 +
            sunOfDay(SPRING.start_ms + i * HOUR).equationOfTime_min * 60_000,
          { zone: 'UTC' },
        );
        return `7;${utc.toFormat('yyyyMMddHH:mm')};1;${(110 + (i % 5)).toFixed(1)};${(ghi(SPRING, i) * 0.36).toFixed(2)};${Math.min(60, Math.round(ghi(SPRING, i) / 5))};${solar.toFormat('yyyyMMddHH:mm')};schluss`;
      }),
    ].join('\n'),
    site: PLACE,
    air: false,
    digits: 1,
    offset_min: -30,
  },
  {
    name: 'a zone in a column of its own, Finnish names, quoted',
    text: [
      '"Puutarha","Vuosi","Kuukausi","Päivä","Klo","Aikavyöhyke","Kokonaissäteily (W/m2)","Ilman lämpötila (degC)"',
      ...rows(
        SPRING,
        (i) =>
          `"Keksitty","${wall(SPRING, i).toFormat('yyyy","M","d","HH:mm')}","UTC",${one(ghi(SPRING, i))},${one(air(SPRING, i))}`,
      ),
    ].join('\n'),
    site: PLACE,
    digits: 1,
    zone: { kind: 'fixed', offset_min: 0 },
    offset_min: -30,
  },
  {
    name: 'columns by blanks without any heading, day of the year between year and month, -9999.9 for missing',
    text: [
      ' Made up, of a garden',
      '   54.0000   10.0000    20 m above the sea',
      ...rows(
        SPRING,
        (i) =>
          `${wall(SPRING, i).toFormat(' yyyy o MM dd HH mm')} ${(i % 24).toFixed(3)} ${(60 + (i % 50)).toFixed(2)} ${one(ghi(SPRING, i))} 0 ${i % 97 === 0 ? '-9999.9' : one(air(SPRING, i))} 0`,
      ),
    ].join('\n'),
    air: false,
    digits: 1,
    place: { latitude_deg: 54, longitude_deg: 10, elevation_m: 20 },
    offset_min: -30,
  },
  {
    name: 'names over two rows, a single letter for the half of the day, two-digit years',
    text: [
      '\t\tglobal\ttemp.',
      'date\ttime\tlight\toutside',
      ...rows(
        SPRING,
        (i) =>
          `${wall(SPRING, i).toFormat('d.MM.yy\th:mm')}${wall(SPRING, i).hour < 12 ? 'a' : 'p'}\t${Math.round(ghi(SPRING, i))}\t${one(air(SPRING, i))}`,
      ),
    ].join('\n'),
    site: PLACE,
    digits: 0,
    offset_min: -30,
  },
  {
    name: 'starts and ends packed to the minute, F for filled and no Fahrenheit, half hours',
    known: knownSeries(Date.UTC(2025, 5, 1), 61),
    text: (() => {
      const known = knownSeries(Date.UTC(2025, 5, 1), 61);
      const lines = ['FROM,TO,AIR_T_F,SW_POT,SW_GLOBAL_F,LW_F,WIND_F'];
      for (let i = 0; i < known.count * 2; i++) {
        const start = DateTime.fromMillis(known.start_ms + i * 1_800_000, { zone: 'UTC+1' });
        const h = i >> 1;
        lines.push(
          `${start.toFormat('yyyyMMddHHmm')},${start.plus({ minutes: 30 }).toFormat('yyyyMMddHHmm')},${air(known, h).toFixed(3)},${(ghi(known, h) * 1.7).toFixed(3)},${ghi(known, h).toFixed(3)},${(300 + (i % 9)).toFixed(1)},${i % 300 === 0 ? -9999 : '3.2'}`,
        );
      }
      return lines.join('\n');
    })(),
    site: PLACE,
    digits: 2,
    label: 'start',
    // Nobody states the zone: its hour is what the sun must find.
    offset_min: 60 - 15,
  },
  {
    name: 'place in a table with seconds of offset, many lights',
    text: [
      'latitude,longitude,elevation,utc offset,clock',
      '54.0,10.0,20.0,3600,UTC+1',
      '',
      'time,global (W/m²),direct on level ground (W/m²),diffuse (W/m²),beam normal (W/m²),global on a tilted plane (W/m²),extraterrestrial (W/m²),air temperature (°C),snow (m),rain (mm),wind (km/h)',
      ...rows(
        SPRING,
        (i) =>
          `${wall(SPRING, i, 60, 'UTC+1').toFormat("yyyy-MM-dd'T'HH:mm")},${one(ghi(SPRING, i))},${one(ghi(SPRING, i) - SPRING.dhi_W_m2[i]!)},${one(SPRING.dhi_W_m2[i]!)},${one(SPRING.dni_W_m2[i]!)},${one(ghi(SPRING, i) * 1.3)},${one(ghi(SPRING, i) * 1.8)},${one(air(SPRING, i))},0.00,0.00,11.5`,
      ),
    ].join('\n'),
    digits: 1,
    zone: { kind: 'fixed', offset_min: 60 },
    place: { latitude_deg: 54, longitude_deg: 10, elevation_m: 20 },
    offset_min: 30,
  },
  {
    name: 'French abbreviations, packed hours, J/cm2 unsaid',
    text: [
      'LIEU;DATE_HEURE;RAY_GLOB;RAY_DIF;TEMP',
      ...rows(
        SPRING,
        (i) =>
          `123;${wall(SPRING, i).toFormat('yyyyMMddHH')};${Math.round(ghi(SPRING, i) * 0.36)};${Math.round(SPRING.dhi_W_m2[i]! * 0.36)};${one(air(SPRING, i))}`,
      ),
    ].join('\n'),
    site: PLACE,
    digits: 0,
    offset_min: -30,
  },
  {
    name: 'names of days and months in the stamps, in words',
    text: [
      'Date,Solar Radiation (W/m²),Temperature (°C)',
      ...rows(
        SPRING,
        (i) =>
          `"${wall(SPRING, i).toFormat('MMM d, yyyy h:mm a')}",${one(ghi(SPRING, i))},${one(air(SPRING, i))}`,
      ),
    ].join('\n'),
    site: PLACE,
    digits: 1,
    offset_min: -30,
  },
  {
    name: 'the day of the week before the date, the clock left out at midnight, a line for spreadsheets above',
    text: [
      'sep=;',
      'time utc;ghi W/m2;temp C;',
      ...rows(
        SPRING,
        (i) =>
          `${wall(SPRING, i).toFormat(i % 24 === 0 ? 'ccc dd/MM/yyyy' : 'ccc dd/MM/yyyy HH:mm')};${one(ghi(SPRING, i))};${one(air(SPRING, i))};`,
      ),
    ].join('\r\n'),
    site: PLACE,
    digits: 1,
    offset_min: -30,
  },
  {
    name: 'hours with their halves as decimals, units without a heading word for them',
    text: (() => {
      const lines = ['year,month,day,hour,ghi,tair'];
      for (let j = 0; j < SPRING.count * 2; j++) {
        const d = DateTime.fromMillis(SPRING.start_ms + j * 1_800_000, { zone: 'UTC' });
        lines.push(
          `${d.toFormat('yyyy,M,d')},${(d.hour + d.minute / 60).toFixed(2)},${one(ghi(SPRING, j >> 1))},${one(air(SPRING, j >> 1))}`,
        );
      }
      return lines.join('\n');
    })(),
    site: PLACE,
    digits: 1,
    offset_min: -15,
  },
  {
    name: 'hours of the year and no year',
    known: knownSeries(Date.UTC(2001, 0, 1), 365),
    text: (() => {
      const known = knownSeries(Date.UTC(2001, 0, 1), 365);
      return [
        'hour_of_year,GHI,Tamb',
        ...rows(known, (i) => `${i + 1},${one(ghi(known, i))},${one(air(known, i))}`),
      ].join('\n');
    })(),
    site: PLACE,
    digits: 1,
    offset_min: -30,
  },
];

test.each(LAYOUTS)('recognise and readRecognised understand $name', async (layout) => {
  const known = layout.known ?? SPRING;
  const got = await readText([layout.text], {
    ...(layout.site ?? {}),
    ...(layout.offset_min === undefined ? {} : { offset_min: layout.offset_min }),
  });
  const { stamp, site, columns } = got.recognition;
  if (layout.zone !== undefined) expect(stamp.zone).toMatchObject(layout.zone);
  if (layout.label !== undefined) expect(stamp.label.label).toBe(layout.label);
  if (layout.place !== undefined) expect(site).toMatchObject(layout.place);
  // What rounding to the digits of the file, and to the steps of its unit, can move.
  const tolerance = layout.digits === 0 ? 1.5 : 0.6 * 10 ** -(layout.digits ?? 1);
  if (layout.digits !== Number.POSITIVE_INFINITY) {
    expect(off(got, 'ghi', known.ghi_W_m2, known.start_ms)).toBeLessThan(tolerance);
    if (layout.air !== false) {
      expect(off(got, 'air_temperature', known.air_degC, known.start_ms)).toBeLessThan(
        Math.max(tolerance, 0.06),
      );
    }
  } else {
    const missing = got.hourly.columns.ghi!.filter((value) => Number.isNaN(value)).length;
    expect(missing).toBe(Math.ceil((known.count - 7) / 200));
    expect(got.series.missing.ghi).toEqual({ '9999': missing });
    expect(Object.keys(got.series.missing.air_temperature!).sort()).toEqual(['99.9', 'empty']);
  }
  for (const light of ['dni', 'dhi'] as const) {
    if (!columns.some(({ quantity }) => quantity === light)) continue;
    expect(off(got, light, light === 'dni' ? known.dni_W_m2 : known.dhi_W_m2, known.start_ms)).toBeLessThan(
      tolerance,
    );
  }
  for (const { reason, unitReason } of columns) expect(reason.length * unitReason.length).toBeGreaterThan(0);
});

test('there are at least 25 layouts', () => {
  expect(LAYOUTS.length).toBeGreaterThanOrEqual(25);
});

test('a typical year, its months from different years, is laid on 2001 and marked', async () => {
  const known = knownSeries(Date.UTC(2001, 0, 1), 365);
  const years = [1998, 2004, 1991, 2010, 1999, 2003, 1987, 2012, 2000, 1996, 2008, 1994];
  const text = [
    'year;month;day;hour;GHI (W/m2);T (degC)',
    ...rows(known, (i) => {
      const w = wall(known, i);
      return `${years[w.month - 1]};${w.month};${w.day};${w.hour + 1};${one(ghi(known, i))};${one(air(known, i))}`;
    }),
  ].join('\n');
  const got = await readText([text], { ...PLACE, offset_min: 30 });
  expect(got.recognition.stamp.typicalYear).toBe(true);
  expect(got.hourly.start_ms).toBe(Date.UTC(2001, 0, 1));
  expect(got.hourly.count).toBe(8760);
  expect(off(got, 'ghi', known.ghi_W_m2, known.start_ms)).toBeLessThan(0.06);
});

test('a year in two files joins, whatever the order they are named in', async () => {
  const half = SPRING.count / 2;
  const lines = rows(
    SPRING,
    (i) => `${wall(SPRING, i).toFormat('yyyy-MM-dd HH:mm')},${one(ghi(SPRING, i))},${one(air(SPRING, i))}`,
  );
  const heading = 'time utc,GHI W/m2,air degC\n';
  const got = await readText(
    [heading + lines.slice(half).join('\n'), heading + lines.slice(0, half).join('\n')],
    { ...PLACE, offset_min: -30 },
  );
  expect(got.recognition.files.map(({ name }) => name)).toEqual(['made-up-2.csv', 'made-up-1.csv']);
  expect(off(got, 'ghi', SPRING.ghi_W_m2, SPRING.start_ms)).toBeLessThan(0.06);
});

test.each([
  ['start', 10, 0],
  ['end', 10, 10],
  ['start', 1, 0],
  ['middle', 1, 0.5],
  ['end', 1, 1],
  ['end', 15, 15],
  ['end', 0.5, 0.5],
  ['start', 30, 0],
] as const)(
  'hours come back to 1e-9 from a file that marks the %s of steps of %d minutes',
  async (label, step_min, shift_min) => {
    const known = knownSeries(Date.UTC(2025, 5, 1), 12);
    const per = 60 / step_min;
    const lines: string[] = [`time utc (${label} of the interval);GHI (W/m2);air (degC)`];
    for (let i = 0; i < known.count * per; i++) {
      const hour = Math.floor(i / per);
      // Values that differ within the hour and have its mean.
      const tilt = ((i % per) - (per - 1) / 2) / per;
      const stamp = new Date(known.start_ms + i * step_min * 60_000 + shift_min * 60_000)
        .toISOString()
        .slice(0, 19);
      lines.push(`${stamp};${ghi(known, hour) * (1 + tilt)};${air(known, hour) + tilt}`);
    }
    const got = await readText([lines.join('\n')], PLACE);
    expect(got.recognition.stamp.label.label).toBe(label);
    // Means of up to 120 values: a rounding error for each, 1e-14 relative, times what tilts them.
    expect(off(got, 'ghi', known.ghi_W_m2, known.start_ms)).toBeLessThan(1e-9);
    expect(off(got, 'air_temperature', known.air_degC, known.start_ms)).toBeLessThan(1e-9);
  },
);

test('energies over ten minutes are sums over the step, not over the hour', async () => {
  const known = knownSeries(Date.UTC(2025, 5, 1), 20);
  const lines = ['start utc;GHI (J/cm2);air (degC)'];
  for (let i = 0; i < known.count * 6; i++) {
    const hour = Math.floor(i / 6);
    const stamp = new Date(known.start_ms + i * 600_000).toISOString().slice(0, 16);
    lines.push(`${stamp};${fromCanonical(ghi(known, hour), 'J/cm2', 600)};${air(known, hour)}`);
  }
  const got = await readText([lines.join('\n')], PLACE);
  expect(off(got, 'ghi', known.ghi_W_m2, known.start_ms)).toBeLessThan(1e-9);
});

test('lux is turned into irradiance by a stated efficacy, good to 10 percent', async () => {
  const known = knownSeries(Date.UTC(2025, 5, 1), 30);
  const text = [
    'time utc,light (lux),temp (C)',
    ...rows(
      known,
      (i) =>
        `${wall(known, i).toFormat('yyyy-MM-dd HH:mm')},${Math.round(ghi(known, i) * 118)},${one(air(known, i))}`,
    ),
  ].join('\n');
  const got = await readText([text], { ...PLACE, offset_min: -30 });
  expect(got.recognition.columns[0]).toMatchObject({ quantity: 'ghi', unit: 'lx' });
  const noon = known.ghi_W_m2.indexOf(Math.max(...known.ghi_W_m2));
  const read = got.hourly.columns.ghi![noon + (known.start_ms - got.hourly.start_ms) / HOUR]!;
  expect(Math.abs(read / known.ghi_W_m2[noon]! - 1)).toBeLessThan(0.1);
});

test('true solar time is turned into UTC within a quarter of a minute', async () => {
  const known = knownSeries(Date.UTC(2025, 5, 1), 30);
  const lines = ['true solar time,GHI (W/m2),temp (C)'];
  for (let i = 0; i < known.count; i++) {
    // Hours of solar time: stamps of the file are whole, those of UTC are not.
    lines.push(`${wall(known, i).toFormat('yyyy-MM-dd HH:mm')},${one(ghi(known, i))},${one(air(known, i))}`);
  }
  const got = await readText([lines.join('\n')], { ...PLACE, offset_min: 0 });
  expect(got.recognition.stamp.zone.kind).toBe('solar');
  for (const row of [0, 300, 700]) {
    const solar_ms = known.start_ms + row * HOUR;
    const utc_ms = got.series.stamp_ms[row]!;
    const back_ms =
      utc_ms + PLACE.place.longitude_deg * 240_000 + sunOfDay(utc_ms).equationOfTime_min * 60_000;
    expect(Math.abs(back_ms - solar_ms)).toBeLessThan(15_000);
  }
});

test('an irregular logger is weighted by time', async () => {
  const known = knownSeries(Date.UTC(2025, 5, 1), 20);
  const lines = ['time utc,GHI (W/m2),temp (C)'];
  let ms = known.start_ms;
  // A straight climb: its mean over any hour is its value in the middle, however it is sampled.
  for (let i = 0; ms < known.start_ms + 20 * 24 * HOUR; i++) {
    const minutes = (ms - known.start_ms) / 60_000;
    const light = Math.max(0, 800 * Math.sin(((minutes / 1440) * 2 - 0.5) * Math.PI));
    lines.push(`${new Date(ms).toISOString().slice(0, 19)},${light},${minutes / 1000}`);
    ms += (1 + ((i * 7919) % 11)) * 30_000;
  }
  const got = await readText([lines.join('\n')], { ...PLACE, offset_min: 0 });
  expect(got.recognition.stamp.irregular).toBe(true);
  for (const hour of [3, 100, 400]) {
    expect(got.hourly.columns.air_temperature![hour]).toBeCloseTo((hour + 0.5) * 0.06, 9);
  }
});

test('stamps a minute before the full hour are taken for the hour', async () => {
  const text = [
    'time utc,GHI (W/m2),air (degC)',
    ...rows(
      SPRING,
      (i) =>
        `${wall(SPRING, i, 59).toFormat('yyyy-MM-dd HH:mm')},${one(ghi(SPRING, i))},${one(air(SPRING, i))}`,
    ),
  ].join('\n');
  const got = await readText([text], { ...PLACE, offset_min: 30 });
  expect(off(got, 'ghi', SPRING.ghi_W_m2, SPRING.start_ms)).toBeLessThan(0.06);
});

test('rows of three hours are shared out by the height of the sun and keep their mean', async () => {
  const known = knownSeries(Date.UTC(2025, 5, 1), 30);
  const lines = ['start utc,GHI (W/m2),temp (C)'];
  const mean = (i: number): number => (ghi(known, i) + ghi(known, i + 1) + ghi(known, i + 2)) / 3;
  for (let i = 0; i < known.count; i += 3) {
    lines.push(`${wall(known, i).toFormat('yyyy-MM-dd HH:mm')},${mean(i)},${air(known, i)}`);
  }
  const { series } = await readText([lines.join('\n')], PLACE);
  expect(series.step_s).toBe(10_800);
  const { columns, start_ms } = toHourly(series, -90, PLACE.place);
  expect(start_ms).toBe(known.start_ms);
  for (let i = 0; i < known.count; i += 3) {
    const got = [0, 1, 2].map((k) => columns.ghi![i + k]!);
    expect((got[0]! + got[1]! + got[2]!) / 3).toBeCloseTo(mean(i), 9);
    for (const [k, value] of got.entries()) if (ghi(known, i + k) === 0) expect(value).toBe(0);
  }
});
