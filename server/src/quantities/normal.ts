/**
 * The normal distribution. Φ by the rational approximation 7.1.26 of Abramowitz and Stegun, Handbook of Mathematical Functions, whose
 * error of the error function is at most 1.5·10⁻⁷ for every argument.
 */

/** Share of a normal distribution that lies below so many standard deviations over its mean, 0 to 1. */
export function shareBelow(deviations: number): number {
  const x = Math.abs(deviations) / Math.SQRT2;
  const t = 1 / (1 + 0.3275911 * x);
  const polynomial = t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))));
  const beyond = (polynomial * Math.exp(-x * x)) / 2;
  return deviations < 0 ? beyond : 1 - beyond;
}

/** Share between two bounds of a normal distribution; without a deviation, all of it or nothing. */
export function shareBetween(
  { least, most }: { readonly least: number; readonly most: number },
  { value, sd }: { readonly value: number; readonly sd: number },
): number {
  if (!(sd > 0)) return least <= value && value <= most ? 1 : 0;
  return Math.max(0, shareBelow((most - value) / sd) - shareBelow((least - value) / sd));
}
