import { InputProblem } from '../common/InputProblem.ts';
import type { NativeSeries } from './read/NativeSeries.ts';
import type { Recognition, StampLabel } from './recognise/Recognition.ts';
import { utcText } from './utcText.ts';
import { explainingPairs, type StampReading } from './witness/explainingPairs.ts';
import { judgeClock } from './witness/judgeClock.ts';
import type { SunWitness } from './witness/sunWitness.ts';

/** Whom to believe where file and sun disagree: nobody (refuse), the sun's correction, the file's word. */
export type ClockTrust = 'neither' | 'sun' | 'file';

/** What the stamps were taken to mean, and on whose word. */
export interface SettledClock {
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
 * in: file, name for messages; series; recognition, with its claims; witness; trust
 * out: the offset in minutes and whose word it is
 * throws: WEATHER_CLOCK where file and sun disagree, with the correction; WEATHER_AMBIGUOUS with the choices
 */
export function settleClock(
  file: string,
  series: NativeSeries,
  recognition: Recognition,
  witness: SunWitness,
  trust: ClockTrust,
): SettledClock {
  const { zone } = recognition.stamp;
  const label = series.fileStep_s === 0 ? 'middle' : recognition.stamp.label.label;
  const step_s = series.fileStep_s === 0 ? series.step_s : series.fileStep_s;
  const claimed_min = label === undefined ? undefined : offsetOf(label, 0, step_s);
  const seen = `the sun says ${minutesText(witness.reading.offset_min)} from the middle of the interval to the stamp, to ${witness.reading.uncertainty_min.toFixed(0)} minutes`;
  const stretches: SettledClock['stretches'] = [];
  const choices = explainingPairs(witness.reading.offset_min, step_s, {
    tolerance_min: Math.max(10, Math.min(30, 2 * witness.reading.uncertainty_min)),
  });
  if (trust === 'file') {
    if (claimed_min === undefined || zone.kind === 'unstated') throw unsaid(file, witness, choices, seen);
    return {
      offset_min: claimed_min,
      stretches,
      choices,
      words: `the file's word against the sun's by wish of the user: ${claimText(recognition)}; ${seen}`,
    };
  }
  refusePlace(file, witness, trust);
  if (witness.pattern !== 'one clock') {
    const other = otherPattern(file, recognition, witness, trust, step_s);
    if (other !== undefined) return { ...other, choices };
  }
  if (claimed_min !== undefined && zone.kind !== 'unstated') {
    const judgement = judgeClock(witness.reading, step_s, { marks: label!, slips: witness.site.slips });
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
        words: `the sun's correction, accepted by the user: ${readingText(proposed)}; the file says ${claimText(recognition)}`,
      };
    }
    const slips = judgement.slips.map(
      ({ slip, latitude_deg, longitude_deg }) => `${slip}: ${latitude_deg}, ${longitude_deg}`,
    );
    throw new InputProblem({
      code: 'WEATHER_CLOCK',
      file,
      got: `${claimText(recognition)}, but ${judgement.because} (${seen})`,
      expected: 'stamps that agree with the sun to 10 minutes',
      fix: `${proposed === undefined ? 'mend the clock' : `accept the correction (${readingText(proposed)})`}, or insist on the file's word${slips.length > 0 ? `; or is the place wrong (${slips.join('; ')})?` : '.'}`,
    });
  }
  const decided = witness.reading.verdict === 'decided';
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
      got: `${claimText(recognition)}, but ${seen}`,
      expected: 'stamps that agree with the sun to 10 minutes',
      fix: `accept the correction (${readingText(choices[0])}), state another zone or what the stamps mark, or mend the place.`,
    });
  }
  if (!decided || taken === undefined)
    throw unsaid(file, witness, fitting.length > 0 ? fitting : choices, seen);
  return {
    offset_min: offsetOf(taken.marks, taken.clockAhead_min, step_s),
    stretches,
    choices,
    words: `${claimText(recognition)}; ${seen}: ${readingText(taken)}`,
  };
}

/** Clocks that change within the file, or keep the sun's own time. */
function otherPattern(
  file: string,
  recognition: Recognition,
  witness: SunWitness,
  trust: ClockTrust,
  step_s: number,
): Omit<SettledClock, 'choices'> | undefined {
  const { zone } = recognition.stamp;
  const refuse = (got: string, expected: string, fix: string): InputProblem =>
    new InputProblem({ code: 'WEATHER_CLOCK', file, got, expected, fix });
  if (witness.pattern === 'summer time' && zone.kind !== 'civil') {
    const name = witness.daylightSaving!.zone;
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
      `state the zone (${name}), accept the correction, or insist on the file's word.`,
    );
  }
  if (witness.pattern === 'sundial' && zone.kind !== 'solar') {
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
      "state the zone as solar, accept the correction, or insist on the file's word.",
    );
  }
  const decided = witness.segments.filter(({ reading }) => reading.verdict === 'decided');
  if (witness.pattern !== 'changes' || decided.length < 2) return undefined;
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
      "accept the correction of each stretch, or insist on the file's word.",
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

function refusePlace(file: string, witness: SunWitness, trust: ClockTrust): void {
  if (witness.site.verdict !== 'cannot be right' || trust === 'sun') return;
  const slips = witness.site.slips.map(
    ({ slip, latitude_deg, longitude_deg }) => `${slip}: ${latitude_deg}, ${longitude_deg}`,
  );
  throw new InputProblem({
    code: 'WEATHER_CLOCK',
    file,
    field: 'site.latitude_deg',
    got: `a place whose days have other lengths than the light shows (that of about ${witness.site.latitudeSeen_deg} degrees)`,
    expected: 'the place the light was measured at',
    fix: slips.length > 0 ? `is it ${slips.join(', or ')}?` : 'mend latitude and longitude.',
  });
}

function unsaid(
  file: string,
  witness: SunWitness,
  choices: readonly StampReading[],
  seen: string,
): InputProblem {
  const list = choices.slice(0, 6).map(readingText);
  const { verdict, reason } = witness.reading;
  return new InputProblem({
    code: 'WEATHER_AMBIGUOUS',
    file,
    field: 'stamp',
    got:
      verdict === 'decided'
        ? `stamps that can be read as ${list.join('; or ')} (${seen})`
        : `stamps nobody explains, and the sun cannot tell (${reason})`,
    expected:
      'the zone of the clock, and whether stamps mark the start, the middle or the end of the interval',
    fix: 'state the zone, what the stamps mark, or both.',
  });
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

function readingText({ marks, clockAhead_min }: StampReading): string {
  const clock =
    clockAhead_min === 0
      ? 'the clock as claimed'
      : `a clock ${minutesText(Math.abs(clockAhead_min))} ${clockAhead_min > 0 ? 'ahead of' : 'behind'} what is claimed`;
  return `stamps at the ${marks} of the interval and ${clock}`;
}

function claimText({ stamp }: Recognition): string {
  const zones = {
    fixed: () => (stamp.zone.kind === 'fixed' ? `UTC${offsetText(stamp.zone.offset_min)}` : ''),
    civil: () => (stamp.zone.kind === 'civil' ? stamp.zone.zone : ''),
    solar: () => 'true solar time',
    each: () => 'the offset of each stamp',
    unstated: () => 'no zone stated, taken as UTC',
  };
  const label =
    stamp.label.label === undefined ? 'no word on what stamps mark' : `stamps at the ${stamp.label.label}`;
  return `${zones[stamp.zone.kind]()}, ${label}`;
}

function offsetText(offset_min: number): string {
  if (offset_min === 0) return '';
  const size = Math.abs(offset_min);
  const minutes = size % 60 === 0 ? '' : `:${String(size % 60).padStart(2, '0')}`;
  return `${offset_min < 0 ? '-' : '+'}${Math.floor(size / 60)}${minutes}`;
}

function minutesText(minutes: number): string {
  return `${Math.round(minutes)} minutes`;
}
