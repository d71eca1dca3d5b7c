import { InputProblem } from '../../common/InputProblem.ts';
import { utcText } from '../../common/time.ts';
import type { DetectedFormat } from '../recognise/DetectedFormat.ts';
import { claimText, minutesText } from './clockWords.ts';
import { explainingPairs, offsetOf, type StampReading } from './stampReadings.ts';
import type { SunClockCheck } from './sunClockCheck.ts';

/** Whom to believe where file and sun disagree: nobody (refuse), the sun's correction, the file's word. */
export type ClockTrust = 'neither' | 'sun' | 'file';

/** What the stamps were taken to mean, and on whose word. */
export interface ResolvedClock {
  /** Stamp minus middle of the interval, minutes; of stretches with conventions of their own, each. */
  offset_min: number;
  stretches: { from_ms: number; offset_min: number }[];
  /** A zone the sun says the clock keeps; then the file is to be read again with it. */
  zone?: string;
  /** On whose word, and what the sun says, in words. */
  words: string;
  /** Readings of the stamps that explain what the sun says, the likeliest first. */
  choices: StampReading[];
}

/** What a judgement rests on. */
export interface ClockCase {
  /** Name for messages. */
  file: string;
  stamp: DetectedFormat['stamp'];
  check: SunClockCheck;
  trust: ClockTrust;
  /** Length of the interval that a mark speaks of. */
  step_s: number;
  longitude_deg: number;
}

/**
 * The clock where the sun says that it changes within the file, or keeps the sun's own time, and the claim does not;
 * undefined where one clock is the answer.
 *
 * in: known, claim, sun and trust; throws: WEATHER_CLOCK unless the user believes the sun
 */
export function patternClock(known: ClockCase): Omit<ResolvedClock, 'choices'> | undefined {
  const { stamp, check } = known;
  if (check.pattern === 'summer time' && stamp.zone.kind !== 'civil') {
    const { zone } = check.daylightSaving!;
    return byZone(known, zone, {
      but: `the sun says that the clock keeps summer time as in ${zone}`,
      expected: 'one clock throughout, or its zone',
    });
  }
  if (check.pattern === 'true solar time' && stamp.zone.kind !== 'solar') {
    return byZone(known, 'solar', {
      but: 'the stamps follow true solar time',
      expected: 'a clock that runs evenly',
    });
  }
  return check.pattern === 'changes' ? byStretches(known) : undefined;
}

/** The file is to be read again with a zone. */
function byZone(
  { file, stamp, trust }: ClockCase,
  zone: string,
  { but, expected }: { but: string; expected: string },
): Omit<ResolvedClock, 'choices'> {
  if (trust === 'sun') {
    const words = `the sun's correction, accepted by the user: ${but}`;
    return { offset_min: 0, stretches: [], zone, words };
  }
  const said = stamp.zone.kind !== 'unstated' && stamp.label.label !== undefined;
  throw new InputProblem({
    code: 'WEATHER_CLOCK',
    file,
    got: `${claimText(stamp)}, but ${but}`,
    expected,
    typed: [`--zone ${zone}`, '--believe sun', ...(said ? ['--believe file'] : [])],
    fix: `--zone ${zone} (in a scenario, weather.zone), or --believe sun to take that${said ? "; --believe file insists on the file's word (in a scenario, weather.believe)" : ''}.`,
  });
}

function byStretches({
  file,
  stamp,
  check,
  trust,
  step_s,
}: ClockCase): Omit<ResolvedClock, 'choices'> | undefined {
  const decided = check.segments.filter(({ reading }) => reading.verdict === 'decided');
  if (decided.length < 2) return undefined;
  const text = decided
    .map(
      ({ firstDay_ms, lastDay_ms, reading }) =>
        `${minutesText(reading.offset_min)} from ${utcText(firstDay_ms).slice(0, 10)} to ${utcText(lastDay_ms).slice(0, 10)}`,
    )
    .join(', ');
  if (trust !== 'sun') {
    const said = stamp.zone.kind !== 'unstated' && stamp.label.label !== undefined;
    throw new InputProblem({
      code: 'WEATHER_CLOCK',
      file,
      got: `stamps whose meaning changes within the file: stamp minus middle of the interval is ${text}`,
      expected: 'one convention throughout',
      typed: ['--believe sun', ...(said ? ['--believe file'] : [])],
      fix: `--believe sun takes the sun's correction, stretch by stretch${said ? "; --believe file insists on the file's word" : ''} (in a scenario, weather.believe).`,
    });
  }
  const stretches = decided.map(({ firstDay_ms, reading }) => {
    const pair = explainingPairs(reading.offset_min, step_s)[0];
    return {
      from_ms: firstDay_ms,
      offset_min:
        pair === undefined
          ? Math.round(reading.offset_min)
          : offsetOf(pair.marks, pair.clockAhead_min, step_s),
    };
  });
  return {
    offset_min: stretches[0]!.offset_min,
    stretches,
    words: `the sun's correction of each stretch, accepted by the user: ${text}`,
  };
}
