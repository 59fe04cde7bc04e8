/**
 * What is wrong with some pickups and an instrument once changes have been made, by the same rules as the findings. The circuits
 * are solved once; a change of leads, wind or poles only turns signs, and what a split keeps or where a shield lies is solved anew
 * and remembered.
 */
import { HARDLY_LESS_DB } from '../estimates/common-practice.ts';
import { clashes, humDb, humsNeedlessly, type Pair, pairsHeard, type Sounding } from '../estimates/phase.ts';
import { AT_THE_METER, positionNetwork, type QuickOf } from '../estimates/position-network.ts';
import { insideOnePickup, soundingCoils } from '../estimates/positions.ts';
import { type QuickEstimates, soundingIn } from '../estimates/quick.ts';
import { type Coil, oppositeSign, type Sign } from '../model/coil.ts';
import type { Instrument, Position, Selection } from '../model/instrument.ts';
import { foilsOf, isGrounded, isWired, type PickupNetlist, pickupNetlist } from '../model/netlist.ts';
import type { Pickup } from '../model/pickup.ts';
import { partsBetween, reverses, type SelectionPart, slotsOf } from '../model/selection.ts';
import { type PartChoice, withChoices } from '../model/selection-choices.ts';
import { changedPickup, NO_CHANGE, type PickupChange, turnedCoils } from './changed-pickup.ts';
import { changesOf, choicesOf, freeChoices, type Move } from './moves.ts';

export type FaultKind = 'phase' | 'hum' | 'metal' | 'meant';

/** A pickup or a position. */
export interface Subject {
  readonly pickup?: Pickup;
  readonly position?: Position;
}

export interface Fault extends Subject {
  readonly kind: FaultKind;
}

export interface Judge {
  /** Everything that is judged. */
  readonly subjects: readonly Subject[];
  /** Faults once these moves are made; `undefined` where they cannot be made together. */
  faults(moves: readonly Move[]): readonly Fault[] | undefined;
  /** What a move changes, as bits: sets of moves whose bits come to the same by exclusive or are one state of the instrument. */
  bitsOf(move: Move): bigint;
}

export function judgeOf(
  pickups: readonly QuickEstimates[],
  instrument: Instrument | undefined,
  quickOf: QuickOf,
): Judge {
  const parts = pickups.map((quick) => pickupJudge(quick));
  const positions = (instrument?.positions ?? []).flatMap((position) =>
    instrument && position.selection && complete(position.selection)
      ? [positionJudge(instrument, position, position.selection, quickOf)]
      : [],
  );
  const lowFloats = instrument ? floatingLows(instrument) : new Set<Pickup>();
  return {
    faults: (moves) => {
      const changes = changesOf(moves);
      const flips = new Map<Coil, Flip>();
      const faults: Fault[] = [];
      for (const part of parts) {
        const { pickup } = part.quick.netlist;
        const change = changes.get(pickup);
        for (const [coil, flip] of part.flips(change)) flips.set(coil, flip);
        const metal = part.metal(change);
        if (metal === undefined) return undefined;
        if (metal === 'hot' || (metal === 'on ground' && lowFloats.has(pickup))) faults.push({ kind: 'metal', pickup });
      }
      for (const part of parts) faults.push(...part.faults(flips));
      const choices = choicesOf(moves);
      for (const position of positions) faults.push(...position(flips, choices));
      return faults;
    },
    bitsOf: bitsOf(parts),
    subjects: [
      ...parts.map(({ quick }) => ({ pickup: quick.netlist.pickup })),
      ...(instrument?.positions ?? []).map((position) => ({ position })),
    ],
  };
}

/** One bit for each thing that can be told apart: poles and direction of a coil, wires where metal hangs on them, a choice. */
function bitsOf(parts: readonly PickupJudge[]): (move: Move) => bigint {
  const places = new Map<string, bigint>();
  const bit = (name: string): bigint => {
    const place = places.get(name) ?? BigInt(places.size);
    places.set(name, place);
    return 1n << place;
  };
  return (move) => {
    if (move.on === 'position') return bit(`${move.choice.place.span.start} ${move.choice.to}`);
    const part = parts.find(({ quick }) => quick.netlist.pickup === move.pickup);
    const change = move.add(NO_CHANGE);
    const flips = [...(part?.flips(change) ?? [])].flatMap(([{ name }, flip]) => [
      ...(flip.hum ? [`${move.pickup.name} ${name} direction`] : []),
      ...(flip.hum === flip.string ? [] : [`${move.pickup.name} ${name} poles`]),
    ]);
    const wires = hasMetal(move.pickup) && wiringKey(change) !== wiringKey(NO_CHANGE);
    const names = wires ? [...flips, `${move.pickup.name} ${wiringKey(change)}`] : flips;
    return names.reduce((bits, name) => bits ^ bit(name), 0n);
  };
}

const complete = (selection: Selection): boolean => slotsOf(selection).every(({ pickup }) => pickup !== undefined);

/** A coil's signs turned over by changes: for the string by leads, wind or poles, for hum by leads or wind. */
interface Flip {
  readonly string: boolean;
  readonly hum: boolean;
}

function flipped<T extends Sounding>(each: T, flips: ReadonlyMap<Coil, Flip>): T {
  const { string, hum } = flips.get(each.coil) ?? {};
  return { ...each, string: string ? turned(each.string) : each.string, hum: hum ? turned(each.hum) : each.hum };
}

const turned = (sign: Sign | undefined): Sign | undefined => sign && oppositeSign(sign);

interface PickupJudge {
  readonly quick: QuickEstimates;
  flips(change: PickupChange | undefined): ReadonlyMap<Coil, Flip>;
  metal(change: PickupChange | undefined): Metal | undefined;
  faults(flips: ReadonlyMap<Coil, Flip>): readonly Fault[];
}

type Metal = 'none' | 'apart' | 'on ground' | 'hot';

function pickupJudge(quick: QuickEstimates): PickupJudge {
  const { pickup } = quick.netlist;
  const live = soundingIn(quick);
  const pairs = pairsHeard(live);
  const remembered = new Map<string, Metal | undefined>();
  const asBuilt = metalOf(quick.netlist);
  return {
    quick,
    flips: (change) => {
      const flips = new Map<Coil, Flip>();
      if (!change) return flips;
      const turned = turnedCoils(pickup, change.rodsTurned, change.barTurned);
      for (const coil of pickup.coils) {
        const direction =
          change.leadsSwapped.includes(coil.name) !==
          (change.rewound.includes(coil.name) !== change.hotAndGroundSwapped);
        flips.set(coil, { hum: direction, string: direction !== turned.includes(coil.name) });
      }
      return flips;
    },
    metal: (change) => {
      if (!change) return asBuilt;
      const key = wiringKey(change);
      if (!remembered.has(key)) {
        const changed = changedPickup(pickup, quick.signs, {
          ...change,
          rewound: [],
          rodsTurned: [],
          barTurned: false,
        });
        remembered.set(key, changed && metalOf(pickupNetlist(changed)));
      }
      return remembered.get(key);
    },
    faults: (flips) => {
      if (pickup.hookup?.onPurpose || live.length < 2) return [];
      if (isOut(pairs, flips)) return [{ kind: 'phase', pickup }];
      const level = humLevel(live, flips);
      return level !== undefined && level >= -HARDLY_LESS_DB ? [{ kind: 'hum', pickup }] : [];
    },
  };
}

const hasMetal = ({ shield, metal, coils }: Pickup): boolean =>
  shield !== undefined || metal.length > 0 || coils.some(({ foil }) => foil !== undefined);

const wiringKey = (change: PickupChange): string =>
  [
    change.leadsSwapped.join(' '),
    change.hotAndGroundSwapped,
    change.shieldByItself,
    change.offShield ? `${change.offShield.coil}.${change.offShield.end}` : '',
  ].join(';');

function metalOf(netlist: PickupNetlist): Metal {
  const joined = netlist.metal.filter(({ net }) => isWired(netlist, net));
  const isLive = ({ net }: { readonly net: number }) => isWired(netlist, net) && !isGrounded(netlist, net);
  if ([...joined, ...foilsOf(netlist)].some(isLive)) return 'hot';
  if (joined.length === 0) return 'none';
  return joined.some(({ net }) => net === netlist.ground) ? 'on ground' : 'apart';
}

/** Pickups whose own ground does not lie on the instrument's ground in some position. */
const floatingLows = ({ positions }: Instrument): ReadonlySet<Pickup> =>
  new Set(
    positions.flatMap(({ selection }) =>
      (selection ? partsBetween(selection, 'hot', 'ground', () => 'between') : []).flatMap(({ part, low }) =>
        low !== 'ground' && part.slot.pickup ? [part.slot.pickup] : [],
      ),
    ),
  );

type Choices = ReadonlyMap<SelectionPart, PartChoice>;
type PositionJudge = (flips: ReadonlyMap<Coil, Flip>, choices: Choices) => readonly Fault[];

interface Solved {
  readonly coils: readonly Sounding[];
  readonly heard: readonly Pair<Sounding>[];
  /** Pairs of different pickups, or of parts of one. */
  readonly across: readonly Pair<Sounding>[];
}

function positionJudge(
  instrument: Instrument,
  position: Position,
  selection: Selection,
  quickOf: QuickOf,
): PositionJudge {
  const free = freeChoices(selection);
  const own = (choices: Choices) => free.filter((choice) => isMade(choice, choices));
  const remembered = new Map<string, Solved>();
  const solvedFor = (choices: Choices): Solved => {
    const made = own(choices);
    const key = made.map(({ place, to }) => `${place.span.start} ${to}`).join(' ');
    const known = remembered.get(key);
    if (known) return known;
    const solved = solve(instrument, withChoices(selection, made), quickOf);
    remembered.set(key, solved);
    return solved;
  };
  const meant = position.onPurpose && (isOut(solvedFor(NO_CHOICES).heard, NO_FLIPS) || reverses(selection));
  return (flips, choices) => {
    const solved = solvedFor(choices);
    if (position.onPurpose)
      return meant && solved.coils.length > 1 && !isOut(solved.heard, flips) ? [{ kind: 'meant', position }] : [];
    if (isOut(solved.across, flips)) return [{ kind: 'phase', position }];
    const level = humLevel(solved.coils, flips);
    if (level === undefined || isOut(solved.heard, flips)) return [];
    // What was chosen can be taken back, too: every part stands as it is written or as one of its choices.
    const others: readonly Choices[] = free.flatMap((choice) => {
      const rest = new Map([...choices].filter(([part]) => part !== choice.part));
      return isMade(choice, choices) ? [rest] : [new Map([...rest, [choice.part, choice]])];
    });
    const better = others.some((each) => {
      const changed = solvedFor(each);
      const left = humLevel(changed.coils, flips);
      return left !== undefined && humsNeedlessly(level, left) && !isOut(changed.heard, flips);
    });
    return better ? [{ kind: 'hum', position }] : [];
  };
}

const isMade = ({ part, to }: PartChoice, choices: Choices): boolean => choices.get(part)?.to === to;

const NO_CHOICES: Choices = new Map();
const NO_FLIPS: ReadonlyMap<Coil, Flip> = new Map();

function solve(instrument: Instrument, selection: Selection, quickOf: QuickOf): Solved {
  const coils = soundingCoils(positionNetwork(instrument, selection, quickOf, AT_THE_METER), 0);
  const heard = pairsHeard(coils);
  return { coils, heard, across: heard.filter(([a, b]) => !insideOnePickup(a, b)) };
}

const isOut = (pairs: readonly Pair<Sounding>[], flips: ReadonlyMap<Coil, Flip>): boolean =>
  pairs.some(([a, b]) => clashes([stringFlipped(a, flips), stringFlipped(b, flips)]));

/** Asked of thousands of sets of changes: of the string alone. */
const stringFlipped = ({ coil, string }: Sounding, flips: ReadonlyMap<Coil, Flip>): Pick<Sounding, 'string'> => ({
  string: flips.get(coil)?.string ? turned(string) : string,
});

const humLevel = (coils: readonly Sounding[], flips: ReadonlyMap<Coil, Flip>): number | undefined =>
  humDb(coils.map((each) => flipped(each, flips)));
