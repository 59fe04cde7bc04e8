/**
 * What an instrument does in every state of its switches, by its wiring, beside what its positions ask for; remembered by the instrument.
 */
import { onceFor } from '../../../grammar/values/remember.ts';
import type { Instrument, Position, Selection } from '../model/instrument.ts';
import type { NetsSelection } from '../model/selection.ts';
import { meaningIn, type NumberedRig, numberedRig, type StateMeaning } from '../physics/switching/meaning.ts';
import { closedIn, type Nets, type Rig, type SwitchState, statesOf } from '../physics/switching/rig.ts';
import { type AskedNetwork, askedNetwork, askedTexts, selectionOf } from './selection-network.ts';
import { solderedIn } from './soldered-nets.ts';
import { wiredRig } from './wired-rig.ts';

export interface WiredState {
  readonly state: SwitchState;
  readonly meaning: StateMeaning;
  /** Groups of lugs that the contacts join. */
  readonly closed: Nets;
  /** Those of which two and more are soldered to anything. */
  readonly contacts: Nets;
  /** The positions that stand in it. */
  readonly positions: readonly Position[];
  /** What sounds, in the selector's words; `undefined` where nothing does, or it has no word for it. Made when first asked for. */
  readonly sounds: Selection | undefined;
  /** All that stands in it, by its nets. Made when first asked for. */
  readonly soldered: NetsSelection;
}

/** A position and what the wiring makes of it. */
export interface WiredPosition {
  readonly position: Position;
  readonly state: SwitchState;
  readonly meaning: StateMeaning;
  /** `undefined` where what it asks for is not known. */
  readonly asked: AskedNetwork | undefined;
  /** `turned`: the same, wholly turned over, which alone nobody hears. */
  readonly verdict: 'as asked' | 'turned' | 'differs' | 'not known';
  /** What really sounds, in the selector's words; `undefined` where nothing does, or it has no word for it. */
  readonly sounds: Selection | undefined;
  /** All that stands in it, by its nets. Made when first asked for. */
  readonly soldered: NetsSelection;
}

export interface WiredStates {
  readonly instrument: Instrument;
  readonly numbered: NumberedRig;
  readonly states: readonly WiredState[];
  /** Those that stand in a state that there is. */
  readonly positions: readonly WiredPosition[];
  /** Positions for which no switch has a detent. */
  readonly without: readonly Position[];
}

/** `undefined` where no wiring is written, or a pickup, a switch or a name in it is not known. */
export const wiredStates = onceFor((instrument: Instrument): WiredStates | undefined => {
  const rig = wiredRig(instrument);
  if (!rig) return undefined;
  const numbered = numberedRig(rig);
  const soldered = new Set([...rig.links.flat(), ...rig.elements.flatMap(({ ends }) => ends)]);
  const placed = instrument.positions.map((position) => ({ position, state: stateOf(position, instrument) }));
  const keyOf = (state: SwitchState | undefined) => state?.join(' ');
  const states = statesOf(rig).map((state): WiredState => {
    const positions = placed.flatMap((each) => (keyOf(each.state) === keyOf(state) ? [each.position] : []));
    const meaning = meaningIn(numbered, state);
    const closed = closedIn(rig, state);
    return {
      state,
      meaning,
      closed,
      contacts: closed.filter((group) => group.filter((lug) => soldered.has(lug)).length > 1),
      positions,
      get sounds() {
        const asked = positions.find((each) => compared(each, meaning, instrument, rig).verdict === 'as asked');
        return (
          asked?.selection ??
          (meaning.network && selectionOf(meaning.network, instrument, rig.elements, instrument.place))
        );
      },
      get soldered() {
        return solderedIn(instrument, rig, { meaning, closed }, { words: this.sounds, place: instrument.place });
      },
    };
  });
  const positions = placed.flatMap(({ position, state }): readonly WiredPosition[] => {
    const there = states.find((each) => keyOf(each.state) === keyOf(state));
    if (!state || !there) return [];
    const { meaning } = there;
    const own = compared(position, meaning, instrument, rig);
    return [
      {
        ...{ position, state, meaning, ...own },
        get soldered() {
          return solderedIn(instrument, rig, there, { words: own.sounds, place: position.place });
        },
      },
    ];
  });
  return {
    instrument,
    numbered,
    states,
    positions,
    without: placed.flatMap(({ position, state }) => (state ? [] : [position])),
  };
});

/** Where the switches stand: as stated, else the only one in its n-th detent, others in their first. */
export function stateOf({ at, key }: Position, { switches }: Instrument): SwitchState | undefined {
  const isNumbered = switches.length === 1 && at.length === 0;
  const state = switches.map(({ name, part }) => {
    const stated = at.find(({ slot }) => slot.value === name)?.detent.value;
    if (stated !== undefined) return (part?.detents ?? []).findIndex((detent) => detent.name === stated);
    return isNumbered ? Number(key.value) - 1 : 0;
  });
  return state.every((detent, index) => detent >= 0 && detent < (switches[index]?.part?.detents.length ?? 0))
    ? state
    : undefined;
}

function compared(
  { selection, place }: Position,
  { text, network }: StateMeaning,
  instrument: Instrument,
  { elements }: Rig,
): Pick<WiredPosition, 'asked' | 'verdict' | 'sounds'> {
  const asked = selection && askedNetwork(selection);
  const found = network && selectionOf(network, instrument, elements, place);
  if (!asked) return { asked, verdict: 'not known', sounds: found };
  const wanted = askedTexts(asked);
  if (text === wanted.text) return { asked, verdict: 'as asked', sounds: selection };
  return { asked, verdict: text === wanted.turnedText ? 'turned' : 'differs', sounds: found };
}

/** The instrument with its positions by the nets of their states, for all that is computed of them. */
export const asWired = onceFor((instrument: Instrument): Instrument => {
  const wired = wiredStates(instrument);
  if (!wired) return instrument;
  const solderedOf = new Map(wired.positions.map(({ position, soldered }) => [position, soldered]));
  const positions = instrument.positions.map((position): Position => {
    const selection = solderedOf.get(position);
    return selection ? { ...position, selection } : position;
  });
  return { ...instrument, positions };
});
