import type { NameKind } from '../../../grammar/src/schema/shape.ts';
import type { BlockNode, PlacedChunk } from '../../../grammar/src/syntax-tree.ts';
import { COLOUR_CODES, COLOURS } from '../../../grammar/values/iec60757.ts';
import { canonicalLeadName } from '../../../grammar/values/lead-name.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import { terminalsOf } from '../model/from-wiring.ts';
import { METAL_PARTS } from '../model/lead.ts';
import type { PickupNetlist } from '../model/netlist.ts';
import type { Pickup } from '../model/pickup.ts';
import { COMMON_TERMINALS } from '../model/wiring.ts';

export interface NameInScope {
  readonly name: string;
  /** What it is, in a word or two. */
  readonly what: string;
}

/** Where a name is being typed. */
export interface NamePlace {
  readonly analysis: Analysis;
  readonly placed: PlacedChunk;
  readonly blocks: readonly BlockNode[];
  /** What stands before the point of a path. */
  readonly qualifier: string | undefined;
  /** A path may name an end of a coil; a plain name may not. */
  readonly path: boolean;
}

/** The names of a kind that may stand at a place. */
export function namesInScope(kind: NameKind, place: NamePlace): readonly NameInScope[] {
  const { analysis, qualifier } = place;
  switch (kind) {
    case 'wire':
    case 'spool':
    case 'bobbin':
    case 'magnet':
    case 'switch':
    case 'pickup':
    case 'instrument':
      return qualifier === undefined ? analysis.namesInScope(kind).map(({ name }) => ({ name, what: kind })) : [];
    case 'coil':
      return coilsOf(pickupAround(place)?.pickup).map((name) => ({ name, what: 'coil' }));
    case 'metal part':
      return METAL_PARTS.map((name) => ({ name, what: 'metal part' }));
    case 'lead':
      return leadsInScope(place);
    case 'slot':
      return slotsInScope(place);
    case 'lug':
      return lugsInScope(place);
    case 'detent':
      return detentsInScope(place);
    case 'terminal':
      return terminalsInScope(place);
  }
}

interface AroundPickup {
  readonly pickup: Pickup;
  readonly netlist: PickupNetlist;
}

function pickupAround({ analysis, placed }: NamePlace): AroundPickup | undefined {
  return analysis.pickups.find(({ pickup }) => pickup.place.chunk === placed.chunk);
}

const coilsOf = (pickup: Pickup | undefined): readonly string[] => (pickup?.coils ?? []).map(({ name }) => name);

function leadsInScope(place: NamePlace): readonly NameInScope[] {
  const around = pickupAround(place);
  const coil = around?.pickup.coils.find(({ name }) => name === place.qualifier);
  if (place.qualifier !== undefined) return coil ? endsOf(coil.taps.map(({ value }) => value.lead.value)) : [];
  if (around === undefined) return COLOUR_NAMES;
  const outgoing = freeFirst(around);
  // Inside a coil a lead may have any colour; it may also go on to one that leaves the pickup.
  if (!place.path) return unique([...outgoing, ...COLOUR_NAMES]);
  const metal = around.pickup.metal.map(({ part }) => ({ name: part, what: 'metal part' }));
  const ends = around.pickup.coils.flatMap(({ name }) =>
    ['start', 'finish'].map((end) => ({ name: `${name}.${end}`, what: 'end of a coil' })),
  );
  const isReading = place.blocks.at(-1)?.keyword.text === 'readings';
  const read = isReading ? [...READ_POINTS, ...coilsOf(around.pickup).map((name) => ({ name, what: 'coil' }))] : [];
  return unique([...outgoing, ...read, ...ends, ...metal]);
}

/** For a lead that is declared: the colours of the standard that no lead of the pickup has yet. */
export function newLeadNames(place: NamePlace): readonly NameInScope[] {
  const leads = pickupAround(place)?.netlist.leads;
  return COLOUR_NAMES.filter(({ name }) => leads?.has(name) !== true);
}

const COLOUR_NAMES: readonly NameInScope[] = COLOUR_CODES.map((code) => ({
  name: COLOURS[code],
  what: `colour ${code}`,
}));

/** Leads that no joint takes yet, then the others, each as they are brought out. */
function freeFirst({ pickup, netlist }: AroundPickup): readonly NameInScope[] {
  const joined = new Set(
    pickup.hookup?.joints.flatMap((joint) => joint.leads.map(({ text }) => canonicalLeadName(text))),
  );
  const leads = [...netlist.leads.values()].map(({ name, what }) => ({ name, what }));
  return [...leads.filter(({ name }) => !joined.has(name)), ...leads.filter(({ name }) => joined.has(name))];
}

const READ_POINTS: readonly NameInScope[] = [
  { name: 'hot', what: 'the hot lead' },
  { name: 'ground', what: 'ground' },
];

const endsOf = (taps: readonly string[]): readonly NameInScope[] => [
  { name: 'start', what: 'inner end' },
  { name: 'finish', what: 'outer end' },
  ...taps.map((name) => ({ name, what: 'tap' })),
];

const instrumentAround = ({ analysis, placed }: NamePlace) =>
  analysis.model.instruments.find(({ place }) => place.chunk === placed.chunk);

function slotsInScope(place: NamePlace): readonly NameInScope[] {
  const { qualifier } = place;
  const slots = instrumentAround(place)?.slots ?? [];
  if (qualifier === undefined)
    return slots.map(({ name, pickupName }) => ({ name, what: `pickup ${pickupName.value}` }));
  const pickup = slots.find(({ name }) => name === qualifier)?.pickup;
  return [
    ...coilsOf(pickup).map((name) => ({ name, what: 'that coil alone' })),
    ...(pickup?.coils ?? []).flatMap(({ taps }) =>
      taps.map(({ value }) => ({ name: value.lead.value, what: 'taken at this tap' })),
    ),
  ];
}

function unique(names: readonly NameInScope[]): readonly NameInScope[] {
  return [...new Map(names.map((each) => [each.name, each])).values()];
}

/** Lugs that the other lines of the switch name. */
function lugsInScope({ analysis, placed }: NamePlace): readonly NameInScope[] {
  const part = analysis.model.switches.find(({ place }) => place.chunk === placed.chunk);
  return (part?.lugs ?? []).map((name) => ({ name, what: 'lug' }));
}

/** Detents of the instrument's switches that are called by a name. */
function detentsInScope(place: NamePlace): readonly NameInScope[] {
  const switches = instrumentAround(place)?.switches ?? [];
  const named = switches.flatMap(({ name: slot, part }) =>
    (part?.detents ?? []).map(({ name }) => ({ name, what: `detent of ${slot}` })),
  );
  return unique(named.filter(({ name }) => !/^\d/.test(name)));
}

/** Leads, lugs, the lugs of named controls; those that no line of the wiring takes yet come first. */
function terminalsInScope(place: NamePlace): readonly NameInScope[] {
  const instrument = instrumentAround(place);
  if (!instrument) return [];
  const { slots, switches, controls, wiring } = instrument;
  const owners = [...slots, ...switches, ...controls].flatMap(({ name }) => name ?? []);
  const all = owners.flatMap((owner) => {
    const known = terminalsOf(owner, instrument);
    return (known?.names ?? []).map((name) => ({ owner, name, what: `${known?.which} of ${owner}` }));
  });
  if (place.qualifier !== undefined) return all.filter(({ owner }) => owner === place.qualifier);
  const taken = new Set(wiring?.lines.flatMap(({ terminals }) => terminals.map(({ name }) => name)));
  const full = all.map(({ owner, name, what }) => ({ name: `${owner}.${name}`, what }));
  const common = COMMON_TERMINALS.map((name) => ({ name, what: 'terminal' }));
  return [...full.filter(({ name }) => !taken.has(name)), ...full.filter(({ name }) => taken.has(name)), ...common];
}
