import type { Analyser } from '../../server/src/cli/context.ts';

/** For tests of what happens before anything is analysed. */
export const noAnalyser: Analyser = {
  analyse: () => {
    throw new Error('nothing should be analysed here');
  },
};
