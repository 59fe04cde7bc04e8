/**
 * How alike a plucked string sounds at two places. A pluck bends the string to a triangle, so its harmonics move with speeds that fall as
 * 1/n, plucks at all places alike; at the angle θ = π · (distance to the saddle)/(length that swings) harmonic n moves by sin nθ. Summed
 * over all of them Σ sin(nθ)·sin(nφ)/n² = θ·(π − φ)/2 for θ ≤ φ (Gradshteyn & Ryzhik 1.443), which is also the triangle itself.
 */
const together = (one: number, other: number): number => (Math.min(one, other) * (Math.PI - Math.max(one, other))) / 2;

/** Share of what two equally loud places have in common, from 1 at one place down to 0; angles between 0 and π. */
export function alikeAt(one: number, other: number): number {
  return one === other ? 1 : together(one, other) / Math.sqrt(together(one, one) * together(other, other));
}
