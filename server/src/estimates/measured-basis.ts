/** Whether what is told of a response rests on what was measured. */
import type { Coil } from '../model/coil.ts';
import type { Selection } from '../model/instrument.ts';
import { partsOf, type SelectionPart } from '../model/selection.ts';
import type { Basis } from '../quantities/estimate.ts';
import { pickupMagnetics } from './magnetics.ts';
import type { QuickOf } from './position-network.ts';
import type { QuickEstimates } from './quick.ts';

export interface ResponseBasis {
  /** Of frequencies: inductance and capacitance of all that sounds were measured. */
  readonly frequency: Basis;
  /** Of heights: the losses as well. */
  readonly height: Basis;
}

/** Of one coil where it is named, else of the whole pickup. */
export function responseBasis(quick: QuickEstimates, coil?: Coil): ResponseBasis {
  const { inductanceH, capacitanceF, coils, eddies } = pickupMagnetics(quick);
  const own = coil && coils.get(coil);
  const numbers = coil ? [own?.totalH, own?.capacitances.windingF] : [inductanceH, capacitanceF];
  const isRead = numbers.every((each) => each?.basis === 'reading');
  return basisOf(isRead, isRead && eddies().losses.basis === 'reading');
}

/** Of a position: that of each pickup, or of the coil that is taken of it. Of a part of a coil nothing is measured by itself. */
export function positionBasis(selection: Selection, quickOf: QuickOf): ResponseBasis {
  const parts = partsOf(selection).map((part) => partBasis(part, quickOf));
  const isAll = (of: keyof ResponseBasis) => parts.length > 0 && parts.every((each) => each[of] === 'reading');
  return basisOf(isAll('frequency'), isAll('height'));
}

function partBasis(part: SelectionPart, quickOf: QuickOf): ResponseBasis {
  const { pickup } = part.slot;
  if (!pickup || part.kind === 'tap') return basisOf(false, false);
  if (part.kind === 'pickup') return responseBasis(quickOf(pickup));
  const coil = pickup.coils.find(({ name }) => name === part.coil);
  return coil ? responseBasis(quickOf(pickup), coil) : basisOf(false, false);
}

const basisOf = (frequency: boolean, height: boolean): ResponseBasis => ({
  frequency: frequency ? 'reading' : 'computed',
  height: height ? 'reading' : 'computed',
});
