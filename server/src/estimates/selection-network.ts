/** What a position asks for as a network, and what a network is in the words of the selector. */

import type { Instrument, Selection, Slot } from '../model/instrument.ts';
import type { LeadPath } from '../model/lead.ts';
import type { Place } from '../model/place.ts';
import { foldSelection, type SelectionPart } from '../model/selection.ts';
import { type Folded, joined, namesIn, turned } from '../physics/switching/folded.ts';
import { textOf } from '../physics/switching/meaning.ts';
import { lugTerminal, type RigElement } from '../physics/switching/rig.ts';
import { pickupSections } from './pickup-sections.ts';
import { partAlike, partElement } from './wired-rig.ts';

/** A network with what its elements are compared by. */
export interface AskedNetwork {
  readonly network: Folded;
  readonly elements: readonly Pick<RigElement, 'name' | 'isCoil' | 'alike'>[];
}

/** `undefined` where a pickup is not known, or its hookup does not say how its coils are joined. */
export function askedNetwork(selection: Selection): AskedNetwork | undefined {
  const resistors: RigElement[] = [];
  const network = foldSelection<Folded | undefined>(selection, {
    part: (part) => partNetwork(part, resistors),
    reversed: (of) => of && turned(of),
    joined: (of, how) => {
      const parts = of.flatMap((each) => each ?? []);
      return parts.length === of.length ? joined(how, parts) : undefined;
    },
    nets: () => undefined,
  });
  return network && { network, elements: [...namesIn(network).map((name) => ({ name, isCoil: true })), ...resistors] };
}

/** Texts of the network as asked and wholly turned over; alone nobody hears the difference. */
export const askedTexts = ({ network, elements }: AskedNetwork) => {
  // What is named twice is what it was named last: a resistor is no coil.
  const text = textOf(network, elements);
  return { text, turnedText: textOf(turned(network), elements) };
};

function partNetwork(part: SelectionPart, resistors: RigElement[]): Folded | undefined {
  const { pickup, name } = part.slot;
  if (!pickup) return undefined;
  const own = pickupSections(pickup);
  if (part.kind === 'tap') return placedIn(name, own.takenAt(part.lead));
  if (part.kind === 'pickup' || !own.whole) return placedIn(name, own.whole);
  const coilOf = (element: string) => own.sections.find((each) => each.name === element)?.coil;
  const alone = own.sections.filter(({ coil }) => coil === part.coil);
  const ohm = part.throughOhm?.value.si;
  if (ohm === undefined || own.whole.kind !== 'series')
    return placedIn(
      name,
      joined(
        'series',
        alone.map(({ name: element }) => ({ kind: 'element', name: element, turned: false })),
      ),
    );
  // The others stay, each with the resistor across it.
  const across = own.whole.of.map((each): Folded => {
    if (namesIn(each).some((element) => coilOf(element) === part.coil)) return each;
    const resistor = `${name} through ${resistors.length + 1}`;
    resistors.push({ name: resistor, isCoil: false, ends: ['', ''], alike: partAlike('resistor', ohm) });
    return joined('parallel', [each, { kind: 'element', name: resistor, turned: false }]);
  });
  return placedIn(name, joined('series', across), new Set(resistors.map((each) => each.name)));
}

/** With the names that its elements have in the instrument. */
function placedIn(slot: string, folded: Folded | undefined, but: ReadonlySet<string> = new Set()): Folded | undefined {
  if (!folded) return undefined;
  if (folded.kind === 'element')
    return but.has(folded.name) ? folded : { ...folded, name: lugTerminal(slot, folded.name) };
  return { kind: folded.kind, of: folded.of.flatMap((each) => placedIn(slot, each, but) ?? []) };
}

/**
 * A network in the selector's words; `undefined` where it has no word for a part of it. `elements`: of the instrument as it is wired;
 * `place`: where it is told.
 */
export function selectionOf(
  network: Folded,
  instrument: Instrument,
  elements: readonly RigElement[],
  place: Place,
): Selection | undefined {
  const resistors: RigElement[] = [];
  const known = instrument.slots.flatMap((slot): readonly Known[] => {
    const whole: Selection = { kind: 'pickup', slot, path: pathTo(slot.name, place), place };
    return [whole, ...splitsThrough(slot, instrument, network, place)].flatMap((selection) => {
      const folded = partNetwork(selection, resistors);
      return folded ? [{ selection, folded }] : [];
    });
  });
  const all = [...elements, ...resistors];
  return worded(network, { instrument, known, place, text: (folded) => textOf(folded, all) });
}

/** Each coil of a pickup with the others through a resistor that sounds. */
function splitsThrough(
  slot: Slot,
  { wiring }: Instrument,
  network: Folded,
  place: Place,
): readonly Extract<Selection, { kind: 'coil' }>[] {
  const heard = new Set(namesIn(network));
  const resistors = (wiring?.parts ?? []).filter(
    ({ kind }, index) => kind === 'resistor' && heard.has(partElement(index)),
  );
  const coils = slot.pickup?.coils ?? [];
  return coils.length < 2
    ? []
    : resistors.flatMap(({ value, place: at }) =>
        coils.map(({ name }) => ({
          ...({ kind: 'coil', slot, coil: name, throughOhm: { value, place: at } } as const),
          ...{ path: pathTo(`${slot.name}.${name}`, place), place },
        })),
      );
}

interface Known {
  readonly selection: Selection;
  readonly folded: Folded;
}

interface Wording {
  readonly instrument: Instrument;
  /** Pickups as their hookups join them, and their splits through a resistor. */
  readonly known: readonly Known[];
  readonly place: Place;
  text(folded: Folded): string;
}

function worded(network: Folded, wording: Wording): Selection | undefined {
  const { known, place } = wording;
  const text = wording.text(network);
  for (const { selection, folded } of known) {
    if (text === wording.text(folded)) return selection;
    if (text === wording.text(turned(folded))) return { kind: 'reversed', of: selection, place };
  }
  if (network.kind === 'element') return wordedElement(network, wording);
  const { kind } = network;
  const left = [...network.of];
  const of: Selection[] = [];
  for (const each of known)
    for (const folded of [each.folded, turned(each.folded)]) {
      const members = folded.kind === kind ? membersOf(folded.of, left, wording) : undefined;
      const named = members && worded(folded, wording);
      if (!members || !named) continue;
      for (const member of members) left.splice(left.indexOf(member), 1);
      of.push(named);
    }
  for (const each of left) {
    const part = worded(each, wording);
    if (!part) return undefined;
    of.push(part);
  }
  const [only] = of;
  return of.length === 1 && only ? only : { kind, of, place };
}

/** Those of a list that say the same as these, one for each; `undefined` where one is missing. */
function membersOf(
  parts: readonly Folded[],
  among: readonly Folded[],
  { text: textIn }: Wording,
): readonly Folded[] | undefined {
  const found: Folded[] = [];
  for (const part of parts) {
    const text = textIn(part);
    const member = among.find((each) => !found.includes(each) && textIn(each) === text);
    if (!member) return undefined;
    found.push(member);
  }
  return found;
}

/** A coil alone; of a tapped one a section is no part that the selector can name by itself. */
function wordedElement(
  element: Extract<Folded, { kind: 'element' }>,
  { instrument, place }: Wording,
): Selection | undefined {
  for (const slot of instrument.slots) {
    const section =
      slot.pickup &&
      pickupSections(slot.pickup).sections.find(({ name }) => lugTerminal(slot.name, name) === element.name);
    if (!section || section.name !== section.coil) continue;
    const part: Selection = {
      kind: 'coil',
      slot,
      coil: section.coil,
      throughOhm: undefined,
      path: pathTo(element.name, place),
      place,
    };
    return element.turned ? { kind: 'reversed', of: part, place } : part;
  }
  return undefined;
}

const pathTo = (text: string, place: Place): LeadPath => ({ parts: text.split('.'), text, place });
