import type { InstrumentAnalysis, Played } from '../../analysis/analysis-types.ts';
import { AT_THE_METER, positionNetwork } from '../../estimates/position-network.ts';
import { soundingCoils } from '../../estimates/positions.ts';
import type { QuickEstimates } from '../../estimates/quick.ts';
import type { Instrument, Position } from '../../model/instrument.ts';
import type { Pickup } from '../../model/pickup.ts';

export interface Shop {
  readonly instrument: Instrument;
  readonly quickOf: (pickup: Pickup) => QuickEstimates;
  readonly analysed: InstrumentAnalysis;
  readonly played: Played;
}

export function soundingIn({ instrument, quickOf }: Shop, position: Position | undefined): ReadonlySet<string> {
  const selection = position?.selection;
  if (selection === undefined) return new Set();
  const network = positionNetwork(instrument, selection, quickOf, AT_THE_METER);
  return new Set(soundingCoils(network, 0).map(({ placed }) => `${placed.slot.name}.${placed.segment.coil.name}`));
}
