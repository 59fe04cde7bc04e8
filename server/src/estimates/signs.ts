/**
 * Directions and polarities of the coils of a pickup, and what proves them. Conventions (seen from the strings): `wind` +1
 * counterclockwise from start to finish, `pole` +1 north-up, `direction` +1 where the path from ground to hot enters the coil
 * at its start. The string signal of a coil goes with direction · wind · pole, its hum with direction · wind.
 */
import { type Coil, type PoleUp, poleSign, rotationFromSpindle, rotationSign, type Sign } from '../model/coil.ts';
import { endsSince } from '../model/ends-since.ts';
import { type DatedBlock, magnetWorkAt } from '../model/life.ts';
import { looseNetlist, type PickupNetlist, probedNets } from '../model/netlist.ts';
import type { Pickup } from '../model/pickup.ts';
import type { Place } from '../model/place.ts';
import type { ReadingOf, Readings } from '../model/readings.ts';
import type { PickupLife } from './coil-life.ts';
import { NOMINAL_OHM } from './common-practice.ts';
import { dcTransfers, type Segment } from './pickup-circuit.ts';
import { type Known, signSystem, times } from './sign-system.ts';

export interface CoilSigns extends KnownSigns {
  readonly coil: Coil;
  /** Share of one volt in the coil (finish above start) that reaches hot over ground; 0: it carries nothing; `undefined`: no path. */
  readonly transfer: number | undefined;
  /** The same of one volt of hum, which a tapped coil's parts take up by their turn-area. */
  readonly humTransfer: number | undefined;
  /** direction · wind · pole. */
  readonly string: Sign | undefined;
  /** direction · wind. */
  readonly hum: Sign | undefined;
  readonly kicks: readonly KickResult[];
  readonly compasses: readonly ReadingOf<'compass'>[];
  /** Of the coil of that name before the last work, where something was read then. */
  readonly found: KnownSigns | undefined;
  /** A kick of before a work that the coil outlasted, and what it contradicts; one whose wind as stated now is among that. */
  readonly foundAgainst: FoundAgainst | undefined;
}

export interface FoundAgainst {
  readonly kick: ReadingOf<'kick'>;
  readonly against: Known;
}

/** What a kick says of one coil. */
export interface KickResult {
  readonly kick: ReadingOf<'kick'>;
  readonly windPole: Sign;
}

type PerSegment = (segment: Segment) => number;

/** What a segment has of its coil's turns and of its turn-area. */
interface Shares {
  readonly turns: PerSegment;
  readonly area: PerSegment;
}

export function coilSigns(
  netlist: PickupNetlist,
  life: PickupLife,
  ohmOf: PerSegment,
  shareOf: Shares,
): readonly CoilSigns[] {
  const { pickup, hot, ground } = netlist;
  const shares = hot !== undefined && ground !== undefined ? dcTransfers(netlist, ohmOf, hot, ground) : undefined;
  const { known, kicked, disputed } = signEvidence(life, ohmOf, shareOf.turns);
  return pickup.coils.map((coil): CoilSigns => {
    const { wind, pole, windPole } = known(coil, 0);
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
      kicks: kicked.filter(({ coil: at }) => at === coil).map(({ result }) => result),
      compasses: compassesOf(pickup.readings.filter(({ found }) => !found)).filter(
        ({ coil: path }) => path.text === coil.name,
      ),
      foundAgainst: disputed.find(
        ({ name, against }) =>
          name === coil.name && declaredRotation(coil)?.places.some((place) => against.places.includes(place)),
      ),
      found: life.blocks.some(({ worksAgo }) => worksAgo === 1) ? known(coil, 1) : undefined,
    };
  });
}

/** Wind, pole and their product, as far as they are known. */
export interface KnownSigns {
  readonly wind: Known | undefined;
  readonly pole: Known | undefined;
  /** wind · pole, which a kick measures at once. */
  readonly windPole: Known | undefined;
}

interface SignEvidence {
  known(coil: Coil, worksAgo: number): KnownSigns;
  /** Kicks of before a work that contradict what is newer, or was stated. */
  readonly disputed: readonly (FoundAgainst & { readonly name: string })[];
  /** Kicks at the pickup as it is. */
  readonly kicked: readonly { readonly coil: Coil; readonly result: KickResult }[];
}

/**
 * All that is stated and measured of wind and poles, of every state: the wind stays with a coil that was kept, the pole with a magnet
 * that was kept, or turned over. What is newer goes before; within one state statements, then compasses, then kicks.
 */
function signEvidence(life: PickupLife, ohmOf: PerSegment, turnsShare: PerSegment): SignEvidence {
  const system = signSystem();
  const windOf = (coil: string, worksAgo: number): string => {
    let ago = worksAgo;
    while (ago > 0 && life.outlasted(coil, ago)) ago--;
    return `wind ${coil} ${ago}`;
  };
  /** The pole's own name, and whether it was turned over since. */
  const poleOf = (coil: string, worksAgo: number): { readonly name: string; readonly turned: Sign } => {
    let ago = worksAgo;
    let turned: Sign = 1;
    for (; ago > 0; ago--) {
      const { pickup } = life.states[ago - 1] ?? {};
      const now = pickup?.coils.find(({ name }) => name === coil);
      const work = pickup && now && magnetWorkAt(now, pickup);
      if (work !== 'kept' && work !== 'turned') break;
      if (work === 'turned') turned = times(turned, -1);
    }
    return { name: `pole ${coil} ${ago}`, turned };
  };
  /** Whether start and finish of what was kicked are those that its wind is stated by since; `undefined` where nobody knows. */
  const endsAsNow = (coil: string, state: PickupNetlist, worksAgo: number): Sign | undefined => {
    let since: Sign | undefined = 1;
    for (let ago = worksAgo; ago > 0 && life.outlasted(coil, ago); ago--) {
      const later = life.states[ago - 1];
      since = later && endsSince(coil, state, later);
      if (since !== 1) return since;
    }
    return since;
  };
  const addPole = (coil: string, worksAgo: number, known: Known) => {
    const { name, turned } = poleOf(coil, worksAgo);
    system.add([name], { ...known, sign: times(known.sign, turned) });
  };
  const kicked: { coil: Coil; result: KickResult }[] = [];
  const disputed: (FoundAgainst & { name: string })[] = [];
  const oldest = Math.max(life.states.length - 1, ...life.blocks.map(({ worksAgo }) => worksAgo));
  for (let worksAgo = 0; worksAgo <= oldest; worksAgo++) {
    const { pickup } = life.states[worksAgo] ?? {};
    for (const coil of pickup?.coils ?? []) {
      const wind = declaredRotation(coil);
      if (wind) system.add([windOf(coil.name, worksAgo)], wind);
      const pole = pickup && declaredPolarity(coil, pickup);
      if (pole) addPole(coil.name, worksAgo, pole);
    }
    exchangedBar(life, worksAgo, (a, b, place) =>
      system.add([poleOf(a, worksAgo).name, poleOf(b, worksAgo).name], { sign: -1, basis: 'derived', places: [place] }),
    );
    const blocks = life.blocks.filter((each) => each.worksAgo === worksAgo);
    for (const { coil, shows, place } of compassesOver(blocks, life))
      addPole(coil, worksAgo, { sign: poleSign(shows), basis: 'measured', places: [place] });
    for (const state of life.states) {
      const own = blocks.filter((each) => each.state === state.pickup).map(({ block }) => block);
      const isNow = state === life.states[0];
      const results = kickResults(state, own, isNow ? ohmOf : () => NOMINAL_OHM, isNow ? turnsShare : ALL_ALIKE);
      for (const { coil, result } of results) {
        const since = endsAsNow(coil.name, state, worksAgo);
        if (since === undefined) continue;
        const { name, turned } = poleOf(coil.name, worksAgo);
        const against = system.add([windOf(coil.name, worksAgo), name], {
          sign: times(times(result.windPole, since), turned),
          basis: 'measured',
          places: [result.kick.place],
        });
        if (against && worksAgo > 0) disputed.push({ name: coil.name, kick: result.kick, against });
      }
      if (worksAgo === 0) kicked.push(...results);
    }
  }
  return {
    kicked,
    disputed,
    known: ({ name: coil }, worksAgo) => {
      const { name, turned } = poleOf(coil, worksAgo);
      const turn = (known: Known | undefined) => known && { ...known, sign: times(known.sign, turned) };
      return {
        wind: system.known([windOf(coil, worksAgo)]),
        pole: turn(system.known([name])),
        windPole: turn(system.known([windOf(coil, worksAgo), name])),
      };
    },
  };
}

const ALL_ALIKE: PerSegment = () => 1;

/** A bar that was exchanged lay over both coils as the new one does: of whichever pole, not the same at both. */
function exchangedBar(
  { states }: PickupLife,
  worksAgo: number,
  tell: (a: string, b: string, place: Place) => void,
): void {
  const { pickup } = states[worksAgo - 1] ?? {};
  const bar = pickup?.barMagnet;
  if (!pickup || !bar || bar.value.work !== 'new') return;
  const toward = bar.value.towardCoil.value;
  for (const coil of pickup.coils)
    if (coil.name !== toward && !coil.polarity && !coil.below) tell(toward, coil.name, bar.place);
}

const compassesOf = (blocks: readonly Readings[]): readonly ReadingOf<'compass'>[] =>
  blocks.flatMap(({ lines }) => lines.filter((line) => line.kind === 'compass'));

/** The rods of a stack go through both bobbins: a compass at their tops shows the poles of the lower coil, too. */
function compassesOver(
  blocks: readonly DatedBlock[],
  { states }: PickupLife,
): readonly { readonly coil: string; readonly shows: PoleUp; readonly place: Place }[] {
  const all = compassesOf(blocks.map(({ block }) => block));
  const at = (coil: string) => all.filter((each) => each.coil.text === coil);
  const below = (states[0]?.pickup.coils ?? []).flatMap((coil) =>
    coil.below && at(coil.name).length === 0
      ? at(coil.below.value).map(({ shows, place }) => ({ coil: coil.name, shows, place }))
      : [],
  );
  return [...all.map(({ coil, shows, place }) => ({ coil: coil.text, shows, place })), ...below];
}

/** A coil's share below this carries nothing: rounding of the solver, not a path. */
const NOTHING = 1e-6;

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

const directionOf = (transfer: number | undefined): Sign | undefined =>
  transfer === undefined || Math.abs(transfer) < NOTHING ? undefined : transfer > 0 ? 1 : -1;

/** The parts of a tapped coil are one coil, each weighing by what it has of it. */
function totalTransfer(shares: ReadonlyMap<Segment, number>, coil: Coil, weightOf: PerSegment): number {
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
  blocks: readonly Readings[],
  ohmOf: PerSegment,
  turnsShare: PerSegment,
): readonly { coil: Coil; result: KickResult }[] {
  const lines = blocks.flatMap((block) => block.lines.map((line) => ({ line, apart: block.apart })));
  return lines.flatMap(({ line: kick, apart }) => {
    if (kick.kind !== 'kick') return [];
    const coil = kickedCoil(netlist, kick);
    if (!coil) return [];
    const share =
      (apart ? undefined : probeShare(netlist, ohmOf, turnsShare, kick, coil)) ??
      probeShare(looseNetlist(netlist.pickup), ohmOf, turnsShare, kick, coil);
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
  const nets = probedNets(kick.probes, netlist);
  const between = nets
    ? netlist.windings.filter(
        ({ start, finish }) =>
          start !== undefined && finish !== undefined && nets.includes(start) && nets.includes(finish),
      )
    : [];
  return between.length === 1 ? between[0]?.coil : coils.length === 1 ? coils[0] : undefined;
}

function probeShare(
  netlist: PickupNetlist,
  ohmOf: PerSegment,
  turnsShare: PerSegment,
  kick: ReadingOf<'kick'>,
  coil: Coil,
): number | undefined {
  const nets = probedNets(kick.probes, netlist);
  if (!nets || nets[0] === nets[1]) return undefined;
  const shares = dcTransfers(netlist, ohmOf, nets[0], nets[1]);
  const share = shares && totalTransfer(shares, coil, turnsShare);
  return share === undefined || Math.abs(share) < NOTHING ? undefined : share;
}
