/** One instrument's findings and positions, remembered by the instrument and the bench that they were made from. */

import { onceFor, onceForEach } from '../../../grammar/values/remember.ts';
import { runChecks } from '../checks/check.ts';
import type { Edit } from '../checks/finding.ts';
import { instrumentChecks } from '../checks/index.ts';
import { instrumentContext, solvedPosition } from '../checks/instrument-check.ts';
import { searchingClash } from '../checks/switch-cannot.ts';
import { searchingWays } from '../checks/switch-faults.ts';
import { FULL_UP, positionEstimates, positionResponse } from '../estimates/positions.ts';
import { asWired } from '../estimates/switch-states.ts';
import type { Bench } from '../model/bench.ts';
import type { Instrument } from '../model/instrument.ts';
import type { Steps } from '../physics/switching/steps.ts';
import type { InstrumentAnalysis, Played } from './analysis-types.ts';
import { quickOf } from './pickup-analysis.ts';

/** Solves what it rests on, one position a step; the analysis afterwards has it. */
export function* solvingPositions(written: Instrument, bench: Bench | undefined): Generator<undefined> {
  if (instrumentAnalysis.known(written, bench)) return;
  const instrument = asWired(written);
  for (const position of instrument.positions) {
    solvedPosition(position, instrument, quickOf(bench), bench);
    yield;
  }
}

export const instrumentAnalysis = onceFor((written: Instrument, bench: Bench | undefined): InstrumentAnalysis => {
  const instrument = asWired(written);
  const quick = quickOf(bench);
  const owner = { place: instrument.place, subject: { instrument: instrument.name }, ownEdits: unchanged };
  const positions = onceForEach((played: Played) =>
    instrument.positions.map((position) => positionEstimates(instrument, position, quick, bench, played)),
  );
  return {
    instrument,
    written,
    ...runChecks(instrumentChecks, instrumentContext(written, quick, bench), owner),
    preparingLate: () => searchingLate(written),
    positions: (played = FULL_UP) => positions(played),
    response: (key, frequencyHz, played) => {
      const position = instrument.positions.find((each) => each.key.value === key);
      return position && positionResponse(instrument, position, quick, frequencyHz, played);
    },
  };
});

/** The searches that late checks rest on. */
function* searchingLate(written: Instrument): Steps<void> {
  yield* searchingClash(written);
  yield* searchingWays(written);
}

/** An instrument's remedies change the pickups that it holds, too. */
const unchanged = (edits: readonly Edit[]): readonly Edit[] => edits;
