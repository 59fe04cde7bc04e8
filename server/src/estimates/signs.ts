/**
 * Directions and polarities of the coils of a pickup, and what proves them. Conventions (seen from the strings): `wind` +1
 * counterclockwise from start to finish, `pole` +1 north-up, `direction` +1 where the path from ground to hot enters the coil
 * at its start. The string signal of a coil goes with direction · wind · pole, its hum with direction · wind.
 */
import { type Coil, poleSign, rotationFromSpindle, rotationSign, type Sign } from '../model/coil.ts';
import { kicks, type PickupNetlist } from '../model/netlist.ts';
import type { Pickup } from '../model/pickup.ts';
import type { Place } from '../model/place.ts';
import type { ReadingOf } from '../model/readings.ts';
import { dcTransfers, looseNetlist, type Segment } from './pickup-circuit.ts';

export interface Known {
  readonly sign: Sign;
  readonly basis: 'declared' | 'measured' | 'derived';
  /** The lines that fix it. */
  readonly places: readonly Place[];
}

export interface CoilSigns {
  readonly coil: Coil;
  /** Share of one volt in the coil (finish above start) that reaches hot over ground; 0: it carries nothing; `undefined`: no path. */
  readonly transfer: number | undefined;
  /** The same of one volt of hum, which a tapped coil's parts take up by their turn-area. */
  readonly humTransfer: number | undefined;
  readonly wind: Known | undefined;
  readonly pole: Known | undefined;
  /** wind · pole, which a kick measures at once. */
  readonly windPole: Known | undefined;
  /** direction · wind · pole. */
  readonly string: Sign | undefined;
  /** direction · wind. */
  readonly hum: Sign | undefined;
  readonly kicks: readonly KickResult[];
  readonly compasses: readonly ReadingOf<'compass'>[];
}

/** What a kick says of one coil. */
export interface KickResult {
  readonly kick: ReadingOf<'kick'>;
  readonly windPole: Sign;
}

/** What a segment has of its coil's turns and of its turn-area. */
interface Shares {
  turns(segment: Segment): number;
  area(segment: Segment): number;
}

export function coilSigns(
  netlist: PickupNetlist,
  ohmOf: (segment: Segment) => number,
  shareOf: Shares,
): readonly CoilSigns[] {
  const { pickup, hot, ground } = netlist;
  const shares = hot !== undefined && ground !== undefined ? dcTransfers(netlist, ohmOf, hot, ground) : undefined;
  const measured = kickResults(netlist, ohmOf, shareOf);
  const compasses = pickup.readings.flatMap(({ found, lines }) =>
    found ? [] : lines.filter((line) => line.kind === 'compass'),
  );
  return pickup.coils.map((coil): CoilSigns => {
    const own = compasses.filter(({ coil: path }) => path.text === coil.name);
    const kicked = measured.filter(({ coil: at }) => at === coil).map(({ result }) => result);
    const declaredWind = declaredRotation(coil);
    // The rods of a stack go through both bobbins: a compass at their tops shows the poles of the lower coil, too.
    const overRods = own.length > 0 ? own : compasses.filter(({ coil: path }) => path.text === coil.below?.value);
    const declaredPole = declaredPolarity(coil, pickup) ?? compassPole(overRods);
    const kick = kicked[0];
    const windPole =
      multiply(declaredWind, declaredPole) ??
      (kick && { sign: kick.windPole, basis: 'measured', places: [kick.kick.place] });
    const wind = declaredWind ?? multiply(windPole, declaredPole);
    const pole = declaredPole ?? multiply(windPole, declaredWind);
    const transfer = shares && totalTransfer(shares, coil, shareOf.turns);
    const humTransfer = shares && totalTransfer(shares, coil, shareOf.area);
    const [direction, humDirection] = [directionOf(transfer), directionOf(humTransfer)];
    return {
      coil,
      transfer,
      humTransfer,
      wind,
      pole,
      windPole,
      string: direction && windPole ? times(direction, windPole.sign) : undefined,
      hum: humDirection && wind ? times(humDirection, wind.sign) : undefined,
      kicks: kicked,
      compasses: own,
    };
  });
}

/** A coil's share below this carries nothing: rounding of the solver, not a path. */
const NOTHING = 1e-6;

export const times = (a: Sign, b: Sign): Sign => (a === b ? 1 : -1);

/** True where the coil drives the output. */
export const sounds = (signs: CoilSigns): boolean =>
  signs.transfer !== undefined && Math.abs(signs.transfer) >= NOTHING;

/** The wind as stated, or as the spindle gives it. */
export function declaredRotation(coil: Coil): Known | undefined {
  if (coil.wound) return { sign: rotationSign(coil.wound.value), basis: 'declared', places: [coil.wound.place] };
  if (coil.spindle)
    return {
      sign: rotationSign(rotationFromSpindle(coil.spindle.value)),
      basis: 'derived',
      places: [coil.spindle.place],
    };
  return undefined;
}

/** The polarity as stated, from the bar under the coils, or from the coil above in a stack. */
export function declaredPolarity(coil: Coil, pickup: Pickup): Known | undefined {
  if (coil.polarity) return { sign: poleSign(coil.polarity.value), basis: 'declared', places: [coil.polarity.place] };
  const above = coil.below && pickup.coils.find(({ name }) => name === coil.below?.value);
  if (above && above !== coil && !above.below) return declaredPolarity(above, pickup);
  const bar = pickup.barMagnet;
  if (!bar || !pickup.coils.some(({ name }) => name === bar.value.towardCoil.value)) return undefined;
  const toward = bar.value.towardCoil.value === coil.name;
  const sign: Sign = (bar.value.pole === 'north') === toward ? 1 : -1;
  return { sign, basis: 'derived', places: [bar.place] };
}

function compassPole(readings: readonly ReadingOf<'compass'>[]): Known | undefined {
  const first = readings[0];
  return first && { sign: poleSign(first.shows), basis: 'measured', places: [first.place] };
}

function multiply(a: Known | undefined, b: Known | undefined): Known | undefined {
  if (!a || !b) return undefined;
  const basis =
    a.basis === 'declared' && b.basis === 'declared'
      ? 'declared'
      : a.basis === 'measured' || b.basis === 'measured'
        ? 'measured'
        : 'derived';
  return { sign: times(a.sign, b.sign), basis, places: [...new Set([...a.places, ...b.places])] };
}

const directionOf = (transfer: number | undefined): Sign | undefined =>
  transfer === undefined || Math.abs(transfer) < NOTHING ? undefined : transfer > 0 ? 1 : -1;

/** The parts of a tapped coil are one coil, each weighing by what it has of it. */
function totalTransfer(
  shares: ReadonlyMap<Segment, number>,
  coil: Coil,
  weightOf: (segment: Segment) => number,
): number {
  let total = 0;
  for (const [segment, share] of shares) if (segment.coil === coil) total += share * weightOf(segment);
  return total;
}

/**
 * What each kick says: the coil's e.m.f. as the probes see it, through the joints as they are; before the joints where
 * they leave nothing to see. North-up, wound clockwise, red probe on the finish: approach reads positive.
 */
function kickResults(
  netlist: PickupNetlist,
  ohmOf: (segment: Segment) => number,
  shareOf: Shares,
): readonly { coil: Coil; result: KickResult }[] {
  return kicks(netlist.pickup).flatMap((kick) => {
    const coil = kickedCoil(netlist, kick);
    if (!coil) return [];
    const share =
      probeShare(netlist, ohmOf, shareOf, kick, coil) ??
      probeShare(looseNetlist(netlist.pickup), ohmOf, shareOf, kick, coil);
    if (share === undefined) return [];
    const reads: Sign = kick.reads === 'positive' ? 1 : -1;
    const motion: Sign = kick.motion === 'approach' ? 1 : -1;
    const seen: Sign = share > 0 ? 1 : -1;
    const windPole: Sign = times(times(reads, motion), times(seen, -1));
    return [{ coil, result: { kick, windPole } }];
  });
}

/** The coil under the steel: the one named, the one whose ends the probes touch, or the only one. */
export function kickedCoil(netlist: PickupNetlist, kick: ReadingOf<'kick'>): Coil | undefined {
  const { coils } = netlist.pickup;
  if (kick.at) return coils.find(({ name }) => name === kick.at?.text);
  const nets = probeNets(netlist, kick);
  const between = nets
    ? netlist.windings.filter(
        ({ start, finish }) =>
          start !== undefined && finish !== undefined && nets.includes(start) && nets.includes(finish),
      )
    : [];
  return between.length === 1 ? between[0]?.coil : coils.length === 1 ? coils[0] : undefined;
}

function probeNets(netlist: PickupNetlist, kick: ReadingOf<'kick'>): readonly [number, number] | undefined {
  const [red, black] = [kick.probes.red, kick.probes.black].map((path) => {
    const node = netlist.resolve(path);
    return node === undefined ? undefined : netlist.netOf(node);
  });
  return red === undefined || black === undefined ? undefined : [red, black];
}

function probeShare(
  netlist: PickupNetlist,
  ohmOf: (segment: Segment) => number,
  shareOf: Shares,
  kick: ReadingOf<'kick'>,
  coil: Coil,
): number | undefined {
  const nets = probeNets(netlist, kick);
  if (!nets || nets[0] === nets[1]) return undefined;
  const shares = dcTransfers(netlist, ohmOf, nets[0], nets[1]);
  const share = shares && totalTransfer(shares, coil, shareOf.turns);
  return share === undefined || Math.abs(share) < NOTHING ? undefined : share;
}
