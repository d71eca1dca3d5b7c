import { powerOfTen } from '../../common/elementary/power.ts';

/** How a column stands among the bytes of packed data: byte planes, all first bytes before all second ones. */
export interface PackedForm {
  /** Keys down to it. */
  path: readonly (string | number)[];
  length: number;
  /** Whole bytes; numbers as they stand; or steps between whole numbers, each a value times ten to that power. */
  form: 'bytes' | 'numbers' | number;
}

/** What stands before the columns of packed data. */
export interface PackedHead {
  /** The data, 0 where a column goes. */
  plain: unknown;
  columns: readonly PackedForm[];
}

/** The whole number that says 'not a number'. */
export const NO_NUMBER = -(1 << 29);

/**
 * Data that `packedPlain` packed, as it was: columns to the bit. For the browser, in which it has to be unpacked.
 *
 * in: packed, base64
 * out: the data, typed arrays where they were
 */
export async function unpackedPlain(packed: string): Promise<unknown> {
  const deflated = Uint8Array.from(atob(packed), (sign) => sign.charCodeAt(0));
  const inflated = new Blob([deflated]).stream().pipeThrough(new DecompressionStream('deflate-raw'));
  const bytes = new Uint8Array(await new Response(inflated).arrayBuffer());
  const headEnd = 4 + new DataView(bytes.buffer).getUint32(0, true);
  const head = JSON.parse(new TextDecoder().decode(bytes.subarray(4, headEnd))) as PackedHead;
  const root = { plain: head.plain };
  let at = headEnd;
  for (const column of head.columns) {
    const size = column.length * widthOf(column.form);
    put(root, ['plain', ...column.path], unpackedColumn(column, bytes.subarray(at, at + size)));
    at += size;
  }
  return root.plain;
}

/** Bytes of one number. */
export function widthOf(form: PackedForm['form']): number {
  return form === 'bytes' ? 1 : form === 'numbers' ? 8 : 4;
}

function unpackedColumn({ form, length }: PackedForm, planes: Uint8Array): Uint8Array | Float64Array {
  if (form === 'bytes') return planes.slice();
  const width = widthOf(form);
  const bytes = new Uint8Array(planes.length);
  for (let i = 0; i < length; i++)
    for (let plane = 0; plane < width; plane++) bytes[i * width + plane] = planes[plane * length + i]!;
  const view = new DataView(bytes.buffer);
  const values = new Float64Array(length);
  const scale = powerOfTen(Number(form));
  let whole = 0;
  for (let i = 0; i < length; i++) {
    if (form === 'numbers') {
      values[i] = view.getFloat64(8 * i, true);
      continue;
    }
    const step = view.getUint32(4 * i, true);
    whole += step % 2 === 0 ? step / 2 : -(step + 1) / 2;
    values[i] = whole === NO_NUMBER ? Number.NaN : whole / scale;
  }
  return values;
}

function put(root: unknown, path: readonly (string | number)[], value: unknown): void {
  const above = path.slice(0, -1).reduce((at, key) => (at as Record<PropertyKey, unknown>)[key], root);
  (above as Record<PropertyKey, unknown>)[path.at(-1)!] = value;
}
