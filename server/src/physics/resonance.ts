/** Resonance of an inductance with a capacitance, Hz: 1/(2π√(LC)) (Thomson). Loss moves the peak of a response below it. */
export function resonanceHz(inductanceH: number, capacitanceF: number): number {
  return 1 / (2 * Math.PI * Math.sqrt(inductanceH * capacitanceF));
}

/** The capacitance, F, that resonates with an inductance at `frequencyHz`: what a measured resonance says of a coil. */
export function capacitanceOfResonanceF(inductanceH: number, frequencyHz: number): number {
  return 1 / ((2 * Math.PI * frequencyHz) ** 2 * inductanceH);
}

/** The inductance, H, that resonates with a capacitance at `frequencyHz`. */
export function inductanceOfResonanceH(capacitanceF: number, frequencyHz: number): number {
  return 1 / ((2 * Math.PI * frequencyHz) ** 2 * capacitanceF);
}
