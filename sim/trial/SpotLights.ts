import { Kept } from '../common/Kept.ts';
import type { SpotFiles } from '../spot/SpotFiles.ts';
import { type SpotPlace, type SpotScene, spotPlace, spotScene } from '../spot/SpotPlace.ts';
import { shadingShares } from '../spot/shade/shadingShares.ts';
import { skyCalendar } from '../spot/sky/SkyCalendar.ts';
import { type OpenSky, openSky } from '../spot/sky/skyColumns.ts';
import { lightInSpot, type SpotLight, spotLight } from '../spot/spotLight.ts';
import type { SpotParams } from '../spot/spotParams.ts';
import type { Site } from '../sun/Site.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';

/** What spots see of sun and sky is large: 2 MB a year. */
const MOST_SCENES = 3;

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
  private readonly lights: Kept<SpotLight>;
  private readonly places: Kept<SpotPlace>;
  private readonly scenes: Kept<SpotScene>;

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
    this.lights = new Kept(most);
    this.places = new Kept(most);
    this.scenes = new Kept(MOST_SCENES);
  }

  /**
   * The light of a spot.
   * throws: as `spotLight`, and what reading its files throws
   */
  of(spot: SpotParams): SpotLight {
    return this.lights.of([spot], () => this.made(spot));
  }

  /** Knows all that this one knows, and keeps to itself what it makes. */
  branch(): SpotLights {
    const branch: SpotLights = Object.create(SpotLights.prototype);
    const { lights, places, scenes } = this;
    return Object.assign(branch, this, {
      lights: lights.copy(),
      places: places.copy(),
      scenes: scenes.copy(),
    });
  }

  /** The same spots under other weather of the same hours: places and obstacles stay as they are. */
  under(weather: WeatherRecord, sky: OpenSky): SpotLights {
    return Object.assign(this.branch(), { weather, sky, lights: this.lights.empty() });
  }

  private made(spot: SpotParams): SpotLight {
    const { sky, site, weather, filesOf } = this;
    if (sky === undefined || spot.loggedLight !== undefined)
      return spotLight(weather, site, spot, filesOf(spot), sky);
    const { shading, ...unshaded } = spot;
    const isFile = shading !== undefined && 'file' in shading;
    const bare = { ...unshaded, dirtLoss: 0, snow: { ...spot.snow, on_lid: false } };
    const known = { ...bare, shading: isFile ? shading : undefined };
    const place = this.places.of([known], () => {
      const files = filesOf(spot);
      const { cellTilt_deg: _t, cellBearing_deg: _b, cover: _c, cellFront: _f, ...around } = bare;
      const scene = this.scenes.of([around], () => spotScene(known, sky.calendar, files));
      return spotPlace(known, sky.calendar, files, undefined, scene);
    });
    const shade = isFile ? place.shading : shadingShares(shading, undefined, sky.calendar.sun);
    return lightInSpot({ ...place, spot, shading: shade }, sky);
  }
}
