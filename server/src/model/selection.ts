/** Walks over what a selector position joins: one fold, and the places that are made of it. */
import type { Selection, Slot } from './instrument.ts';
import { GROUND_TERMINAL, HOT_TERMINAL } from './wiring.ts';

/** A pickup, one of its coils, or a part of it up to a tap. */
export type SelectionPart = Extract<Selection, { readonly kind: 'pickup' | 'coil' | 'tap' }>;
/** A state of the switches as it is soldered. */
export type NetsSelection = Extract<Selection, { readonly kind: 'nets' }>;
export type Joined = 'series' | 'parallel';

export interface SelectionFold<T> {
  part(part: SelectionPart): T;
  reversed(of: T): T;
  joined(of: readonly T[], how: Joined): T;
  /** What series and parallel have no words for. */
  nets(nets: NetsSelection): T;
}

export function foldSelection<T>(selection: Selection, fold: SelectionFold<T>): T {
  switch (selection.kind) {
    case 'reversed':
      return fold.reversed(foldSelection(selection.of, fold));
    case 'series':
    case 'parallel':
      return fold.joined(
        selection.of.map((each) => foldSelection(each, fold)),
        selection.kind,
      );
    case 'nets':
      return selection.words ? foldSelection(selection.words, fold) : fold.nets(selection);
    default:
      return fold.part(selection);
  }
}

/** The pickups, coils and taps that a selection names, in order. */
export const partsOf = (selection: Selection): readonly SelectionPart[] =>
  foldSelection<readonly SelectionPart[]>(selection, {
    part: (part) => [part],
    reversed: (of) => of,
    joined: (of) => of.flat(),
    nets: ({ parts }) => parts.map(({ part }) => part),
  });

/** The slots that a selection names, in order. */
export const slotsOf = (selection: Selection): readonly Slot[] => partsOf(selection).map(({ slot }) => slot);

/** True where some part of it is turned round. */
export const reverses = (selection: Selection): boolean =>
  foldSelection<boolean>(selection, {
    part: () => false,
    reversed: () => true,
    joined: (of) => of.includes(true),
    nets: () => false,
  });

/** True where some of it is joined in series. */
export const joinsInSeries = (selection: Selection): boolean =>
  foldSelection<boolean>(selection, {
    part: () => false,
    reversed: (of) => of,
    joined: (of, how) => how === 'series' || of.includes(true),
    nets: ({ parts }) => parts.length > 1,
  });

/** A part and the points that it lies between. */
export interface PlacedPart<P> {
  readonly part: SelectionPart;
  readonly high: P;
  readonly low: P;
  /** An odd number of reversals stands over it: its high side is the one away from the output. */
  readonly turned: boolean;
}

/** Every part between its points, in order; `joint` makes the points between the parts of a series. */
export function partsBetween<P>(selection: Selection, high: P, low: P, joint: () => P): readonly PlacedPart<P>[] {
  type Place = (high: P, low: P, turned: boolean) => readonly PlacedPart<P>[];
  const place = foldSelection<Place>(selection, {
    part: (part) => (above, below, turned) => [{ part, high: above, low: below, turned }],
    reversed: (of) => (above, below, turned) => of(below, above, !turned),
    joined: (of, how) => (above, below, turned) => {
      if (how === 'parallel') return of.flatMap((each) => each(above, below, turned));
      const joints = of.slice(1).map(joint);
      return of.flatMap((each, index) => each(joints[index - 1] ?? above, joints[index] ?? below, turned));
    },
    nets: ({ parts }) => {
      const points = new Map<string, P>();
      return (above, below, turned) => {
        points.set(HOT_TERMINAL, above).set(GROUND_TERMINAL, below);
        const pointOf = (net: string): P => {
          const point = points.get(net) ?? joint();
          points.set(net, point);
          return point;
        };
        return parts.map(({ part, ends: [high, low] }) => ({ part, high: pointOf(high), low: pointOf(low), turned }));
      };
    },
  });
  return place(high, low, false);
}
