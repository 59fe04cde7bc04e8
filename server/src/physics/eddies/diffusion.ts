import { add, type Complex, divide, multiply, scale } from '../complex.ts';
import { MU0 } from '../constants.ts';

/** Material of a solid round pole. */
export interface SolidMetal {
  readonly resistivityOhmM: number;
  readonly relativePermeability: number;
}

/**
 * Susceptibility χ of a long round rod of radius a in an axial field of angular frequency ω, eddy currents included: mean
 * magnetisation over the field at its surface, χ = μr · 2 I₁(x)/(x I₀(x)) − 1 with x = a √(jωμ0μr/ρ). It is μr − 1 at ω = 0 and −1
 * where the flux is expelled. Exact for a linear material (Bozorth, Ferromagnetism, on eddy currents in cylinders; recalled).
 */
export function rodSusceptibility(
  radiusM: number,
  { resistivityOhmM, relativePermeability }: SolidMetal,
  omega: number,
): Complex {
  const square = (omega * MU0 * relativePermeability * radiusM ** 2) / resistivityOhmM;
  const half = Math.sqrt(square / 2);
  const factor = fluxFactor({ re: half, im: half });
  return { re: relativePermeability * factor.re - 1, im: relativePermeability * factor.im };
}

/**
 * 2 I₁(x)/(x I₀(x)) for complex x in the right half plane, by the continued fraction of Iν₊₁/Iν (NIST DLMF 10.33.1): with
 * f(ν) = Iν₊₁(x)/Iν(x), 1/f(ν) = 2(ν + 1)/x + f(ν + 1), from an order far above |x| down.
 */
export function fluxFactor(x: Complex): Complex {
  const size = Math.hypot(x.re, x.im);
  if (size < 1e-6) return { re: 1, im: 0 };
  const inverse = divide({ re: 1, im: 0 }, x);
  let ratio: Complex = { re: 0, im: 0 };
  for (let order = Math.ceil(size) + 30; order >= 0; order--)
    ratio = divide({ re: 1, im: 0 }, add(scale(inverse, 2 * (order + 1)), ratio));
  return scale(multiply(ratio, inverse), 2);
}
