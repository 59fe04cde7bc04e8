/** One instrument's findings and positions, remembered by the instrument and the bench that they were made from. */
import type { InstrumentAnalysis } from './analysis-types.ts';
import type { Bench } from './model/bench.ts';
import type { Instrument } from './model/instrument.ts';

const remembered = new WeakMap<
  Instrument,
  { readonly bench: Bench | undefined; readonly analysis: InstrumentAnalysis }
>();

export function instrumentAnalysis(instrument: Instrument, bench: Bench | undefined): InstrumentAnalysis {
  const before = remembered.get(instrument);
  if (before && before.bench === bench) return before.analysis;
  const analysis: InstrumentAnalysis = { instrument, findings: [], positions: () => [] };
  remembered.set(instrument, { bench, analysis });
  return analysis;
}
