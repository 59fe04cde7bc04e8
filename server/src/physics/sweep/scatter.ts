/**
 * How far the points of a curve scatter, whatever the model that was fitted to it: from second differences of what the fit leaves along
 * the curve, which know nothing of what is left smoothly.
 */
/** Deviation of a point: √((a · |H|)² + b²) over |H| (J. R. Dygas and M. W. Breiter, Electrochimica Acta 44 (1999) 4163–4174). */
export interface Noise {
  readonly share: number;
  readonly floor: number;
}

/** Shares and floors are looked for by steps that halve, in their logarithms. */
const FIRST_STEP = 2;
const LAST_STEP = 0.03;
/** A fit of Student's t with 4 degrees to normal points finds its scale this much below their deviation (numerically). */
const NORMAL_OVER_T4 = 1 / 0.831;

/**
 * By a likelihood of Student's t with 4 degrees, which few bad points do not move. `levels` and `phases` are what a fit leaves of ln |H|
 * and of the phase.
 */
export function scatterOf(magnitude: readonly number[], levels: Float64Array, phases: Float64Array | undefined): Noise {
  const count = magnitude.length - 2;
  const [squared, inverse] = [new Float64Array(2 * count), new Float64Array(2 * count)];
  let size = 0;
  for (const left of phases ? [levels, phases] : [levels])
    for (let at = 1; at <= count; at++) {
      squared[size] = ((left[at - 1] as number) - 2 * (left[at] as number) + (left[at + 1] as number)) ** 2 / 6;
      inverse[size] = 1 / (magnitude[at] as number) ** 2;
      size += 1;
    }
  const loss = (logShare: number, logFloor: number): number => {
    const share = Math.exp(2 * logShare);
    const floor = Math.exp(2 * logFloor);
    // ½ ln v + 2½ ln(1 + d²/4v); logarithms of products of a few, which stay within what a number holds.
    let sum = 0;
    let [variances, tails] = [1, 1];
    for (let at = 0; at < size; at++) {
      const variance = share + floor * (inverse[at] as number);
      variances *= variance;
      tails *= 1 + (squared[at] as number) / (4 * variance);
      if (at % 8 !== 7) continue;
      sum += 0.5 * Math.log(variances) + 2.5 * Math.log(tails);
      variances = 1;
      tails = 1;
    }
    return sum + 0.5 * Math.log(variances) + 2.5 * Math.log(tails);
  };
  const typical = Math.sqrt(squared.reduce((sum, each) => sum + each, 0) / Math.max(1, size)) + 1e-6;
  const smallest = Math.min(...magnitude);
  let best = { share: Math.log(typical), floor: Math.log(typical * smallest), value: 0 };
  best.value = loss(best.share, best.floor);
  for (let step = FIRST_STEP; step > LAST_STEP; ) {
    const tried = [
      [step, 0],
      [-step, 0],
      [0, step],
      [0, -step],
    ].map(([up = 0, along = 0]) => {
      const share = Math.max(best.share + up, LOWEST);
      const floor = Math.max(best.floor + along, LOWEST + Math.log(smallest));
      return { share, floor, value: loss(share, floor) };
    });
    const better = tried.reduce((low, each) => (each.value < low.value ? each : low));
    if (better.value < best.value) best = better;
    else step /= 2;
  }
  return { share: NORMAL_OVER_T4 * Math.exp(best.share), floor: NORMAL_OVER_T4 * Math.exp(best.floor) };
}

/** ln of a share that no curve has. */
const LOWEST = Math.log(1e-6);
