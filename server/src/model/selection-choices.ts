/** What else a switch position could take with one wire moved: another coil of a split, or a dummy coil the other way round. */
import { servesDifferentStrings } from './coil.ts';
import type { Selection } from './instrument.ts';
import type { Place } from './place.ts';
import { partsOf, type SelectionPart } from './selection.ts';

export interface PartChoice {
  readonly part: SelectionPart;
  /** The part, or the part turned round, that is exchanged, and what for. */
  readonly instead: Selection;
  readonly becomes: Selection;
  /** What stands in the text, and would. */
  readonly from: string;
  readonly to: string;
  /** Without a part's `through …`. */
  readonly place: Place;
  /** Leads change places; no other coil is taken. */
  readonly turns: boolean;
}

/** Dummy coils first: what is there for its hum alone is what hum is put right by. */
export const partChoices = (selection: Selection): readonly PartChoice[] =>
  // What is soldered has its own words in the wiring.
  selection.kind === 'nets' ? [] : [...turnedDummies(selection), ...partsOf(selection).flatMap(otherCoils)];

/** The selection with these choices made, one of a part. */
export function withChoices(selection: Selection, choices: readonly PartChoice[]): Selection {
  const made = choices.find(({ instead }) => instead === selection);
  if (made) return made.becomes;
  switch (selection.kind) {
    case 'reversed':
      return { ...selection, of: withChoices(selection.of, choices) };
    case 'series':
    case 'parallel':
      return { ...selection, of: selection.of.map((each) => withChoices(each, choices)) };
    default:
      return selection;
  }
}

/** Another coil of the same pickup; a half that senses other strings is none in place of this one. */
function otherCoils(part: SelectionPart): readonly PartChoice[] {
  if (part.kind !== 'coil') return [];
  const coils = part.slot.pickup?.coils ?? [];
  const taken = coils.find(({ name }) => name === part.coil);
  const { text, place } = part.path;
  return coils
    .filter((each) => each !== taken && !(taken && servesDifferentStrings(each, taken)))
    .map(({ name }) => {
      const becomes = { ...part, coil: name };
      return { part, instead: part, becomes, from: text, to: `${part.slot.name}.${name}`, place, turns: false };
    });
}

/** Parts turned round that no string drives: nothing is heard of them but their hum. */
function turnedDummies(selection: Selection): readonly PartChoice[] {
  switch (selection.kind) {
    case 'series':
    case 'parallel':
      return selection.of.flatMap(turnedDummies);
    case 'reversed': {
      const part = selection.of;
      if (!isPart(part) || !isDummy(part)) return turnedDummies(part);
      const [from, to] = [selection.place, part.place].map(({ chunk, span }) => chunk.text.slice(span.start, span.end));
      if (from === undefined || to === undefined) return [];
      return [{ part, instead: selection, becomes: part, from, to, place: selection.place, turns: true }];
    }
    case 'nets':
      return [];
    default: {
      if (!isDummy(selection)) return [];
      const { text, place } = selection.path;
      const becomes: Selection = { kind: 'reversed', of: selection, place: selection.place };
      return [{ part: selection, instead: selection, becomes, from: text, to: `reversed ${text}`, place, turns: true }];
    }
  }
}

const isPart = (selection: Selection): selection is SelectionPart =>
  selection.kind === 'pickup' || selection.kind === 'coil' || selection.kind === 'tap';

function isDummy(part: SelectionPart): boolean {
  const sounding = (part.slot.pickup?.coils ?? []).filter(({ name }) => part.kind !== 'coil' || name === part.coil);
  return sounding.length > 0 && sounding.every(({ serves }) => serves?.value === 'none');
}
