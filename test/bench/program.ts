// What the benches call, in one file, so that it can be compiled as the program is: built.ts.

export { loadTable } from '../../sim/lamp/loadTable.ts';
export { lampParams } from '../../sim/lamp/params.ts';
export { packedPlain } from '../../sim/output/page/packedPlain.ts';
export { loadScenario } from '../../sim/scenario/loadScenario.ts';
export { designSpace } from '../../sim/sizing/DesignSpace.ts';
export { sizeLamp } from '../../sim/sizing/sizeLamp.ts';
export { readSpotFiles } from '../../sim/spot/readSpotFiles.ts';
export { spotPlace } from '../../sim/spot/SpotPlace.ts';
export { skyCalendar } from '../../sim/spot/sky/SkyCalendar.ts';
export { openSky } from '../../sim/spot/sky/skyColumns.ts';
export { lightInSpot, spotLight } from '../../sim/spot/spotLight.ts';
export { fileSource, readTextFile } from '../../sim/tables/TableSource.ts';
export { LiveTrials } from '../../sim/trial/live/LiveTrials.ts';
export { liveRunOf } from '../../sim/trial/live/liveRunOf.ts';
export { loadWeather } from '../../sim/trial/loadWeather.ts';
export { MadeTrials } from '../../sim/trial/MadeTrials.ts';
export { runAll } from '../../sim/trial/runAll.ts';
export { runNights, runTrial } from '../../sim/trial/runTrial.ts';
export { importWeather } from '../../sim/weather/importWeather.ts';
export { readRecognised } from '../../sim/weather/read/readRecognised.ts';
export { recognise } from '../../sim/weather/recognise/recognise.ts';
export { outside } from '../year/besideOutside.ts';
