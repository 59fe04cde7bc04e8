/** A state of an instrument's switches by its nets, as positions are solved: what is soldered, and the contacts that are closed. */
import type { Instrument, NetPart, Selection, Slot, SolderedNets } from '../model/instrument.ts';
import { JoinedNodes } from '../model/joined-nodes.ts';
import type { Place } from '../model/place.ts';
import { type NetsSelection, partsOf, slotsOf } from '../model/selection.ts';
import { isPlaced } from '../model/soldered.ts';
import { GROUND_TERMINAL, HOT_TERMINAL, JACK_TERMINAL } from '../model/wiring.ts';
import type { StateMeaning } from '../physics/switching/meaning.ts';
import type { Nets, Rig } from '../physics/switching/rig.ts';
import { pickupSections } from './pickup-sections.ts';
import { coilsOf, insideOf, partElement } from './wired-rig.ts';

/** `words`: what sounds, where the selector has words for it. */
export function solderedIn(
  instrument: Instrument,
  rig: Rig,
  { meaning, closed }: { readonly meaning: StateMeaning; readonly closed: Nets },
  { words, place }: { readonly words: Selection | undefined; readonly place: Place },
): NetsSelection {
  // Controls are parts of the circuit here: what they join when they are full up stays apart.
  const netOf = netsOf([...rig.links, ...insideOf(instrument), ...closed]);
  const isHeard = new Set(meaning.sounding);
  const partOf = partNamer(words, place);
  const slots = inWordsOrder(instrument, words);
  const parts = slots.flatMap((slot) =>
    coilsOf(slot).flatMap(({ name, ends: [high, low] }, index): readonly NetPart[] => {
      const coil = slot.pickup && pickupSections(slot.pickup).sections[index]?.coil;
      return coil === undefined || !isHeard.has(name)
        ? []
        : [{ part: partOf(slot, coil), coil, ends: [netOf(high), netOf(low)] }];
    }),
  );
  const components = (instrument.wiring?.parts ?? []).map(({ kind, value, ends: [from, onto] }, index) => ({
    kind,
    value,
    ends: fromHot(netOf(from.name), netOf(onto.name)),
    isHeard: isHeard.has(partElement(index)),
  }));
  const { fault } = meaning;
  return {
    kind: 'nets',
    place,
    words,
    parts,
    components,
    slots: slots.filter(liesIn(instrument, rig, meaning)),
    fault,
    netOf,
  };
}

/** A part has no direction: it is told from hot, and to ground. */
const fromHot = (from: string, onto: string): readonly [string, string] =>
  from === GROUND_TERMINAL || onto === HOT_TERMINAL ? [onto, from] : [from, onto];

/** What a coil is taken as: what the words take it as, else by itself. */
function partNamer(words: Selection | undefined, place: Place): (slot: Slot, coil: string) => NetPart['part'] {
  const worded = words ? partsOf(words) : [];
  const alone = new Map<string, NetPart['part']>();
  return (slot, coil) => {
    const own = worded.filter((part) => part.slot === slot);
    const key = `${slot.name}.${coil}`;
    const path = { parts: [slot.name, coil], text: key, place };
    const part = own.find((each) => each.kind !== 'coil' || each.coil === coil || each.throughOhm) ??
      alone.get(key) ?? { kind: 'coil', slot, coil, throughOhm: undefined, path, place };
    alone.set(key, part);
    return part;
  };
}

/** Those first that the words name, in their order. */
const inWordsOrder = ({ slots }: Instrument, words: Selection | undefined): readonly Slot[] => [
  ...new Set([...(words ? slotsOf(words) : []), ...slots]),
];

/** Where a control is wired by itself, any pickup may be heard once it is turned. */
function liesIn({ controls, wiring }: Instrument, { elements }: Rig, meaning: StateMeaning): (slot: Slot) => boolean {
  const isTurned = controls.some((control) => isPlaced(control, wiring));
  const isIn = (name: string) => {
    const on = meaning.dead.get(name)?.on;
    return on === 'hot' || on === 'link' || meaning.sounding.includes(name);
  };
  return (slot) => isTurned || elements.some(({ name }) => name.startsWith(`${slot.name}.`) && isIn(name));
}

function netsOf(nets: Nets): SolderedNets['netOf'] {
  const joined = new JoinedNodes();
  for (const net of nets) for (const each of net) joined.unite(net[0] ?? each, each);
  // By a name that a person knows it by, where it has one.
  const named = new Map(
    joined.number().members.flatMap((net) => {
      const [first] = net.filter((terminal) => /^[^./]+\.[^./]+$/.test(terminal));
      return first === undefined ? [] : [[joined.root(first), first] as const];
    }),
  );
  for (const name of [JACK_TERMINAL, HOT_TERMINAL, GROUND_TERMINAL]) named.set(joined.root(name), name);
  return (terminal) => {
    const root = joined.root(terminal);
    return named.get(root) ?? root;
  };
}
