// The elementary functions in whole numbers of 2^-BITS, each by its plain series: what ours are held against.

const BITS = 1200n;
const ONE = 1n << BITS;

/** A double as such a number, exactly: down to the least there is. */
function fixed(x: number): bigint {
  let power = 0;
  let whole = x;
  while (!Number.isInteger(whole)) {
    whole *= 2;
    power++;
  }
  return (BigInt(whole) << BITS) >> BigInt(power);
}

const product = (a: bigint, b: bigint) => (a * b) >> BITS;
const quotient = (a: bigint, b: bigint) => (a << BITS) / b;

/** Sum of terms, each made of the last, until they vanish. */
function series(
  first: bigint,
  next: (term: bigint, n: bigint) => bigint,
  part = (term: bigint, _n: bigint) => term,
) {
  let total = 0n;
  for (let [term, n] = [first, 0n]; term !== 0n && term !== -1n; n++, term = next(term, n))
    total += part(term, n);
  return total;
}

/** Inverse hyperbolic tangent, or with -1 the inverse tangent, of a small number. */
function arc(x: bigint, sign = 1n): bigint {
  const square = product(x, x);
  return series(
    x,
    (term) => sign * product(term, square),
    (term, n) => term / (2n * n + 1n),
  );
}

const LN2 = 2n * arc(ONE / 3n);
const RIGHT = 8n * arc(ONE / 5n, -1n) - 2n * arc(ONE / 239n, -1n);

function root(square: bigint): bigint {
  if (square === 0n) return 0n;
  const whole = square << BITS;
  let guess = 1n << BigInt((whole.toString(2).length / 2 + 1) | 0);
  for (;;) {
    const next = (guess + whole / guess) >> 1n;
    if (next >= guess) return guess;
    guess = next;
  }
}

function exponential(x: bigint): bigint {
  const doublings = x / LN2;
  const rest = (x - doublings * LN2) >> 16n;
  let power = series(ONE, (term, n) => product(term, rest) / n);
  for (let k = 0; k < 16; k++) power = product(power, power);
  return doublings > 0n ? power << doublings : power >> -doublings;
}

function logarithm(x: bigint): bigint {
  const doublings = BigInt(x.toString(2).length) - BITS;
  const mantissa = doublings > 0n ? x >> doublings : x << -doublings;
  // Roots bring it near 1, where the series is short.
  let near = mantissa;
  for (let k = 0; k < 8; k++) near = root(near);
  return 512n * arc(quotient(near - ONE, near + ONE)) + doublings * LN2;
}

function sineAndCosine(x: bigint): [bigint, bigint] {
  const square = product(x, x);
  const terms = (first: bigint, from: bigint) =>
    series(first, (term, n) => -product(term, square) / ((2n * n + from) * (2n * n + from - 1n)));
  return [terms(x, 1n), terms(ONE, 0n)];
}

function turned(x: bigint): [bigint, bigint] {
  const count = (2n * x + RIGHT) / (2n * RIGHT) - (2n * x + RIGHT < 0n ? 1n : 0n);
  const [sine, cosine] = sineAndCosine(x - count * RIGHT);
  switch (count & 3n) {
    case 0n:
      return [sine, cosine];
    case 1n:
      return [cosine, -sine];
    case 2n:
      return [-sine, -cosine];
    default:
      return [-cosine, sine];
  }
}

/** From a near angle, by what the direction turns beyond it. */
function direction(y: bigint, x: bigint, near: number): bigint {
  const angle = fixed(near);
  const [sine, cosine] = turned(angle);
  const along = product(x, cosine) + product(y, sine);
  return angle + arc(quotient(product(y, cosine) - product(x, sine), along), -1n);
}

/** The functions by the names they have in ours. */
export const EXACT = {
  exp: (x: number) => exponential(fixed(x)),
  expm1: (x: number) => exponential(fixed(x)) - ONE,
  log: (x: number) => logarithm(fixed(x)),
  log1p: (x: number) => logarithm(ONE + fixed(x)),
  log10: (x: number) => quotient(logarithm(fixed(x)), logarithm(10n * ONE)),
  power: (x: number, y: number) => exponential(product(logarithm(fixed(x)), fixed(y))),
  sin: (x: number) => turned(fixed(x))[0],
  cos: (x: number) => turned(fixed(x))[1],
  tan: (x: number) => quotient(...turned(fixed(x))),
  asin: (x: number) => direction(fixed(x), root(ONE - product(fixed(x), fixed(x))), Math.asin(x)),
  acos: (x: number) => direction(root(ONE - product(fixed(x), fixed(x))), fixed(x), Math.acos(x)),
  atan2: (y: number, x: number) => direction(fixed(y), fixed(x), Math.atan2(y, x)),
  hypot: (x: number, y: number) => root(product(fixed(x), fixed(x)) + product(fixed(y), fixed(y))),
} as const;

const double = new Float64Array(1);
const bits = new BigInt64Array(double.buffer);

/** How far a result lies from the exact one, in units of its last place. */
export function unitsOff(result: number, exact: bigint): number {
  double[0] = Math.abs(result);
  bits[0]!++;
  const unit = fixed(double[0]! - Math.abs(result));
  const off = fixed(result) - exact;
  return Number((1000000n * (off < 0n ? -off : off)) / unit) / 1e6;
}
