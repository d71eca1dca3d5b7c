import { least, minIndex } from 'd3-array';
import { fixOf, InputProblem, type Problem } from '../../common/InputProblem.ts';
import { utcText } from '../../common/time.ts';
import type { NativeSeries } from '../read/NativeSeries.ts';
import type { DetectedFormat } from '../recognise/DetectedFormat.ts';
import { type PlaceSlip, placeTyped, refusePlace, slipText } from './checkSiteBySun.ts';
import { wrapped } from './negativeLogLikelihood.ts';
import {
  claimText,
  clockText,
  explainingPairs,
  likely,
  minutesText,
  offsetOf,
  readingsText,
  type StampReading,
  seenText,
  typedFor,
} from './stampReadings.ts';
import type { SunClockCheck } from './sunClockCheck.ts';

/** What is promised: a clock to ten minutes; the interval of the sun's reading where that is wider. */
const PROMISE_MIN = 10;
/** Beyond this the sun tells no mark from another. */
const WIDEST_MIN = 30;
/** Standard deviations by which every other time of day must fit worse before the sun is heard at all. */
const LEAST_SECOND_MODE = 3;

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
 * What the stamps of a series mean: the claim of the file (or the user) laid beside the sun. A whole claim stands
 * where it lies within the sun's interval (two standard uncertainties, at least ten minutes), or the sun cannot tell.
 * What is not said the sun settles, where all that fits gives the same hours.
 *
 * in: file, name for messages; series; stamp, with its claims; check, what the sun says; trust; longitude_deg
 * out: the offset in minutes and whose word it is
 * throws: WEATHER_CLOCK where file and sun disagree, with the correction; WEATHER_AMBIGUOUS with the choices
 */
export function resolveClock(
  file: string,
  series: Pick<NativeSeries, 'fileStep_s' | 'step_s'>,
  stamp: DetectedFormat['stamp'],
  check: SunClockCheck,
  { trust, longitude_deg }: { trust: ClockTrust; longitude_deg: number },
): ResolvedClock {
  const known = caseOf(file, series, stamp, check, trust, longitude_deg);
  const { claimed_min, choices } = known;
  if (trust === 'file') {
    if (claimed_min === undefined) throw unsaid(known, choices);
    const words = `the file's word, insisted on by the user: ${claimText(stamp)}; by the sun, ${seenText(check)}`;
    return answer(known, claimed_min, words);
  }
  if (trust !== 'sun') refusePlace(file, check.site);
  const other = byZone(known) ?? byStretches(known);
  return other ?? (claimed_min === undefined ? settled(known) : judged(known, claimed_min));
}

/** What a judgement rests on. */
type ClockCase = ReturnType<typeof caseOf>;

function caseOf(
  file: string,
  series: Pick<NativeSeries, 'fileStep_s' | 'step_s'>,
  stamp: DetectedFormat['stamp'],
  check: SunClockCheck,
  trust: ClockTrust,
  longitude_deg: number,
) {
  const point = series.fileStep_s === 0;
  // The length of the interval that a mark speaks of.
  const step_s = point ? series.step_s : series.fileStep_s;
  const label = point ? 'middle' : stamp.label.label;
  const isSilent = label === undefined || stamp.zone.kind === 'unstated';
  const claimed_min = isSilent ? undefined : offsetOf({ marks: label, clockAhead_min: 0 }, step_s);
  const { offset_min, uncertainty_min, secondModeWorseBy } = check.reading;
  // Half the interval that holds the right offset, and the sun's own share of it in words.
  const interval_min = Math.max(PROMISE_MIN, 2 * uncertainty_min);
  const toMinutes = minutesText(2 * uncertainty_min);
  const choices = explainingPairs(offset_min, step_s, Math.min(WIDEST_MIN, interval_min));
  const heard = secondModeWorseBy >= LEAST_SECOND_MODE;
  const said = { file, stamp, check, trust, longitude_deg, step_s, label, claimed_min };
  return { ...said, interval_min, toMinutes, choices, heard };
}

function answer({ choices }: ClockCase, offset_min: number, words: string): ResolvedClock {
  return { offset_min, stretches: [], choices, words };
}

/** The file is to be read again with a zone: the clock keeps summer time, or the sun's own, and the claim does not. */
function byZone(known: ClockCase): ResolvedClock | undefined {
  const { pattern, zone: summer = '' } = known.check;
  const kind = pattern === 'summer time' ? 'civil' : pattern === 'true solar time' ? 'solar' : undefined;
  if (kind === undefined || known.stamp.zone.kind === kind) return undefined;
  const zone = kind === 'civil' ? summer : kind;
  const but =
    kind === 'civil'
      ? `the sun says that the clock keeps summer time as in ${zone}`
      : 'the stamps follow true solar time';
  if (known.trust === 'sun')
    return { ...answer(known, 0, `the sun's correction, accepted by the user: ${but}`), zone };
  throw refusal(known, {
    got: `${claimText(known.stamp)}, but ${but}`,
    expected: kind === 'civil' ? 'one clock throughout, or its zone' : 'a clock that runs evenly',
    takes: [`--zone ${zone}`, '--believe sun'],
  });
}

/** The clock changes within the file. */
function byStretches(known: ClockCase): ResolvedClock | undefined {
  const { check, step_s } = known;
  const decided = check.segments.filter(({ reading }) => reading.verdict === 'decided');
  if (check.pattern !== 'changes' || decided.length < 2) return undefined;
  const text = decided
    .map(({ firstDay_ms, lastDay_ms, reading }) => {
      const [from, to] = [firstDay_ms, lastDay_ms].map((ms) => utcText(ms).slice(0, 10));
      return `${minutesText(reading.offset_min)} from ${from} to ${to}`;
    })
    .join(', ');
  if (known.trust !== 'sun') {
    throw refusal(known, {
      got: `stamps whose meaning changes within the file: stamp minus middle of the interval is ${text}`,
      expected: 'one convention throughout (--believe sun: stretch by stretch)',
      takes: ['--believe sun'],
    });
  }
  const stretches = decided.map(({ firstDay_ms, reading }) => {
    const [pair] = explainingPairs(reading.offset_min, step_s);
    const offset_min = pair === undefined ? Math.round(reading.offset_min) : offsetOf(pair, step_s);
    return { from_ms: firstDay_ms, offset_min };
  });
  const words = `the sun's correction of each stretch, accepted by the user: ${text}`;
  return { ...answer(known, stretches[0]!.offset_min, words), stretches };
}

/** A whole claim beside the sun. */
function judged(known: ClockCase, claimed_min: number): ResolvedClock {
  const { stamp, check, trust, choices, interval_min, toMinutes, heard } = known;
  const isNear = (offset_min: number) => Math.abs(wrapped(offset_min - claimed_min)) <= interval_min;
  if (!heard || isNear(check.reading.offset_min)) {
    const because = heard ? `the sun agrees, to ${toMinutes}` : check.reading.reason;
    return answer(known, claimed_min, `${claimText(stamp)}; ${because}`);
  }
  if (trust === 'sun' && choices[0] !== undefined) return corrected(known, choices[0]);
  const offBy_min = Math.round(wrapped(check.reading.offset_min - claimed_min));
  throw refusal(known, {
    got: `${claimText(stamp)}; by the sun that is a ${clockText(offBy_min)} (to ${toMinutes})`,
    expected: 'stamps that agree with the sun',
    slips: check.site.slips.filter((slip) => isNear(slip.offset_min)),
    takes: ['--believe sun', ...typedFor(choices, stamp)],
  });
}

/** The likeliest of what the sun allows, against what the file says. */
function corrected(known: ClockCase, choice: StampReading): ResolvedClock {
  const words = `the sun's correction, accepted by the user: stamps ${readingsText([choice])}; the file says ${claimText(known.stamp)}`;
  return answer(known, offsetOf(choice, known.step_s), words);
}

/** What is not said, by the sun: taken where all that fits gives the same hours. */
function settled(known: ClockCase): ResolvedClock {
  const { stamp, check, trust, step_s, label, choices, toMinutes } = known;
  const silent = stamp.zone.kind === 'unstated';
  const marked = choices.filter(({ marks }) => label === undefined || marks === label);
  const ofSteps = (step_min: number) => marked.filter((one) => one.clockAhead_min % step_min === 0);
  // A clock that nobody names may keep a zone of half hours.
  const whole = silent ? ofSteps(60) : marked.filter(({ clockAhead_min }) => clockAhead_min === 0);
  const named = silent && whole.length === 0 ? ofSteps(30) : whole;
  const sure = known.heard && known.interval_min < WIDEST_MIN;
  // Marks of fine steps lie nearer to each other than the sun can tell: the nearest is within the promised 10 minutes.
  const fine = step_s <= 1200 && !silent && 2 * check.reading.uncertainty_min <= PROMISE_MIN;
  const near = least(named, ({ misfit_min }) => Math.abs(misfit_min));
  const same = near === undefined ? [] : named.filter((one) => sameHours(one, near, step_s));
  if (sure && near !== undefined && (same.length === named.length || fine || trust === 'sun')) {
    const listed = fine ? [near] : likely(same);
    const alike = listed.length > 1 ? ', which give the same hours' : '';
    const words = `${claimText(stamp)}; by the sun ${readingsText(listed)}${alike} (to ${toMinutes})`;
    return answer(known, dated(offsetOf(near, step_s), known), words);
  }
  const slips = named.length > 0 ? [] : slipsThatFit(known);
  if (
    !sure ||
    (silent && (slips.length === 0 || trust === 'sun')) ||
    named.length > 0 ||
    choices[0] === undefined
  ) {
    throw unsaid(known, named.length > 0 ? named : choices);
  }
  if (trust === 'sun') return corrected(known, choices[0]);
  throw refusal(known, {
    got: `${claimText(stamp)}, which no mark explains; by the sun ${seenText(check)}`,
    expected: 'stamps that agree with the sun to 10 minutes',
    slips,
    takes: [...typedFor(choices, stamp), '--believe sun'],
  });
}

/** Slips of the place where a mark, and whole hours of a clock that nobody names, would explain what the sun says. */
function slipsThatFit({ check, stamp, label, step_s, interval_min }: ClockCase): PlaceSlip[] {
  const silent = stamp.zone.kind === 'unstated';
  return check.site.slips.filter(({ offset_min }) =>
    explainingPairs(offset_min, step_s, Math.min(WIDEST_MIN, interval_min)).some(
      ({ marks, clockAhead_min }) =>
        (label === undefined || marks === label) &&
        clockAhead_min % 60 === 0 &&
        (silent || clockAhead_min === 0),
    ),
  );
}

function sameHours(a: StampReading, b: StampReading, step_s: number): boolean {
  return Math.abs(wrapped(offsetOf(a, step_s) - offsetOf(b, step_s))) < 1;
}

/** The offset on the day that a clock of the site, or of UTC, would have: the sun does not see whole days. */
function dated(offset_min: number, { stamp, longitude_deg }: ClockCase): number {
  if (stamp.zone.kind !== 'unstated') return offset_min;
  const near = wrapped(offset_min);
  const days = [near, near - 1440, near + 1440];
  return days[minIndex(days, (offset) => Math.min(Math.abs(offset), Math.abs(offset - longitude_deg * 4)))]!;
}

/** File and sun disagree: `takes` accepts the sun's word, a place that is mistyped (`slips`) would make both agree. */
function refusal(
  { file, stamp }: ClockCase,
  said: Pick<Problem, 'got' | 'expected'> & { takes: readonly string[]; slips?: readonly PlaceSlip[] },
): InputProblem {
  const { got, expected, takes, slips = [] } = said;
  // Where the file does not say all, there is no word of it to insist on.
  const isWhole = stamp.zone.kind !== 'unstated' && stamp.label.label !== undefined;
  const place = slips.length === 0 ? '' : `is the place wrong (${slips.map(slipText).join(', or ')})? Else `;
  const insists = isWhole ? "; --believe file insists on the file's word" : '';
  return new InputProblem({
    code: 'WEATHER_CLOCK',
    file,
    got,
    expected,
    typed: [...slips.map(placeTyped), ...takes, ...(isWhole ? ['--believe file'] : [])],
    fix: `${place}${takes.join(' or ')} takes the sun's correction${insists} (in a scenario, weather.zone, weather.marks, weather.believe).`,
  });
}

function unsaid({ file, stamp, check, heard }: ClockCase, choices: readonly StampReading[]): InputProblem {
  const fixes = typedFor(choices, stamp);
  const told = heard && fixes.length > 0;
  const inScenario = ' (in a scenario, weather.zone and weather.marks)';
  const marks = ['start', 'middle', 'end'].map((word) => `--marks ${word}`);
  return new InputProblem({
    code: 'WEATHER_AMBIGUOUS',
    file,
    field: 'stamp',
    got: told
      ? `${claimText(stamp)}: the sun allows stamps ${readingsText(likely(choices))}`
      : `${claimText(stamp)}, and the sun cannot tell (${check.reading.reason})`,
    expected:
      'the zone of the clock, and whether stamps mark the start, the middle or the end of the interval',
    ...(!told && stamp.zone.kind === 'unstated'
      ? { fix: `--zone and --marks, such as --zone +01:00 --marks end${inScenario}.` }
      : fixOf(told ? fixes : marks, `${inScenario}.`)),
  });
}
