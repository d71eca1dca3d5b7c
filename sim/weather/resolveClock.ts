import { InputProblem } from '../common/InputProblem.ts';
import { utcText } from '../tables/civilMs.ts';
import type { PlaceSlip } from './clock/checkSiteBySun.ts';
import { explainingPairs, type StampReading } from './clock/explainingPairs.ts';
import { judgeClock } from './clock/judgeClock.ts';
import type { SunClockCheck } from './clock/sunClockCheck.ts';
import { claimText, clockText, minutesText, placeTyped, readingsText, zoneTyped } from './clockWords.ts';
import type { NativeSeries } from './read/NativeSeries.ts';
import type { DetectedFormat, StampLabel } from './recognise/DetectedFormat.ts';

const ACCEPT = "--believe sun accepts the sun's correction";
const INSIST = "--believe file insists on the file's word (in a scenario, weather.believe)";

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

/**
 * What the stamps of a series mean: the claim of the file (or the user) laid beside the sun. Where the claim is
 * whole, the sun must not gainsay it; where it says only the zone or only the mark, the sun settles the other;
 * where it says neither, one reading with a clock on whole hours must be left.
 *
 * in: file, name for messages; series; recognition, with its claims; clockCheck; trust
 * out: the offset in minutes and whose word it is
 * throws: WEATHER_CLOCK where file and sun disagree, with the correction; WEATHER_AMBIGUOUS with the choices
 */
export function resolveClock(
  file: string,
  series: NativeSeries,
  recognition: DetectedFormat,
  clockCheck: SunClockCheck,
  trust: ClockTrust,
): ResolvedClock {
  const { zone } = recognition.stamp;
  const label = series.fileStep_s === 0 ? 'middle' : recognition.stamp.label.label;
  const step_s = series.fileStep_s === 0 ? series.step_s : series.fileStep_s;
  const claimed_min = label === undefined ? undefined : offsetOf(label, 0, step_s);
  const seen = seenText(clockCheck);
  const stretches: ResolvedClock['stretches'] = [];
  const choices = explainingPairs(clockCheck.reading.offset_min, step_s, {
    tolerance_min: Math.max(10, Math.min(30, 2 * clockCheck.reading.uncertainty_min)),
  });
  if (trust === 'file') {
    if (claimed_min === undefined || zone.kind === 'unstated')
      throw unsaid(file, recognition, clockCheck, choices);
    return {
      offset_min: claimed_min,
      stretches,
      choices,
      words: `the file's word, insisted on by the user: ${claimText(recognition)}; by the sun, ${seen}`,
    };
  }
  refusePlace(file, clockCheck, trust);
  if (clockCheck.pattern !== 'one clock') {
    const other = otherPattern(file, recognition, clockCheck, trust, step_s);
    if (other !== undefined) return { ...other, choices };
  }
  if (claimed_min !== undefined && zone.kind !== 'unstated') {
    const judgement = judgeClock(clockCheck.reading, step_s, { marks: label!, slips: clockCheck.site.slips });
    if (judgement.verdict !== 'disagrees') {
      return {
        offset_min: claimed_min,
        stretches,
        choices,
        words: `${claimText(recognition)}; ${judgement.because}`,
      };
    }
    const proposed = judgement.proposed;
    if (trust === 'sun' && proposed !== undefined) {
      return {
        offset_min: offsetOf(proposed.marks, proposed.clockAhead_min, step_s),
        stretches,
        choices,
        words: `the sun's correction, accepted by the user: stamps ${readingsText([proposed])}; the file says ${claimText(recognition)}`,
      };
    }
    const place = judgement.slips.map(slipText).join(', or ');
    const same = typed(choices, recognition).map((text) => ` or ${text}`);
    const off = clockText(Math.round(judgement.offBy_min));
    throw new InputProblem({
      code: 'WEATHER_CLOCK',
      file,
      got: `${claimText(recognition)}; by the sun that is a ${off} (to ${minutesText(clockCheck.reading.uncertainty_min)})`,
      expected: 'stamps that agree with the sun to 10 minutes',
      fix:
        proposed === undefined
          ? `correct the clock, or ${INSIST}.`
          : `${place === '' ? '' : `is the place wrong, ${place}? Else `}--believe sun${same.join('')} takes the sun's correction; ${INSIST}.`,
    });
  }
  const decided = clockCheck.reading.verdict === 'decided';
  const fitting = choices.filter(
    (choice) =>
      (label === undefined || choice.marks === label) &&
      (zone.kind === 'unstated' ? choice.clockAhead_min % 60 === 0 : choice.clockAhead_min === 0),
  );
  // Marks of fine steps lie nearer to each other than the sun can tell: the nearest is within the promised 10 minutes.
  const fine = step_s <= 1200 && zone.kind !== 'unstated';
  const taken =
    fitting.length === 1 || (fine && fitting.length > 1) || trust === 'sun'
      ? nearest(fitting, choices)
      : undefined;
  if (
    decided &&
    fitting.length === 0 &&
    zone.kind !== 'unstated' &&
    taken === undefined &&
    choices[0] !== undefined
  ) {
    throw new InputProblem({
      code: 'WEATHER_CLOCK',
      file,
      got: `${claimText(recognition)}, which no mark explains; by the sun ${seen}`,
      expected: 'stamps that agree with the sun to 10 minutes',
      fix: `${typed(choices, recognition).join(', or ')} (in a scenario, weather.zone and weather.marks); --believe sun takes the first.`,
    });
  }
  if (!decided || taken === undefined)
    throw unsaid(file, recognition, clockCheck, fitting.length > 0 ? fitting : choices);
  return {
    offset_min: offsetOf(taken.marks, taken.clockAhead_min, step_s),
    stretches,
    choices,
    words: `${claimText(recognition)}; by the sun ${readingsText([taken])}`,
  };
}

/** Clocks that change within the file, or keep the sun's own time. */
function otherPattern(
  file: string,
  recognition: DetectedFormat,
  clockCheck: SunClockCheck,
  trust: ClockTrust,
  step_s: number,
): Omit<ResolvedClock, 'choices'> | undefined {
  const { zone } = recognition.stamp;
  const refuse = (got: string, expected: string, fix: string): InputProblem =>
    new InputProblem({ code: 'WEATHER_CLOCK', file, got, expected, fix });
  if (clockCheck.pattern === 'summer time' && zone.kind !== 'civil') {
    const name = clockCheck.daylightSaving!.zone;
    if (trust === 'sun') {
      return {
        offset_min: 0,
        stretches: [],
        zone: name,
        words: `the sun's correction, accepted by the user: the clock of ${name}`,
      };
    }
    throw refuse(
      `${claimText(recognition)}, but the sun says that the clock keeps summer time as in ${name}`,
      'one clock throughout, or its zone',
      `--zone ${name} (in a scenario, weather.zone), ${ACCEPT}, or ${INSIST}.`,
    );
  }
  if (clockCheck.pattern === 'true solar time' && zone.kind !== 'solar') {
    if (trust === 'sun') {
      return {
        offset_min: 0,
        stretches: [],
        zone: 'solar',
        words: "the sun's correction, accepted by the user: true solar time",
      };
    }
    throw refuse(
      `${claimText(recognition)}, but the stamps follow true solar time`,
      'a clock that runs evenly',
      `--zone solar (in a scenario, weather.zone), ${ACCEPT}, or ${INSIST}.`,
    );
  }
  const decided = clockCheck.segments.filter(({ reading }) => reading.verdict === 'decided');
  if (clockCheck.pattern !== 'changes' || decided.length < 2) return undefined;
  const text = decided
    .map(
      ({ firstDay_ms, lastDay_ms, reading }) =>
        `${minutesText(reading.offset_min)} from ${utcText(firstDay_ms).slice(0, 10)} to ${utcText(lastDay_ms).slice(0, 10)}`,
    )
    .join(', ');
  if (trust !== 'sun') {
    throw refuse(
      `stamps whose meaning changes within the file: stamp minus middle of the interval is ${text}`,
      'one convention throughout',
      `${ACCEPT}, stretch by stretch, or ${INSIST}.`,
    );
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

function refusePlace(file: string, clockCheck: SunClockCheck, trust: ClockTrust): void {
  if (clockCheck.site.verdict !== 'cannot be right' || trust === 'sun') return;
  const place = clockCheck.site.slips.map(slipText).join(', or ');
  throw new InputProblem({
    code: 'WEATHER_CLOCK',
    file,
    field: 'site.latitude_deg',
    got: `a place whose days have other lengths than the light shows (that of about ${clockCheck.site.latitudeSeen_deg} degrees)`,
    expected: 'the place the light was measured at',
    fix: place === '' ? 'state the place, as --place 54,10 (in a scenario, site).' : `is it ${place}?`,
  });
}

function unsaid(
  file: string,
  recognition: DetectedFormat,
  clockCheck: SunClockCheck,
  choices: readonly StampReading[],
): InputProblem {
  const { verdict, reason } = clockCheck.reading;
  const listed = likely(choices);
  const fixes = typed(listed, recognition);
  return new InputProblem({
    code: 'WEATHER_AMBIGUOUS',
    file,
    field: 'stamp',
    got:
      verdict === 'decided'
        ? `${claimText(recognition)}: the sun allows stamps ${readingsText(listed)}`
        : `${claimText(recognition)}, and the sun cannot tell (${reason})`,
    expected:
      'the zone of the clock, and whether stamps mark the start, the middle or the end of the interval',
    fix:
      verdict === 'decided' && fixes.length > 0
        ? `${fixes.join(', or ')} (in a scenario, weather.zone and weather.marks).`
        : '--zone and --marks, such as --zone +01:00 --marks end (in a scenario, weather.zone and weather.marks).',
  });
}

/** The options that say what the file does not, or says wrong, one text for each of the likeliest readings. */
function typed(choices: readonly StampReading[], { stamp: { zone, label } }: DetectedFormat): string[] {
  const standing_min = zone.kind === 'fixed' ? zone.offset_min : 0;
  const texts = likely(choices).map(({ marks, clockAhead_min }) => {
    const keepsZone = zone.kind === 'civil' || (zone.kind !== 'unstated' && clockAhead_min === 0);
    return [
      keepsZone ? '' : `--zone ${zoneTyped(standing_min + clockAhead_min)}`,
      label.label === marks ? '' : `--marks ${marks}`,
    ]
      .filter((word) => word !== '')
      .join(' ');
  });
  return [...new Set(texts)].filter((text) => text !== '');
}

/** The readings worth naming: clocks off by whole hours, if there are any. */
function likely(choices: readonly StampReading[]): StampReading[] {
  const wholeHours = choices.filter(({ clockAhead_min }) => clockAhead_min % 60 === 0);
  return (wholeHours.length > 0 ? wholeHours : choices).slice(0, 2);
}

function seenText({ reading }: SunClockCheck): string {
  const { offset_min, uncertainty_min } = reading;
  const side = offset_min < 0 ? 'before' : 'after';
  return `stamps stand ${minutesText(Math.abs(offset_min))} ${side} the middle of the interval, to ${minutesText(uncertainty_min)}`;
}

function slipText({ slip, latitude_deg, longitude_deg }: PlaceSlip): string {
  return `${slip}: ${placeTyped(latitude_deg, longitude_deg)}`;
}

function nearest(
  fitting: readonly StampReading[],
  choices: readonly StampReading[],
): StampReading | undefined {
  const list = fitting.length > 0 ? fitting : choices.slice(0, 1);
  return list.toSorted((a, b) => Math.abs(a.misfit_min) - Math.abs(b.misfit_min))[0];
}

function offsetOf(marks: StampLabel, clockAhead_min: number, step_s: number): number {
  const half = step_s / 120;
  return (marks === 'start' ? -half : marks === 'end' ? half : 0) + clockAhead_min;
}
