import { difference, type Estimate, sum } from '../../server/src/quantities/estimate.ts';

/** Correlation of two estimates with errors, from what their sum and their difference are known by: 4 cov = var(a + b) − var(a − b). */
export const correlation = (a: Estimate, b: Estimate): number =>
  (sum(a, b).sd ** 2 - difference(a, b).sd ** 2) / (4 * a.sd * b.sd);
