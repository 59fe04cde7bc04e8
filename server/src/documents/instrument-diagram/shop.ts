import type { InstrumentAnalysis, Played } from '../../analysis/analysis-types.ts';
import { AT_THE_METER, positionNetwork } from '../../estimates/position-network.ts';
import { coilsHeard } from '../../estimates/positions.ts';
import type { QuickEstimates } from '../../estimates/quick.ts';
import type { Instrument, Position } from '../../model/instrument.ts';
import type { Pickup } from '../../model/pickup.ts';
import { transfers } from '../../physics/circuit/solve.ts';
import type { Language } from '../../words/languages/language.ts';

export interface Shop {
  readonly instrument: Instrument;
  readonly quickOf: (pickup: Pickup) => QuickEstimates;
  readonly analysed: InstrumentAnalysis;
  readonly played: Played;
  readonly t: Language;
}

/** A part of a tapped coil that gives less is not in the path. */
const LEAST_SHARE = 1e-3;

/** A part of a tapped coil, by the turn that it begins at. */
export const partId = (coil: string, fromTurn: number): string => `${coil}@${fromTurn}`;

/** Coils that sound, and the parts of tapped ones that do. */
export function soundingIn({ instrument, quickOf }: Shop, position: Position | undefined): ReadonlySet<string> {
  const selection = position?.selection;
  if (selection === undefined) return new Set();
  const network = positionNetwork(instrument, selection, quickOf, AT_THE_METER);
  const coils = coilsHeard(network, selection).map(({ placed }) => `${placed.slot.name}.${placed.segment.coil.name}`);
  const shares = transfers(network.network, network.output, 0);
  const parts = network.segments.flatMap(({ slot, segment }) => {
    const share = typeof shares === 'string' ? undefined : shares[network.network.sources.indexOf(segment.source)];
    const isTapped = segment.fromTurn > 0 || segment.toTurn !== undefined;
    return isTapped && Math.abs(share?.re ?? 0) > LEAST_SHARE
      ? [`${slot.name}.${partId(segment.coil.name, segment.fromTurn)}`]
      : [];
  });
  return new Set([...coils, ...parts]);
}
