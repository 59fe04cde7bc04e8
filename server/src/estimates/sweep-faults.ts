/** What a curve shows to be wrong with its recording, before anything is fitted to it. */
import type { Sweep } from '../model/sweep.ts';

/**
 * Of phase that is not as the circuit makes it: `turned`, its sign is the other one; `inverted`, one of the two inputs is, 180° apart.
 * Through a coil to ground phase leads below the resonance, and over a resistor behind a coil it lags; of an exciter the sense is free.
 */
export function phaseFault({ curve, setUp }: Sweep): 'turned' | 'inverted' | undefined {
  if (!curve?.phase || setUp.kind === 'excited') return undefined;
  const { hz, magnitude, phase } = curve;
  const isLess = setUp.kind === 'over';
  const edge = magnitude.reduce(
    (best, each, index) => ((isLess ? each < (magnitude[best] ?? 0) : each > (magnitude[best] ?? 0)) ? index : best),
    0,
  );
  const below = phase.filter((_, index) => (hz[index] ?? 0) < (hz[edge] ?? 0) / 2);
  if (below.length < LEAST_POINTS) return undefined;
  const mean = (of: (angle: number) => number) => below.reduce((sum, each) => sum + of(each), 0) / below.length;
  if (mean(Math.cos) < -0.5) return 'inverted';
  const leads = mean(Math.sin);
  return Math.abs(leads) > SURE && leads > 0 === isLess ? 'turned' : undefined;
}

/** Of them the mean is taken, so that one bad reading says nothing. */
const LEAST_POINTS = 3;
/** A degree and a half. */
const SURE = 0.025;

/** The first row that gives more than what went in, by more than two unlike gains make; `undefined` where there is none. */
export function moreThanGiven({ curve, setUp }: Sweep) {
  if (!curve || (setUp.kind !== 'through' && setUp.kind !== 'over')) return undefined;
  const at = curve.magnitude.findIndex((each) => each > MOST_RATIO);
  if (at < 0) return undefined;
  return { row: curve.rows[at] ?? 0, hz: curve.hz[at] ?? 0, times: curve.magnitude[at] ?? 0 };
}

const MOST_RATIO = 1.05;
