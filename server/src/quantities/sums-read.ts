/**
 * Numbers of which only sums were read. With x normal about its estimates with covariance C, and a sum a·x, what is known of x once the
 * sum is t is x + C·a/(a·C·a)·(t − a·x) (conditioning of a multivariate normal, in every text on it). Here t is the reading with its own
 * error: it stands in the place of what was computed of the sum, which from then on has the reading's ±, while the terms get no more
 * certain than the reading makes them.
 */
import { covariance, type Estimate, linear } from './estimate.ts';

export interface SumRead {
  /** One for each term. */
  readonly weights: readonly number[];
  readonly read: Estimate;
}

/**
 * The terms once the sums are known. The first is met exactly. What those before leave open of a later one is shared between it and them
 * by how sure each is, and the first stays met. All errors of terms and readings must be named (`named`), else the results would not
 * know what they share.
 */
export function givenSums(terms: readonly Estimate[], sums: readonly SumRead[]): readonly Estimate[] {
  let results = terms;
  let open = terms.map((a) => terms.map((b) => covariance(a, b)));
  sums.forEach(({ weights, read }, index) => {
    const along = open.map((row) => dot(row, weights));
    const variance = dot(along, weights);
    if (!(variance > 0)) return;
    const missing = linear([read, ...results], [1, ...weights.map((weight) => -weight)]);
    const gains = along.map((each) => each / (index === 0 ? variance : missing.sd ** 2));
    results = results.map((each, place) => linear([each, missing], [1, gains[place] ?? 0]));
    const ofItself = index === 0 ? 1 : 2 - variance / missing.sd ** 2;
    open = open.map((row, a) => row.map((each, b) => each - (along[a] ?? 0) * (gains[b] ?? 0) * ofItself));
  });
  return results;
}

const dot = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, each, index) => sum + each * (b[index] ?? 0), 0);
