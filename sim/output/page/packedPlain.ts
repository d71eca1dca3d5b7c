import { deflateRawSync } from 'node:zlib';
import { powerOfTen } from '../../common/elementary/power.ts';
import { NO_NUMBER, type PackedForm, type PackedHead, widthOf } from './unpackedPlain.ts';

/**
 * Plain data packed small, for a page: columns of numbers as whole numbers wherever that gives back the same bits, all
 * of it deflated.
 *
 * in: data, as JSON can hold it, with columns (Float64Array, Uint8Array) anywhere in it
 * out: base64; `unpackedPlain` makes the data of it again
 * throws: Error for a number outside a column that JSON cannot hold (a defect)
 */
export function packedPlain(data: unknown): string {
  const columns: PackedForm[] = [];
  const planes: Uint8Array[] = [];
  const visit = (value: unknown, path: readonly (string | number)[]): unknown => {
    if (value instanceof Float64Array || value instanceof Uint8Array) {
      const form = value instanceof Uint8Array ? 'bytes' : formOf(value);
      columns.push({ path, length: value.length, form });
      planes.push(planesOf(value, form));
      return 0;
    }
    if (typeof value === 'number' && !Number.isFinite(value))
      throw new Error(`${path.join('.')} is ${value}, which JSON cannot hold`);
    if (Array.isArray(value)) return value.map((each, i) => visit(each, [...path, i]));
    if (typeof value !== 'object' || value === null) return value;
    return Object.fromEntries(Object.entries(value).map(([key, each]) => [key, visit(each, [...path, key])]));
  };
  const head: PackedHead = { plain: visit(data, []), columns };
  const json = Buffer.from(JSON.stringify(head));
  const length = Buffer.alloc(4);
  length.writeUint32LE(json.length);
  return deflateRawSync(Buffer.concat([length, json, ...planes]), { level: 9 }).toString('base64');
}

const MOST_DECIMALS = 6;

/** The fewest decimals that give every value back to the bit; 'numbers' where none do. */
function formOf(values: Float64Array): PackedForm['form'] {
  for (let decimals = 0; decimals <= MOST_DECIMALS; decimals++) {
    const scale = powerOfTen(decimals);
    if (values.every((value) => comesBack(value, scale))) return decimals;
  }
  return 'numbers';
}

function comesBack(value: number, scale: number): boolean {
  if (Number.isNaN(value)) return true;
  // Whole numbers have no -0.
  const whole = Math.round(value * scale) + 0;
  return Math.abs(whole) < -NO_NUMBER && Object.is(whole / scale, value);
}

function planesOf(values: Float64Array | Uint8Array, form: PackedForm['form']): Uint8Array {
  if (values instanceof Uint8Array) return values;
  const width = widthOf(form);
  const bytes = Buffer.alloc(values.length * width);
  const scale = powerOfTen(Number(form));
  let before = 0;
  for (const [i, value] of values.entries()) {
    if (form === 'numbers') {
      bytes.writeDoubleLE(value, 8 * i);
      continue;
    }
    const whole = Number.isNaN(value) ? NO_NUMBER : Math.round(value * scale);
    const step = whole - before;
    bytes.writeUInt32LE(step < 0 ? -2 * step - 1 : 2 * step, 4 * i);
    before = whole;
  }
  const planes = new Uint8Array(bytes.length);
  for (let i = 0; i < values.length; i++)
    for (let plane = 0; plane < width; plane++) planes[plane * values.length + i] = bytes[i * width + plane]!;
  return planes;
}
