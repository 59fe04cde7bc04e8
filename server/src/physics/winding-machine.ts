/** What to set on a winder for a window and a wire. */
export interface Traverse {
  /** Advance of the guide for each turn of the spindle, metres. */
  pitchM: number;
  turnsPerLayer: number;
  /** Turns of the spindle for one stroke there and back. */
  turnsPerDoubleStroke: number;
}

/**
 * Traverse over a window of `heightM`: with no pitch given, side by side at one overall diameter, the closest that round wire
 * lies. A scatter winder uses several diameters; turns per layer are then those of one stroke.
 */
export function traverse({
  heightM,
  overallDiameterM,
  pitchM = overallDiameterM,
}: {
  heightM: number;
  overallDiameterM: number;
  pitchM?: number;
}): Traverse {
  const turnsPerLayer = Math.max(1, Math.floor(heightM / pitchM + 1e-9));
  return { pitchM, turnsPerLayer, turnsPerDoubleStroke: 2 * turnsPerLayer };
}

/** Time at the spindle for `turns` turns at a steady speed, seconds: starting, stopping and looking come on top. */
export function windingTimeS(turns: number, revolutionsPerMinute: number): number {
  return (60 * turns) / revolutionsPerMinute;
}
