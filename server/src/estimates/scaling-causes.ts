import type { SelectionPart } from '../model/selection.ts';
import { type Estimate, estimateOf, linear, scale } from '../quantities/estimate.ts';
import { pickupMagnetics } from './magnetics.ts';
import type { QuickOf } from './position-network.ts';
import type { QuickEstimates } from './quick.ts';
import { loudnessCause } from './sources.ts';

/**
 * What is known of all resistances, inductances and capacitances of some pickups, of the time constants of their eddy currents and of
 * what these take from the string's field, and of how loud coils of unknown turns are beside the others, each as a factor round 1: the
 * relative errors of the pickups' own values between hot and ground, with equal weights where there are several. What a
 * factor owes to a named cause (a spool, the poles of one pickup) stays named, so that the difference of two states of one
 * pickup is known better than either.
 */
export function scalingCauses(quick: readonly QuickEstimates[]): readonly Estimate[] {
  const magnetics = quick.map(pickupMagnetics);
  return [
    resistanceCause(quick),
    relative(magnetics.map(({ inductanceH }) => inductanceH)),
    relative(magnetics.map(({ capacitanceF }) => capacitanceF)),
    relative(magnetics.map(({ eddies }) => eddies().losses)),
    relative(magnetics.map(({ eddies }) => eddies().screening)),
    loudnessCause(quick),
  ];
}

/** The first of them; it asks for no inductance. A pickup without a way from hot to ground is as well known as its first coil. */
export const resistanceCause = (quick: readonly QuickEstimates[]): Estimate => relative(quick.map(wholeResistance));

const wholeResistance = ({ resistance20COhm, windings }: QuickEstimates): Estimate | undefined =>
  resistance20COhm ?? [...windings.values()][0]?.resistance20COhm;

/** What a position takes: pickups as wholes, single coils as they are known by themselves. */
export const resistanceCauseOf = (parts: readonly SelectionPart[], quickOf: QuickOf): Estimate =>
  relative(
    parts.flatMap((part) => {
      const quick = part.slot.pickup && quickOf(part.slot.pickup);
      if (!quick) return [];
      const own = part.kind === 'coil' && [...quick.windings].find(([{ name }]) => name === part.coil);
      return [own ? own[1].resistance20COhm : wholeResistance(quick)];
    }),
  );

function relative(estimates: readonly (Estimate | null | undefined)[]): Estimate {
  const known = estimates.flatMap((each) => (each && each.value > 0 ? [scale(each, 1 / each.value)] : []));
  if (known.length === 0) return estimateOf(1, { basis: 'computed' });
  return linear(
    known,
    known.map(() => 1 / known.length),
  );
}
