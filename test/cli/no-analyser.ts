import type { Analyser } from '../../server/src/analysis/analysis.ts';

/** For tests of what happens before anything is analysed. */
export const noAnalyser: Analyser = {
  analyse: nothing,
  declared: nothing,
  forget: nothing,
};

function nothing(): never {
  throw new Error('nothing should be analysed here');
}
