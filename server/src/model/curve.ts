/** A curve over frequency, as it was measured. */
export interface Curve {
  readonly kind: 'curve';
  readonly quantity: 'ratio' | 'impedance';
  /** Where each point stands in the file; 1 is its first line. */
  readonly rows: readonly number[];
  /** Rising. */
  readonly hz: readonly number[];
  /** A ratio, or ohm; above 0. */
  readonly magnitude: readonly number[];
  /** Radians, not unwrapped; `undefined` where the file holds none. */
  readonly phase: readonly number[] | undefined;
  /** One standard deviation of the logarithm of the magnitude, where the file states it. */
  readonly relativeSd: readonly number[] | undefined;
}

export interface Complaint {
  readonly kind: 'complaint';
  /** 1 is the first line of the file; `undefined`: the whole. */
  readonly row: number | undefined;
  /** Follows the name of the file and a colon. */
  readonly reason: string;
}

export type CurveFile = Curve | Complaint;

/** What one row says. */
export interface CurvePoint {
  readonly row: number;
  readonly hz: number;
  readonly magnitude: number;
  readonly phase?: number | undefined;
  readonly relativeSd?: number | undefined;
}

export interface RowsRead {
  readonly quantity: Curve['quantity'];
  readonly points: readonly CurvePoint[];
}

export const complaint = (row: number | undefined, reason: string): Complaint => ({ kind: 'complaint', row, reason });
