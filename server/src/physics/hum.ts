/**
 * E.m.f. of a coil in a uniform alternating field along its axis, volts r.m.s.: 2π f B ΣA (Faraday). `turnAreaM2` is the sum of the
 * areas of all turns; where steel poles gather flux, multiply it by the coil's turn-area ratio.
 */
export function coilEmfV({
  turnAreaM2,
  fluxDensityRmsT,
  frequencyHz,
}: {
  turnAreaM2: number;
  fluxDensityRmsT: number;
  frequencyHz: number;
}): number {
  return 2 * Math.PI * frequencyHz * fluxDensityRmsT * turnAreaM2;
}

/**
 * What two coils joined in series against each other leave of the hum of the larger one alone, dB: 20 lg |1 − A₂/A₁|, A the
 * turn-areas. −∞ where they are equal. Without load; a uniform field is assumed.
 */
export function seriesHumResidueDb(turnAreaOneM2: number, turnAreaOtherM2: number): number {
  const larger = Math.max(turnAreaOneM2, turnAreaOtherM2);
  return 20 * Math.log10(Math.abs(turnAreaOneM2 - turnAreaOtherM2) / larger);
}
