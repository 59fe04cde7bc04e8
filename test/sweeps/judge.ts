/** Whether the numbers of a fit lie as near to the truth, and are told as sharply, as the reference curves allow. */
import type { ReferenceCurve } from './reference-sweeps.ts';

export interface Stated {
  readonly value: number;
  readonly sd: number;
}

interface Verdict {
  readonly faults: readonly string[];
  /** How many stated values there are, and how many of them lie within two stated deviations. */
  readonly values: number;
  readonly near: number;
}

export function judged(entry: ReferenceCurve, stated: Readonly<Record<string, Stated | undefined>>): Verdict {
  const { attainable = {}, mustNotState = [], file } = entry;
  const faults: string[] = [];
  let values = 0;
  let near = 0;
  for (const [name, { sdPercent, sdDb }] of Object.entries(attainable)) {
    const truth = truthOf(entry, name);
    if (truth === undefined) continue;
    const found = stated[name];
    const isUnknowable = mustNotState.includes(name);
    const isEddy = name.startsWith('eddy');
    if (!found) {
      if (!isUnknowable && !isEddy) faults.push(`${file}: ${name} missing`);
      continue;
    }
    const isLevel = sdDb !== undefined;
    const attained = sdDb ?? sdPercent ?? 0;
    const error = isLevel ? Math.abs(found.value - truth) : 100 * Math.abs(found.value / truth - 1);
    const sd = isLevel ? found.sd : (100 * found.sd) / Math.abs(truth);
    const limit = isEddy ? Math.max(4 * attained, 5) : Math.max(3 * attained, isLevel ? 0.05 : 0.5);
    const least = isLevel ? 0.02 : 0.1;
    values += 1;
    if (error <= 2 * sd) near += 1;
    if (error > limit) faults.push(`${file}: ${name} off by ${error}, ${limit} allowed`);
    if (sd > 3 * Math.max(attained, least) || (attained > least && sd < 0.4 * attained))
      faults.push(`${file}: ${name} states ± ${sd}, attainable ${attained}`);
    if (isUnknowable && !isLevel && sd < 15) faults.push(`${file}: ${name} cannot be known here`);
  }
  for (const name of mustNotState) {
    const [found, truth] = [stated[name], truthOf(entry, name)];
    if (found && truth !== undefined && !attainable[name] && found.sd / Math.abs(truth) < 0.15)
      faults.push(`${file}: ${name} cannot be known here`);
  }
  return { faults, values, near };
}

interface Truth {
  readonly loadedPeak?: { readonly hz: number; readonly dbOver10Hz: number };
  readonly eddy?: { readonly couplingSquared: number; readonly cornerHz: number };
}

function truthOf({ truth }: ReferenceCurve, name: string): number | undefined {
  const { loadedPeak, eddy } = truth as Truth;
  switch (name) {
    case 'loadedPeakHz':
      return loadedPeak?.hz;
    case 'loadedPeakDb':
      return loadedPeak?.dbOver10Hz;
    case 'eddyCouplingSquared':
      return eddy?.couplingSquared;
    case 'eddyCornerHz':
      return eddy?.cornerHz;
    default: {
      const value = truth[name];
      return typeof value === 'number' ? value : undefined;
    }
  }
}
