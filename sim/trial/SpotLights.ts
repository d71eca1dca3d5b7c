import type { SpotFiles } from '../spot/SpotFiles.ts';
import { type SpotPlace, spotPlace } from '../spot/SpotPlace.ts';
import { shadingShares } from '../spot/shade/shadingShares.ts';
import { skyCalendar } from '../spot/sky/SkyCalendar.ts';
import { type OpenSky, openSky } from '../spot/sky/skyColumns.ts';
import { lightInSpot, type SpotLight, spotLight } from '../spot/spotLight.ts';
import type { SpotParams } from '../spot/spotParams.ts';
import type { Site } from '../sun/Site.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';

/**
 * The light of spots under one weather record, each made once: sun and sky for all of them, place and obstacles for
 * those that only dirt, snow on the lid or a fixed
 * shade tell apart. For the spots of a scenario see `scenarioLights`.
 */
export class SpotLights {
  private readonly site: Site;
  private readonly weather: WeatherRecord | undefined;
  private readonly filesOf: (spot: SpotParams) => SpotFiles;
  readonly sky: OpenSky | undefined;
  private readonly most: number;
  private readonly lights = new Map<string, SpotLight>();
  private readonly places = new Map<string, SpotPlace>();

  /**
   * in: site; weather, undefined where all light was logged on the cells; filesOf, what the files say that a spot names,
   *   asked for when its place is made; sky, over that weather unless another is tried; most, how many lights and how
   *   many places are kept: those last asked for; all unless stated
   */
  constructor(
    site: Site,
    weather: WeatherRecord | undefined,
    filesOf: (spot: SpotParams) => SpotFiles,
    sky = weather && openSky(weather, skyCalendar(weather, site)),
    most = Number.POSITIVE_INFINITY,
  ) {
    this.site = site;
    this.weather = weather;
    this.filesOf = filesOf;
    this.sky = sky;
    this.most = most;
  }

  /**
   * The light of a spot.
   * throws: as `spotLight`, and what reading its files throws
   */
  of(spot: SpotParams): SpotLight {
    return this.kept(this.lights, spot, () => this.made(spot));
  }

  /** Knows all that this one knows, and keeps to itself what it makes. */
  branch(): SpotLights {
    const branch: SpotLights = Object.create(SpotLights.prototype);
    return Object.assign(branch, this, { lights: new Map(this.lights), places: new Map(this.places) });
  }

  /** The same spots under other weather of the same hours: places and obstacles stay as they are. */
  under(weather: WeatherRecord, sky: OpenSky): SpotLights {
    return Object.assign(this.branch(), { weather, sky, lights: new Map() });
  }

  private made(spot: SpotParams): SpotLight {
    const { sky, site, weather, filesOf } = this;
    if (sky === undefined || spot.loggedLight !== undefined)
      return spotLight(weather, site, spot, filesOf(spot), sky);
    const { shading, ...unshaded } = spot;
    const isFile = shading !== undefined && 'file' in shading;
    const bare = { ...unshaded, dirtLoss: 0, snow: { ...spot.snow, on_lid: false } };
    const known = { ...bare, shading: isFile ? shading : undefined };
    const place = this.kept(this.places, known, () => spotPlace(known, sky.calendar, filesOf(spot)));
    const shade = isFile ? place.shading : shadingShares(shading, undefined, sky.calendar.sun);
    return lightInSpot({ ...place, spot, shading: shade }, sky);
  }

  private kept<Value>(known: Map<string, Value>, spot: SpotParams, make: () => Value): Value {
    const key = JSON.stringify(spot);
    const value = known.get(key) ?? make();
    // Those last asked for stand last.
    known.delete(key);
    known.set(key, value);
    if (known.size > this.most) known.delete(known.keys().next().value!);
    return value;
  }
}
