/** A column of numbers, two bytes a number. */
export interface PackedColumn {
  /** A number is its integer over this. */
  scale: number;
  /** 16-bit integers without sign, low byte first, in base 64; 65535 says 'does not apply'. */
  data: string;
}

const MOST = 65534;
const NOTHING = 65535;

/**
 * A column of numbers packed small, for the page.
 *
 * in: values, 0 or more (below counts as 0); finest, the most decimals wanted
 * out: integers with as many decimals as 16 bits hold, `finest` at most
 */
export function packedColumn(values: Float64Array, finest: number): PackedColumn {
  let highest = 0;
  for (const value of values) if (value > highest && Number.isFinite(value)) highest = value;
  let decimals = finest;
  while (decimals > 0 && highest * 10 ** decimals > MOST) decimals--;
  const scale = 10 ** decimals;
  const bytes = Buffer.alloc(values.length * 2);
  values.forEach((value, i) => {
    const whole = Number.isFinite(value) ? Math.min(Math.max(Math.round(value * scale), 0), MOST) : NOTHING;
    bytes.writeUInt16LE(whole, i * 2);
  });
  return { scale, data: bytes.toString('base64') };
}
