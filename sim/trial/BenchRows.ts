/** A part to buy or to take from the drawer. */
export interface BenchPart {
  part: string;
  count: number;
  /** What it must be rated for, in words. */
  rating: string;
  /** Of one, and of all of them, where the scenario gives a price. */
  price?: number;
  cost?: number;
  /** Its price is in that of another part. */
  included?: true;
}

/** Something to measure before the lid is closed, and what good parts show. */
export interface BenchCheck {
  part: 'cell' | 'diode' | 'capacitor' | 'driver' | 'whole lamp';
  what: string;
  /** With which load, meter or light. */
  how: string;
  unit: string;
  expected: number;
  /** What it may be within the stated tolerances. */
  low: number;
  high: number;
}

/** A wire of the lamp, from one terminal to another. */
export interface BenchWire {
  from: string;
  to: string;
}

/** The build and bench sheet of one lamp. */
export interface BenchSheet {
  lamp: string;
  parts: BenchPart[];
  /** Sum of the costs that are known. */
  cost?: number;
  /** Parts without a price. */
  unpriced: string[];
  wires: BenchWire[];
  checks: BenchCheck[];
  /** What the bands rest on, in sentences. */
  tolerances: string[];
  /** Sealing, drainage, heat. */
  sealing: string[];
  /** What the scenario's check has against this lamp. */
  flags: string[];
  cautions: readonly string[];
}
