/** What a pickup leaves out, and is therefore free to be chosen. */
import { isWound } from '../estimates/coils-to-wind.ts';
import type { QuickEstimates } from '../estimates/quick.ts';
import type { Coil } from '../model/coil.ts';

/** What of a coil that is still to be wound is not stated. */
export interface CoilOpening {
  readonly coil: Coil;
  readonly turns: boolean;
  readonly wire: boolean;
  readonly bobbin: boolean;
}

export interface Openings {
  readonly coils: readonly CoilOpening[];
  /** A bar under coils side by side that stand on steel. */
  readonly magnet: boolean;
}

/** `undefined` where nothing is left out of any coil that is still to be wound. */
export function openingsOf(quick: QuickEstimates): Openings | undefined {
  const { pickup } = quick.netlist;
  const coils = pickup.coils.flatMap((coil) => openingOf(coil, quick) ?? []);
  if (coils.length === 0) return undefined;
  const heard = pickup.coils.filter((coil) => !coil.below && coil.serves?.value !== 'none');
  const hasRods = heard.some(({ bobbin }) => bobbin?.pole?.value !== 'none' && bobbin?.pole?.value.form === 'rod');
  return { coils, magnet: !pickup.barMagnet && !pickup.unread.includes('magnet') && heard.length > 1 && !hasRods };
}

function openingOf(coil: Coil, quick: QuickEstimates): CoilOpening | undefined {
  if (isWound(coil, quick) || coil.unread.length > 0) return undefined;
  const opening = {
    coil,
    turns: coil.turns === undefined,
    wire: coil.wire === undefined && coil.spool === undefined && coil.wirePlace === undefined,
    bobbin: coil.bobbin === undefined && coil.bobbinPlace === undefined,
  };
  return opening.turns || opening.wire || opening.bobbin ? opening : undefined;
}

/** `turns, wire and bobbin of the main coil` in parts. */
export const openParts = ({ turns, wire, bobbin }: CoilOpening): readonly ('turns' | 'wire' | 'bobbin')[] => [
  ...(turns ? (['turns'] as const) : []),
  ...(wire ? (['wire'] as const) : []),
  ...(bobbin ? (['bobbin'] as const) : []),
];
