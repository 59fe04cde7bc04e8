/** The changes a person can make to some pickups and to the selector positions that use them. */

import { hearsStrings } from '../estimates/phase.ts';
import type { QuickEstimates } from '../estimates/quick.ts';
import type { Coil } from '../model/coil.ts';
import type { Instrument, Position, Selection } from '../model/instrument.ts';
import { looseNetlist } from '../model/netlist.ts';
import type { Pickup } from '../model/pickup.ts';
import { partsOf, type SelectionPart } from '../model/selection.ts';
import { type PartChoice, partChoices } from '../model/selection-choices.ts';
import { hasMagnetRods, hasUnseenPoles } from '../words/pole-turning.ts';
import {
  changedPickup,
  endOnShield,
  leadSwap,
  NO_CHANGE,
  type PickupChange,
  sharedShieldJoint,
} from './changed-pickup.ts';
import { COVER, OPENS, WORK, type Work } from './work.ts';

export type Move = { readonly work: Work; readonly minutes: number } & (
  | {
      readonly on: 'pickup';
      readonly pickup: Pickup;
      /** The coil, where it is one coil that is worked on. */
      readonly coil: string | undefined;
      /** Adds this move to what else is done to the pickup. */
      readonly add: (change: PickupChange) => PickupChange;
    }
  | { readonly on: 'position'; readonly position: Position; readonly choice: PartChoice }
);

/** Every move that the spec holds enough for. */
export function possibleMoves(pickups: readonly QuickEstimates[], instrument: Instrument | undefined): readonly Move[] {
  const dummiesFirst = [...pickups].sort((a, b) => Number(isDummy(b)) - Number(isDummy(a)));
  return [...dummiesFirst.flatMap(pickupMoves), ...(instrument?.positions ?? []).flatMap(positionMoves)];
}

/** No string drives it: what turns it over touches no phase, so of plans alike it comes first, as a lower coil does. */
const isSilentCoil = ({ serves }: Coil): boolean => serves?.value === 'none';
const isDummy = ({ netlist }: QuickEstimates): boolean => netlist.pickup.coils.every(isSilentCoil);

type PickupMove = Extract<Move, { readonly on: 'pickup' }>;

function pickupMoves({ netlist: { pickup, windings }, signs }: QuickEstimates): readonly Move[] {
  const loose = looseNetlist(pickup);
  const move = (work: Work, add: (change: PickupChange) => PickupChange, coil?: Coil): PickupMove => ({
    on: 'pickup',
    work,
    minutes: WORK[work].minutes,
    pickup,
    coil: coil?.name,
    add,
  });
  const rods = rodCoils(pickup);
  const offShield = endOnShield(pickup);
  const moves: readonly PickupMove[] = [
    ...(sharedShieldJoint(pickup) ? [move('shield by itself', (change) => ({ ...change, shieldByItself: true }))] : []),
    ...(offShield ? [move('shield off a coil', (change) => ({ ...change, offShield }))] : []),
    move(pickup.coils.every(isSilentCoil) ? 'dummy at its hookup' : 'hot and ground', (change) => ({
      ...change,
      hotAndGroundSwapped: !change.hotAndGroundSwapped,
    })),
    ...(pickup.coils.length > 1
      ? // Of coils alike the one declared last, as its finding names it: its leads are joined last.
        [...pickup.coils.filter((coil) => !hearsStrings(coil)), ...pickup.coils.filter(hearsStrings).toReversed()]
      : []
    ).flatMap((coil): readonly PickupMove[] => {
      const swap = leadSwap(pickup, coil.name, loose);
      if (!swap) return [];
      const work = swap.where === 'outside' ? 'leads outside' : 'leads inside';
      return [move(work, (change) => ({ ...change, leadsSwapped: [...change.leadsSwapped, coil.name] }), coil)];
    }),
    ...(pickup.barMagnet || hasUnseenPoles(pickup)
      ? [
          move(hasUnseenPoles(pickup) && hasMagnetRods(pickup) ? 'rods of all coils' : 'bar magnet', (change) => ({
            ...change,
            barTurned: !change.barTurned,
          })),
        ]
      : []),
    ...rods
      .toReversed()
      .map((coil) =>
        move('rods of a coil', (change) => ({ ...change, rodsTurned: [...change.rodsTurned, coil.name] }), coil),
      ),
    ...(rods.length > 1
      ? [
          move('rods of all coils', (change) => ({
            ...change,
            rodsTurned: [...change.rodsTurned, ...rods.map(({ name }) => name)],
          })),
        ]
      : []),
    // Nobody reaches a coil of which it is not even known where its ends go.
    ...windings
      .flatMap(({ coil, ends }) => (ends === 'stated' ? [coil] : []))
      .map((coil) => move('rewind', (change) => ({ ...change, rewound: [...change.rewound, coil.name] }), coil)),
  ];
  return moves.filter(({ add }) => changedPickup(pickup, signs, add(NO_CHANGE)) !== undefined);
}

/** Coils with rods of their own, or whose poles are stated with them and lie on no bar. */
function rodCoils(pickup: Pickup): readonly Coil[] {
  if (pickup.barMagnet) return [];
  return pickup.coils.filter(({ polarity, below }) => polarity !== undefined && below === undefined);
}

function positionMoves(position: Position): readonly Move[] {
  if (position.onPurpose || !position.selection) return [];
  return freeChoices(position.selection).map((choice) => {
    const work = choice.turns ? 'dummy turned round' : 'other coil of a split';
    return { on: 'position', work, minutes: WORK[work].minutes, position, choice };
  });
}

/** Choices of parts that stand alone for their pickup: one whose other coils stand elsewhere in the position is none. */
export function freeChoices(selection: Selection): readonly PartChoice[] {
  const parts = partsOf(selection);
  return partChoices(selection).filter(({ part }) => parts.filter(({ slot }) => slot === part.slot).length === 1);
}

/** Pickups whose cover has to come off for these moves. */
export const coversOff = (moves: readonly Move[]): readonly Pickup[] => [
  ...new Set(moves.flatMap((move) => (move.on === 'pickup' && isUnderCover(move) ? [move.pickup] : []))),
];

const isUnderCover = ({ pickup, work }: { readonly pickup: Pickup; readonly work: Work }): boolean =>
  OPENS.includes(work) && pickup.metal.some(({ part }) => part === 'cover');

/** Of all moves together: a cover comes off once, whatever is done under it. */
export const minutesOf = (moves: readonly Move[]): number =>
  moves.reduce((total, { minutes }) => total + minutes, COVER.minutes * coversOff(moves).length);

/** What is done to each pickup by these moves. */
export function changesOf(moves: readonly Move[]): ReadonlyMap<Pickup, PickupChange> {
  const changes = new Map<Pickup, PickupChange>();
  for (const move of moves)
    if (move.on === 'pickup') changes.set(move.pickup, move.add(changes.get(move.pickup) ?? NO_CHANGE));
  return changes;
}

/** What is chosen at positions, by the part that it is chosen for. */
export const choicesOf = (moves: readonly Move[]): ReadonlyMap<SelectionPart, PartChoice> =>
  new Map(moves.flatMap((move) => (move.on === 'position' ? [[move.choice.part, move.choice] as const] : [])));

/** Moves that undo or repeat each other are never planned together. */
export function exclude(a: Move, b: Move): boolean {
  if (a.on === 'position' || b.on === 'position')
    return a.on === 'position' && b.on === 'position' && a.choice.part === b.choice.part;
  if (a.pickup !== b.pickup) return false;
  const works = [a.work, b.work];
  if (works.includes('shield by itself') && works.includes('shield off a coil')) return true;
  if (works.includes('rods of all coils')) return works.includes('rods of a coil');
  return a.coil !== undefined && a.coil === b.coil && works.includes('rewind') && works.some(isLeads);
}

export const isLeads = (work: Work): boolean => work === 'leads outside' || work === 'leads inside';
