/**
 * The outline that the first layer lies on, as a bobbin is measured: length × width, metres. Ends are round (a stadium)
 * unless a corner radius is given; a radius larger than the half width is taken as round ends.
 */
export interface CoreOutline {
  lengthM: number;
  widthM: number;
  cornerRadiusM?: number;
}

/**
 * The same outline in the form that all formulas use: two straights along the length, two across, four quarter circles.
 * `straightAcrossM` = 0 is a stadium, both straights 0 a circle.
 */
export interface Racetrack {
  straightM: number;
  straightAcrossM: number;
  innerRadiusM: number;
}

/** The racetrack of a core outline. Length and width may stand in either order of size; both must be positive. */
export function racetrackOfCore({ lengthM, widthM, cornerRadiusM }: CoreOutline): Racetrack {
  const roundest = Math.min(lengthM, widthM) / 2;
  const innerRadiusM = Math.min(Math.max(cornerRadiusM ?? roundest, 0), roundest);
  return { straightM: lengthM - 2 * innerRadiusM, straightAcrossM: widthM - 2 * innerRadiusM, innerRadiusM };
}

/** Length of a turn whose centre line runs `offsetM` outside the core: 2 (s + t) + 2π (rᵢ + offset), exact for any convex core. */
export function turnLengthM({ straightM, straightAcrossM, innerRadiusM }: Racetrack, offsetM: number): number {
  return 2 * (straightM + straightAcrossM) + 2 * Math.PI * (innerRadiusM + offsetM);
}

/** Area enclosed by that turn: s t + 2 (s + t) r + π r² with r = rᵢ + offset. */
export function turnAreaM2({ straightM, straightAcrossM, innerRadiusM }: Racetrack, offsetM: number): number {
  const radius = innerRadiusM + offsetM;
  return straightM * straightAcrossM + 2 * (straightM + straightAcrossM) * radius + Math.PI * radius ** 2;
}

/** Mean of {@link turnAreaM2} over offsets 0 to `buildM`: the mean turn area of an evenly filled section. */
export function meanTurnAreaM2(core: Racetrack, buildM: number): number {
  return turnAreaM2(core, buildM / 2) + (Math.PI * buildM ** 2) / 12;
}
