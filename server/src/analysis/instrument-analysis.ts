/** One instrument's findings and positions, remembered by the instrument and the bench that they were made from. */

import { runChecks } from '../checks/check.ts';
import type { Edit } from '../checks/finding.ts';
import { instrumentChecks } from '../checks/index.ts';
import { instrumentContext, solvedPosition } from '../checks/instrument-check.ts';
import type { PositionEstimates } from '../estimates/estimates.ts';
import { FULL_UP, positionEstimates, positionResponse } from '../estimates/positions.ts';
import type { Bench } from '../model/bench.ts';
import type { Instrument } from '../model/instrument.ts';
import type { InstrumentAnalysis, Played } from './analysis-types.ts';
import { quickOf } from './pickup-analysis.ts';

const remembered = new WeakMap<
  Instrument,
  { readonly bench: Bench | undefined; readonly analysis: InstrumentAnalysis }
>();

/** Where it has been made. */
export function knownInstrumentAnalysis(
  instrument: Instrument,
  bench: Bench | undefined,
): InstrumentAnalysis | undefined {
  const before = remembered.get(instrument);
  return before && before.bench === bench ? before.analysis : undefined;
}

/** Solves what it rests on, one position a step; the analysis afterwards has it. */
export function* solvingPositions(instrument: Instrument, bench: Bench | undefined): Generator<undefined> {
  if (knownInstrumentAnalysis(instrument, bench)) return;
  for (const position of instrument.positions) {
    solvedPosition(position, instrument, quickOf(bench), bench);
    yield;
  }
}

export function instrumentAnalysis(instrument: Instrument, bench: Bench | undefined): InstrumentAnalysis {
  const known = knownInstrumentAnalysis(instrument, bench);
  if (known) return known;
  const analysis = analyse(instrument, bench);
  remembered.set(instrument, { bench, analysis });
  return analysis;
}

function analyse(instrument: Instrument, bench: Bench | undefined): InstrumentAnalysis {
  const quick = quickOf(bench);
  const owner = { place: instrument.place, subject: { instrument: instrument.name }, ownEdits: unchanged };
  const positions = new Map<string, readonly PositionEstimates[]>();
  return {
    instrument,
    ...runChecks(instrumentChecks, instrumentContext(instrument, quick, bench), owner),
    positions: (played: Played = FULL_UP) => {
      const key = JSON.stringify(played);
      const known = positions.get(key);
      if (known) return known;
      const made = instrument.positions.map((position) =>
        positionEstimates(instrument, position, quick, bench, played),
      );
      positions.set(key, made);
      return made;
    },
    response: (key, frequencyHz, played) => {
      const position = instrument.positions.find((each) => each.key.value === key);
      return position && positionResponse(instrument, position, quick, frequencyHz, played);
    },
  };
}

/** An instrument's remedies change the pickups that it holds, too. */
const unchanged = (edits: readonly Edit[]): readonly Edit[] => edits;
