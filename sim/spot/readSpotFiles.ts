import { readLightLog } from './measured/readLightLog.ts';
import { readLoggedLight } from './measured/readLoggedLight.ts';
import type { SpotFiles } from './SpotFiles.ts';
import { horizonProfile } from './shade/horizonProfile.ts';
import { readShadingTrace } from './shade/readShadingTrace.ts';
import type { ReadFile, SpotParams } from './spotParams.ts';

/**
 * What the files that a spot names say: horizon profile, shading, logs of light.
 *
 * in: spot; readFile, gives the bytes of a file
 * throws: SPOT_PROFILE, WEATHER_VALUE_OUT_OF_RANGE; the codes of tables and files
 */
export function readSpotFiles(
  { horizon, shading, measured, loggedLight }: SpotParams,
  readFile: ReadFile,
): SpotFiles {
  const named = ({ file }: { file: string }) => ({ name: file, bytes: readFile(file) });
  return {
    horizon: horizon && horizonProfile(named(horizon)),
    shading: shading && 'file' in shading ? readShadingTrace(named(shading), shading) : undefined,
    measured: measured && readLightLog(named(measured), measured),
    loggedLight: loggedLight && readLoggedLight(named(loggedLight), loggedLight),
  };
}
