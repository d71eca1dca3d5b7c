import { fixed } from '../common/csvText.ts';

const [COMMA, MINUS, POINT, ZERO] = [44, 45, 46, 48] as const;
const POWERS = [1, 10, 100, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10];
const MOST_WHOLE = 0x7fffffff;
/** Scaled to below 2^31 a number is off by 2^-22 at most: nearer than this to a half, its own digits decide. */
const NEAR_HALF = 1 / (1 << 21);

const encoder = new TextEncoder();

/**
 * The text of a long CSV file as bytes, written cell by cell: strings for millions of cells take five times as long.
 * Whoever writes sees to it that there is room.
 */
export class CsvBytes {
  /** Bytes written so far. */
  end = 0;
  private readonly bytes: Uint8Array;

  constructor(room: number) {
    this.bytes = new Uint8Array(room);
  }

  /** What was written so far, in place: it is gone with the next byte, for which there is room again. */
  take(): Uint8Array {
    const taken = this.bytes.subarray(0, this.end);
    this.end = 0;
    return taken;
  }

  text(text: string): void {
    this.end += encoder.encodeInto(text, this.bytes.subarray(this.end)).written;
  }

  /** Bytes of a text that is written again and again, all of it or a part. */
  copy(text: Uint8Array, from = 0, to = text.length): void {
    for (let i = from; i < to; i++) this.bytes[this.end++] = text[i]!;
  }

  /** A whole number from 0 to 99, as two digits. */
  twoDigits(value: number): void {
    const tens = Math.floor(value / 10);
    this.bytes[this.end++] = ZERO + tens;
    this.bytes[this.end++] = ZERO + value - 10 * tens;
  }

  /**
   * A comma and a number as `fixed` writes it, to the same bytes.
   *
   * in: value, any; decimals, 0 to 6
   */
  number(value: number, decimals: number): void {
    const { bytes } = this;
    bytes[this.end++] = COMMA;
    if (Number.isNaN(value)) return;
    const scaled = Math.abs(value) * POWERS[decimals]!;
    let whole = Math.round(scaled);
    if (!(whole <= MOST_WHOLE) || Math.abs(scaled - Math.floor(scaled) - 0.5) < NEAR_HALF) {
      this.text(fixed(value, decimals));
      return;
    }
    if (value < 0 && whole > 0) bytes[this.end++] = MINUS;
    let digits = decimals + 1;
    while (whole >= POWERS[digits]!) digits++;
    this.end += decimals > 0 ? digits + 1 : digits;
    let at = this.end;
    for (let d = 0; d < digits; d++) {
      if (d === decimals && d > 0) bytes[--at] = POINT;
      const tenth = Math.floor(whole / 10);
      bytes[--at] = ZERO + whole - 10 * tenth;
      whole = tenth;
    }
  }
}

/** The bytes of a text. */
export function bytesOf(text: string): Uint8Array {
  return encoder.encode(text);
}
