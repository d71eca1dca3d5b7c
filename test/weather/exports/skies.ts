import { Body, Equator, MakeTime, Observer, SiderealTime } from 'astronomy-engine';
import { type RandomStream, randomStream } from '../../../sim/common/random.ts';

const HOUR = 3_600_000;
const DAY = 24 * HOUR;
const RADIAN = Math.PI / 180;

/** Hours of invented weather at a place, by a sun, a clear sky and clouds that the tool does not share. */
export interface Sky {
  latitude_deg: number;
  longitude_deg: number;
  start_ms: number;
  hours: number;
  ghi_W_m2: Float64Array;
  /** Direct light on the horizontal, direct light facing the sun, diffuse light. */
  bhi_W_m2: Float64Array;
  dni_W_m2: Float64Array;
  dhi_W_m2: Float64Array;
  /** Global light of a clear sky, and what falls on the horizontal outside the air. */
  clear_W_m2: Float64Array;
  outside_W_m2: Float64Array;
  air_degC: Float64Array;
}

export interface SkyWishes extends Pick<Sky, 'latitude_deg' | 'longitude_deg' | 'start_ms' | 'hours'> {
  seed: number;
  /** Height of what stands towards east and towards west, degrees. */
  east_deg: number;
  west_deg: number;
}

/** Parts of an hour that are summed. */
const PARTS = 6;

export function sky(wishes: SkyWishes): Sky {
  const { seed, latitude_deg, longitude_deg, start_ms, hours, east_deg, west_deg } = wishes;
  const random = randomStream(seed, 'sky');
  const sun = sunTrack(wishes);
  const cloud = clouds(random, start_ms, hours);
  const column = () => new Float64Array(hours);
  const made: Sky = {
    ...{ latitude_deg, longitude_deg, start_ms, hours },
    ...{ ghi_W_m2: column(), bhi_W_m2: column(), dni_W_m2: column(), dhi_W_m2: column() },
    ...{ clear_W_m2: column(), outside_W_m2: column(), air_degC: column() },
  };
  let departure = random.normal();
  for (let i = 0; i < hours; i++) {
    for (let part = 0.5; part < PARTS; part++) {
      const at_ms = start_ms + (i + part / PARTS) * HOUR;
      const { altitude_deg, solarHour } = sun(at_ms);
      const sine = Math.sin(altitude_deg * RADIAN);
      const [beam, diffuse] = lightOf(altitude_deg, cloud(at_ms), solarHour < 12 ? east_deg : west_deg);
      const [clearBeam, clearDiffuse] = lightOf(altitude_deg, 1.05, 0);
      made.ghi_W_m2[i]! += (beam + diffuse) / PARTS;
      made.bhi_W_m2[i]! += beam / PARTS;
      made.dhi_W_m2[i]! += diffuse / PARTS;
      made.dni_W_m2[i]! += altitude_deg > 0.5 ? Math.min(1100, beam / sine) / PARTS : 0;
      made.clear_W_m2[i]! += (clearBeam + clearDiffuse) / PARTS;
      made.outside_W_m2[i]! += (1361 * Math.max(0, sine)) / PARTS;
    }
    departure = 0.985 * departure + 0.17 * random.normal();
    const middle_ms = start_ms + (i + 0.5) * HOUR;
    made.air_degC[i] = usualAir(latitude_deg, middle_ms, sun(middle_ms).solarHour) + 4 * departure;
  }
  return made;
}

function usualAir(latitude_deg: number, at_ms: number, solarHour: number): number {
  const size = Math.abs(latitude_deg);
  const turn = ((at_ms / DAY - 20) / 365.2425) * 2 * Math.PI;
  const season = -Math.cos(turn) * (latitude_deg < 0 ? -1 : 1);
  return 27 - 0.36 * size + (2 + 0.14 * size) * season + 3 * Math.cos((solarHour - 14.5) * (Math.PI / 12));
}

/** Altitude (with refraction) and true solar hour at an instant: an ephemeris every six hours, lines between. */
function sunTrack({ latitude_deg, longitude_deg, start_ms, hours }: SkyWishes) {
  const observer = new Observer(0, 0, 0);
  const from_ms = start_ms - DAY;
  const knots = Math.ceil(hours / 6) + 13;
  const [dec, ra, sidereal] = [new Float64Array(knots), new Float64Array(knots), new Float64Array(knots)];
  for (let i = 0; i < knots; i++) {
    const time = MakeTime(new Date(from_ms + i * (DAY / 4)));
    const place = Equator(Body.Sun, time, observer, true, true);
    dec[i] = place.dec;
    ra[i] = place.ra;
    sidereal[i] = SiderealTime(time);
  }
  const phi = latitude_deg * RADIAN;
  return (at_ms: number) => {
    const position = (at_ms - from_ms) / (DAY / 4);
    const low = Math.floor(position);
    const part = position - low;
    const step = ra[low + 1]! - ra[low]!;
    const turn = step < -12 ? step + 24 : step;
    const declination = (dec[low]! + part * (dec[low + 1]! - dec[low]!)) * RADIAN;
    const hour = sidereal[low]! + part * 6 * 1.00273791 + longitude_deg / 15 - (ra[low]! + part * turn);
    const sine =
      Math.sin(phi) * Math.sin(declination) +
      Math.cos(phi) * Math.cos(declination) * Math.cos((hour * Math.PI) / 12);
    const true_deg = Math.asin(sine) / RADIAN;
    const lift_deg =
      true_deg > -1.5 ? 1.02 / Math.tan((true_deg + 10.3 / (true_deg + 5.11)) * RADIAN) / 60 : 0;
    return { altitude_deg: true_deg + Math.max(0, lift_deg), solarHour: (((hour + 12) % 24) + 24) % 24 };
  };
}

/** Beam and diffuse on the horizontal, W/m2, under clouds that let `through` pass, past a horizon so high. */
function lightOf(altitude_deg: number, through: number, horizon_deg: number): [number, number] {
  if (altitude_deg < -7) return [0, 0];
  if (altitude_deg < 0) return [0, 3.5 * 0.46 ** -altitude_deg * Math.sqrt(through)];
  const sine = Math.sin(altitude_deg * RADIAN);
  const mass = 1 / (sine + 0.025 * Math.exp(-11 * sine));
  const beam = altitude_deg > horizon_deg ? 1361 * 0.7 ** (mass ** 0.678) * sine : 0;
  const blue = (3.5 + 110 * sine ** 0.75) * (1 - Math.min(0.5, horizon_deg / 120));
  const beamThrough = Math.max(0, (through - 0.35) / 0.65);
  const scattered = beamThrough > 0 ? 1 + 0.8 * Math.max(0, 1 - beamThrough) : 1;
  return [beam * beamThrough, blue * scattered * Math.min(1, through / 0.35) ** 0.9];
}

/** What clouds let pass at an instant: days and hours that stray from the usual, each remembering the one before. */
function clouds(random: RandomStream, start_ms: number, hours: number): (at_ms: number) => number {
  const line = new Float64Array(hours + 48);
  let [day, hour] = [random.normal(), random.normal()];
  const middle = -0.9 + 1.6 * random.uniform();
  for (let h = 0; h < line.length; h++) {
    if (h % 24 === 0) day = 0.6 * day + 0.8 * random.normal();
    hour = 0.75 * hour + 0.66 * random.normal();
    line[h] = middle + 1.3 * day + 0.8 * hour;
  }
  return (at_ms) => {
    const position = (at_ms - start_ms) / HOUR + 24;
    const low = Math.max(0, Math.min(line.length - 2, Math.floor(position)));
    const part = position - low;
    const here = line[low]! * (1 - part) + line[low + 1]! * part;
    return Math.max(0.04, 0.06 + 1 / (1 + Math.exp(-here)));
  };
}
