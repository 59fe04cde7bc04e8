/** What a kick and a compass must show at each coil, from the signs of its winding, its poles and its place in the path. */
import type { QuickEstimates } from '../../estimates/quick.ts';
import type { CoilSigns } from '../../estimates/signs.ts';
import { sounds } from '../../estimates/signs.ts';
import { type Coil, type CoilEnd, opposite, oppositeSign, type Sign } from '../../model/coil.ts';
import type { PickupNetlist } from '../../model/netlist.ts';
import { type ProbePoint, probePoints } from './probe-pairs.ts';

export interface KickRow {
  readonly red: ProbePoint | 'hot';
  readonly black: ProbePoint | 'ground';
  readonly coil: Coil;
  /** Sign of the reading while steel comes near; `undefined` where winding direction or poles are neither stated nor measured. */
  readonly approach: Sign | undefined;
}

/**
 * Each coil by itself before joining, red on the end toward hot (on the finish where the path does not say), then each through
 * the whole. North-up, wound clockwise, red on the finish: approach reads positive. With red toward hot that is the coil's
 * string sign, turned about: coils in phase all read alike.
 */
export function kickRows(quick: QuickEstimates, loose: PickupNetlist): readonly KickRow[] {
  const points = probePoints(loose);
  const pointAt = (coil: Coil, end: CoilEnd): ProbePoint | undefined => {
    const net = loose.windings.find((each) => each.coil === coil)?.[end];
    return net === undefined ? undefined : points.find(({ node }) => loose.netOf(node) === net);
  };
  const alone = quick.signs.flatMap(({ coil, transfer, windPole }): readonly KickRow[] => {
    const towardHot: CoilEnd = transfer !== undefined && transfer < 0 ? 'start' : 'finish';
    const [red, black] = [pointAt(coil, towardHot), pointAt(coil, opposite(towardHot))];
    if (!red || !black || red === black) return [];
    const atFinish = windPole && oppositeSign(windPole.sign);
    return [{ red, black, coil, approach: towardHot === 'finish' ? atFinish : atFinish && oppositeSign(atFinish) }];
  });
  const whole = quick.signs
    .filter(sounds)
    .map(
      ({ coil, string }): KickRow => ({ red: 'hot', black: 'ground', coil, approach: string && oppositeSign(string) }),
    );
  return [...alone, ...whole];
}

/** Coils whose poles a compass can reach: not those beneath another, not those without poles. */
export const compassCoils = (quick: QuickEstimates): readonly CoilSigns[] =>
  quick.signs.filter(({ coil }) => !coil.below && coil.bobbin?.pole?.value !== 'none');
