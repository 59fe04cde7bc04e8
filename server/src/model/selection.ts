/** Walks over what a selector position joins: one fold, and the places that are made of it. */
import type { Selection, Slot } from './instrument.ts';

/** A pickup, one of its coils, or a part of it up to a tap. */
export type SelectionPart = Extract<Selection, { readonly kind: 'pickup' | 'coil' | 'tap' }>;
export type Joined = 'series' | 'parallel';

export interface SelectionFold<T> {
  part(part: SelectionPart): T;
  reversed(of: T): T;
  joined(of: readonly T[], how: Joined): T;
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
  });

/** The slots that a selection names, in order. */
export const slotsOf = (selection: Selection): readonly Slot[] => partsOf(selection).map(({ slot }) => slot);

/** True where some part of it is turned round. */
export const reverses = (selection: Selection): boolean =>
  foldSelection<boolean>(selection, {
    part: () => false,
    reversed: () => true,
    joined: (of) => of.includes(true),
  });

/** True where some of it is joined in series. */
export const joinsInSeries = (selection: Selection): boolean =>
  foldSelection<boolean>(selection, {
    part: () => false,
    reversed: (of) => of,
    joined: (of, how) => how === 'series' || of.includes(true),
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
  });
  return place(high, low, false);
}
