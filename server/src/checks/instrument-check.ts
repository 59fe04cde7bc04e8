/** The form of a check over an instrument and its selector positions. */

import { attached } from '../../../grammar/values/attached.ts';
import { present, type Some } from '../../../grammar/values/present.ts';
import { AT_THE_METER, type PositionNetwork, positionNetwork, type QuickOf } from '../estimates/position-network.ts';
import { coilsHeard, type SoundingCoil } from '../estimates/positions.ts';
import { asWired, type WiredStates, wiredStates } from '../estimates/switch-states.ts';
import type { Bench } from '../model/bench.ts';
import type { Instrument, Position, Selection } from '../model/instrument.ts';
import type { Place } from '../model/place.ts';
import { slotsOf } from '../model/selection.ts';
import type { Check, Found } from './check.ts';
import type { Edit } from './finding.ts';
import type { Code } from './pages.ts';

export interface SolvedPosition {
  readonly position: Position;
  readonly selection: Selection;
  /** At 0 Hz, pots full up: what decides directions and joints. */
  readonly network: PositionNetwork;
  readonly coils: readonly SoundingCoil[];
}

export interface InstrumentContext {
  /** Its positions as they are wired, where a wiring is written. */
  readonly instrument: Instrument;
  /** As it is written. */
  readonly written: Instrument;
  /** What its switches make of it; `undefined` where no wiring is written, or not all of it is known. */
  readonly switching: WiredStates | undefined;
  readonly bench: Bench | undefined;
  readonly quickOf: QuickOf;
  /** Positions whose pickups are all known. */
  readonly positions: readonly SolvedPosition[];
}

export type InstrumentCheck<C extends Code = Code, Y extends Code = Code> = Check<InstrumentContext, C, Y>;

export const defineInstrumentCheck = <C extends Code, Y extends Code = never>(check: InstrumentCheck<C, Y>) => check;

/** What is found of a position lies at its line, and is of it. */
export type FoundAtPosition = Omit<Found, 'place'>;

/** A check of each selector position whose pickups are known. */
export const definePositionCheck = <C extends Code, Y extends Code = never>({
  at,
  ...check
}: Omit<InstrumentCheck<C, Y>, 'run'> & {
  at(solved: SolvedPosition, context: InstrumentContext): Some<FoundAtPosition>;
}): InstrumentCheck<C, Y> => ({
  ...check,
  run: (context) =>
    context.positions.flatMap((solved) =>
      present([at(solved, context)].flat()).map((found) => ({
        ...found,
        place: solved.position.place,
        subject: { position: solved.position.key.value, ...found.subject },
      })),
    ),
});

export function instrumentContext(written: Instrument, quickOf: QuickOf, bench: Bench | undefined): InstrumentContext {
  const instrument = asWired(written);
  const positions = instrument.positions.flatMap(
    (position) => solvedPosition(position, instrument, quickOf, bench) ?? [],
  );
  return { instrument, written, switching: wiredStates(written), quickOf, bench, positions };
}

const remembered = attached<
  Position,
  { readonly of: Instrument; readonly bench: Bench | undefined; readonly solved: SolvedPosition }
>();

/** Remembered, so that a long selector can be solved a position at a time. `undefined` where a pickup is not known. */
export function solvedPosition(
  position: Position,
  instrument: Instrument,
  quickOf: QuickOf,
  bench: Bench | undefined,
): SolvedPosition | undefined {
  const before = remembered.get(position);
  if (before && before.of === instrument && before.bench === bench) return before.solved;
  const { selection } = position;
  if (!selection || slotsOf(selection).some(({ pickup }) => pickup === undefined)) return undefined;
  // What is wrong with it is told of the wiring; the rest would follow from that.
  if (selection.kind === 'nets' && !selection.words) return undefined;
  const network = positionNetwork(instrument, selection, quickOf, AT_THE_METER);
  const solved = { position, selection, network, coils: coilsHeard(network, selection) };
  remembered.set(position, { of: instrument, bench, solved });
  return solved;
}

/** Says at the end of a position's line that it is meant. */
export function onPurposeEdit({ place }: Position): Edit {
  const end: Place = { chunk: place.chunk, span: { start: place.span.end, end: place.span.end } };
  return { place: end, newText: ', on purpose' };
}
