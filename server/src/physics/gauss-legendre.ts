/** Points of a quadrature on [0, 1] and what each counts. */
export type Quadrature = readonly { readonly node: number; readonly weight: number }[];

const rules = new Map<number, Quadrature>();

/**
 * Gauss-Legendre rule of `order` points on [0, 1], exact for polynomials up to degree 2·order − 1. Nodes by Newton's method
 * on the Legendre recurrence from the usual cosine start (NIST DLMF 3.5(v)). The same object for the same order.
 */
export function gaussLegendre(order: number): Quadrature {
  const known = rules.get(order);
  if (known !== undefined) return known;
  const rule: { node: number; weight: number }[] = [];
  for (let index = 0; index < order; index++) {
    let x = Math.cos((Math.PI * (index + 0.75)) / (order + 0.5));
    let slope = 1;
    for (let step = 0; step < 20; step++) {
      const { value, derivative } = legendre(order, x);
      slope = derivative;
      const change = value / derivative;
      x -= change;
      if (Math.abs(change) < 1e-15) break;
    }
    rule.push({ node: (1 - x) / 2, weight: 1 / ((1 - x * x) * slope * slope) });
  }
  rules.set(order, rule);
  return rule;
}

/**
 * Gauss-Legendre after the substitution x = t³ (10 − 15 t + 6 t²), which is flat at both ends: for integrands with a
 * logarithm at an end, where the plain rule converges slowly.
 */
export function gradedGaussLegendre(order: number): Quadrature {
  const key = -order;
  const known = rules.get(key);
  if (known !== undefined) return known;
  const rule = gaussLegendre(order).map(({ node: t, weight }) => ({
    node: t ** 3 * (10 - 15 * t + 6 * t * t),
    weight: 30 * t ** 2 * (1 - t) ** 2 * weight,
  }));
  rules.set(key, rule);
  return rule;
}

function legendre(order: number, x: number): { value: number; derivative: number } {
  let previous = 1;
  let value = x;
  for (let degree = 2; degree <= order; degree++) {
    const next = ((2 * degree - 1) * x * value - (degree - 1) * previous) / degree;
    previous = value;
    value = next;
  }
  return { value, derivative: (order * (x * value - previous)) / (x * x - 1) };
}
