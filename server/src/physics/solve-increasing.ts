/**
 * The argument at which an increasing function reaches `target`, between `low` and `high`, by bisection refined with secants
 * (Illinois rule); `undefined` where the target lies outside what the ends give, or a value is not finite. `tolerance` is relative.
 */
export function solveIncreasing(
  f: (x: number) => number,
  { target, low, high, tolerance = 1e-6 }: { target: number; low: number; high: number; tolerance?: number },
): number | undefined {
  let [a, b] = [low, high];
  let [fa, fb] = [f(a) - target, f(b) - target];
  if (!(fa <= 0 && fb >= 0)) return undefined;
  let kept = 0;
  for (let step = 0; step < 80 && b - a > tolerance * Math.max(Math.abs(a), Math.abs(b)); step++) {
    const share = fb - fa > 0 ? -fa / (fb - fa) : 0.5;
    const x = a + (b - a) * Math.min(0.999, Math.max(0.001, share));
    const fx = f(x) - target;
    if (!Number.isFinite(fx)) return undefined;
    if (fx === 0) return x;
    // An end that stays twice running counts half, or the secant would creep up on it.
    if (fx < 0) {
      [a, fa] = [x, fx];
      if (kept === 1) fb /= 2;
      kept = 1;
    } else {
      [b, fb] = [x, fx];
      if (kept === -1) fa /= 2;
      kept = -1;
    }
  }
  return (a + b) / 2;
}
