/** A pickup, its coils, hookup, potting and target from its block. */
import { language } from '../../../grammar/src/schema/index.ts';
import { canonicalLeadName } from '../../../grammar/values/lead-name.ts';
import type { Coil, CoilLead, CoilTap } from './coil.ts';
import { readingsFrom } from './from-readings.ts';
import { type AnyBlock, blocksOf, type MergedBlock, type PlacedFact } from './merged-block.ts';
import type { Reference } from './model.ts';
import type { Acceptance, Hookup, Joint, MetalFitting, Pickup, Target } from './pickup.ts';
import type { Place, Stated } from './place.ts';
import type { Potting } from './potting.ts';
import { only, pathOf, placeIn, siOf, statedAtWord, statedQuantity, statedWord } from './read-facts.ts';
import type { Resolver } from './resolver.ts';

type PickupBlock = MergedBlock<typeof language.pickup>;
type CoilBlock = MergedBlock<typeof language.coil>;

export function pickupFrom(block: PickupBlock, resolver: Resolver): Pickup {
  const { facts, place } = block;
  const coilBlocks = blocksOf(block, language.coil);
  const coils = coilBlocks.map((inner) => coilFrom(inner, resolver));
  const strings = only(facts.strings);
  const apart = only(facts.coils);
  const distance = apart && siOf(apart.value.distance);
  const conductors = only(facts.conductors);
  const shield = only(facts.shield);
  const hookup = blocksOf(block, language.hookup).at(-1);
  const potting = blocksOf(block, language.potting).at(-1);
  const target = blocksOf(block, language.target).at(-1);
  const cable = only(facts.cable);
  const cableLength = cable && siOf(cable.value.length);
  const metal = (['baseplate', 'cover'] as const).flatMap((part) => {
    const line = only(facts[part]);
    return line ? [{ part, line }] : [];
  });
  for (const inner of coilBlocks) noteCoil(inner, block, resolver);
  noteLeads(block, resolver);
  return {
    name: block.name ?? '',
    place,
    title: block.title,
    serial: statedWord(only(facts.serial)),
    customer: statedWord(only(facts.for)),
    position: statedWord(only(facts.position)),
    strings: strings && { value: strings.value.value.value, place: strings.place },
    coilsApart:
      apart && distance
        ? {
            value: { distance, coil: apart.value.order?.coil.value, toward: apart.value.order?.end.value },
            place: apart.place,
          }
        : undefined,
    made: statedWord(only(facts.made)),
    notes: facts.note.flatMap((line) => statedWord(line) ?? []),
    conductors: (conductors?.value ?? []).map((lead) => ({
      value: lead.value,
      place: placeIn(conductors?.place.chunk ?? place.chunk, lead),
    })),
    conductorsPlace: conductors?.place,
    shield: shield && statedAtWord(shield),
    coils,
    barMagnet: barMagnetFrom(only(facts.magnet), resolver),
    metal: metal.flatMap(({ part, line }) => metalFrom(part, line)),
    without: metal.flatMap(({ part, line }) => (line.value.option === 'none' ? [part] : [])),
    cable:
      cable && cableLength
        ? {
            value: {
              length: cableLength,
              capacitancePerLength: cable.value.capacitance && siOf(cable.value.capacitance.perLength),
            },
            place: cable.place,
          }
        : undefined,
    hookup: hookup && hookupFrom(hookup),
    readings: blocksOf(block, language.readings).map(readingsFrom),
    potting: potting && pottingFrom(potting),
    target: target && targetFrom(target),
    accepted: acceptancesIn(block),
    unread: block.unread,
  };
}

function coilFrom(block: CoilBlock, resolver: Resolver): Coil {
  const { facts, place } = block;
  const bobbin = only(facts.bobbin);
  const wire = only(facts.wire);
  const spoolLine = only(facts.spool);
  const spool = spoolLine && resolver.spool(spoolLine.value.value, placeIn(spoolLine.place.chunk, spoolLine.value));
  const ownWire = wire && resolver.wire(wire.value.value, placeIn(wire.place.chunk, wire.value));
  const spindle = only(facts.spindle);
  return {
    name: block.name ?? '',
    place,
    bobbin: bobbin && resolver.bobbin(bobbin.value.value, placeIn(bobbin.place.chunk, bobbin.value)),
    bobbinPlace: bobbin?.place,
    wire: ownWire ?? spool?.wire,
    wirePlace: wire?.place ?? spoolLine?.place,
    spool,
    turns: statedQuantity(only(facts.turns)),
    counted: statedQuantity(only(facts.counted)),
    wound: statedWord(only(facts.wound)),
    packing: statedNumber(only(facts.packing)),
    start: leadFrom(only(facts.start)),
    finish: leadFrom(only(facts.finish)),
    taps: facts.tap.flatMap((line) => tapFrom(line)),
    spindle: spindle && {
      value: { rotation: spindle.value.turns.value, towardIt: spindle.value.face.value },
      place: spindle.place,
    },
    serves: servesFrom(only(facts.serves)),
    below: statedWord(only(facts.below)),
    polarity: statedWord(only(facts.polarity)),
    tension: statedQuantity(only(facts.tension)),
    traverse: statedQuantity(only(facts.traverse)),
    speed: statedQuantity(only(facts.speed)),
    unread: block.unread,
  };
}

/** A bare number such as a packing: a quantity without a unit. */
function statedNumber(line: CoilBlock['facts']['packing'][number] | undefined): Coil['packing'] {
  if (!line) return undefined;
  const { value, text, uncertainty } = line.value.value;
  return {
    value: {
      dimension: 'percentage',
      si: value,
      written: text,
      ...(uncertainty && uncertainty.unit === undefined ? { sd: uncertainty.value } : {}),
    },
    place: line.place,
  };
}

type LeadLine = CoilBlock['facts']['start'][number];

function leadFrom(line: LeadLine | undefined): Stated<CoilLead> | undefined {
  if (!line) return undefined;
  const { chunk } = line.place;
  const { lead } = line.value.value;
  const own = lead && { value: lead.value, place: placeIn(chunk, lead) };
  const onto = line.value.option === 'soldered' ? pathOf(line.value.value.onto, chunk) : undefined;
  return { value: { own, to: onto && { value: onto, place: line.place } }, place: line.place };
}

function tapFrom(line: CoilBlock['facts']['tap'][number]): readonly Stated<CoilTap>[] {
  if (line.value.option === 'none') return [];
  const { turns, lead } = line.value.value;
  const count = siOf(turns);
  if (!count) return [];
  return [
    { value: { turns: count, lead: { value: lead.value, place: placeIn(line.place.chunk, lead) } }, place: line.place },
  ];
}

function servesFrom(line: CoilBlock['facts']['serves'][number] | undefined): Coil['serves'] {
  if (!line) return undefined;
  if (line.value.option === 'none') return { value: 'none', place: line.place };
  const first = line.value.value.first.value.value;
  const last = line.value.value.last?.string.value.value ?? first;
  return { value: { from: Math.min(first, last), to: Math.max(first, last) }, place: line.place };
}

function barMagnetFrom(
  line: PickupBlock['facts']['magnet'][number] | undefined,
  resolver: Resolver,
): Pickup['barMagnet'] {
  if (!line) return undefined;
  const { chunk } = line.place;
  return {
    value: {
      magnet: resolver.magnet(line.value.magnet.value, placeIn(chunk, line.value.magnet)),
      pole: line.value.pole.value,
      towardCoil: { value: line.value.coil.value, place: placeIn(chunk, line.value.coil) },
    },
    place: line.place,
  };
}

function metalFrom(
  part: MetalFitting['part'],
  line: PickupBlock['facts']['baseplate'][number],
): readonly MetalFitting[] {
  if (line.value.option === 'none') return [];
  const { material, tied } = line.value.value;
  return [{ part, material: material.value, tiedTo: tied && pathOf(tied.to, line.place.chunk), place: line.place }];
}

function hookupFrom({ place, facts, unread }: MergedBlock<typeof language.hookup>): Hookup {
  const kinds = ['hot', 'link', 'ground', 'shield', 'free'] as const;
  const joints = kinds.flatMap((kind) =>
    facts[kind].map(
      (line): Joint => ({ kind, leads: line.value.map((path) => pathOf(path, line.place.chunk)), place: line.place }),
    ),
  );
  const inOrder = joints.sort((a, b) =>
    a.place.chunk === b.place.chunk ? a.place.span.start - b.place.span.start : 0,
  );
  return { place, joints: inOrder, onPurpose: only(facts.onPurpose)?.place, unread };
}

function pottingFrom({ place, facts }: MergedBlock<typeof language.potting>): Potting {
  const wax = only(facts.wax);
  return {
    place,
    wax: wax && {
      value: wax.value.map(({ ingredient, share }) => ({
        ingredient: ingredient.value,
        share: share.value.value / 100,
        place: placeIn(wax.place.chunk, { span: { start: ingredient.span.start, end: share.span.end } }),
      })),
      place: wax.place,
    },
    bath: statedQuantity(only(facts.bath)),
    soak: statedQuantity(only(facts.soak)),
    batch: statedQuantity(only(facts.batch)),
  };
}

function targetFrom({ place, facts }: MergedBlock<typeof language.target>): Target {
  const resonance = only(facts.resonance);
  const frequency = resonance && siOf(resonance.value.frequency);
  return {
    place,
    resistance: statedQuantity(only(facts.resistance)),
    inductance: statedQuantity(only(facts.inductance)),
    resonance:
      resonance && frequency
        ? { value: { frequency, load: resonance.value.load?.value ?? 'loaded' }, place: resonance.place }
        : undefined,
  };
}

/** What a block accepts, and what the blocks in it accept. */
export function acceptancesIn(block: AnyBlock): readonly Acceptance[] {
  const lines = (block.facts.accept ?? []) as readonly PlacedFact<AcceptFact>[];
  const own = lines.map(
    ({ value, place }): Acceptance => ({
      code: { value: value.code.value, place: placeIn(place.chunk, value.code) },
      reason: value.reason?.value,
      place,
      scope: block.extent,
    }),
  );
  return [...own, ...block.blocks.flatMap(acceptancesIn)];
}

type AcceptFact = PickupBlock['facts']['accept'][number]['value'];

function noteCoil(coil: CoilBlock, pickup: PickupBlock, { note }: Resolver): void {
  note({ place: coil.namePlace, kind: 'coil', name: coil.name ?? '', target: coil.namePlace, declares: true });
  const coilPlace = (name: string): Place | undefined =>
    blocksOf(pickup, language.coil).find((each) => each.name === name)?.namePlace;
  const like = coil.node.like?.name;
  if (like)
    note({
      place: { chunk: coil.place.chunk, span: like.span },
      kind: 'coil',
      name: like.text,
      target: coilPlace(like.text),
      declares: false,
    });
  for (const line of coil.facts.below)
    note({
      place: placeIn(line.place.chunk, line.value),
      kind: 'coil',
      name: line.value.value,
      target: coilPlace(line.value.value),
      declares: false,
    });
}

/** Leads and coils as they are declared and named in the pickup's lines. */
function noteLeads(pickup: PickupBlock, { note }: Resolver): void {
  const declared = new Map<string, Place>();
  const coils = new Map(blocksOf(pickup, language.coil).map((coil) => [coil.name ?? '', coil.namePlace]));
  const declare = (name: string, place: Place) => {
    const key = canonicalLeadName(name);
    if (!declared.has(key)) declared.set(key, place);
    note({ place, kind: 'lead', name: key, target: declared.get(key), declares: true });
  };
  for (const line of pickup.facts.conductors)
    for (const lead of line.value) declare(lead.value, placeIn(line.place.chunk, lead));
  for (const line of pickup.facts.shield) declare(line.value.value, placeIn(line.place.chunk, line.value));
  for (const coil of blocksOf(pickup, language.coil)) {
    for (const line of [...coil.facts.start, ...coil.facts.finish])
      if (line.value.option === 'own')
        declare(line.value.value.lead.value, placeIn(line.place.chunk, line.value.value.lead));
    for (const line of coil.facts.tap)
      if (line.value.option === 'tap')
        declare(line.value.value.lead.value, placeIn(line.place.chunk, line.value.value.lead));
  }
  const use = (
    path: { readonly parts: readonly { readonly value: string; readonly span: Place['span'] }[] },
    place: Place,
  ) => {
    const [first, second] = path.parts;
    if (!first) return;
    const reference: Reference = second
      ? {
          place: placeIn(place.chunk, first),
          kind: 'coil',
          name: first.value,
          target: coils.get(first.value),
          declares: false,
        }
      : coils.has(first.value)
        ? {
            place: placeIn(place.chunk, first),
            kind: 'coil',
            name: first.value,
            target: coils.get(first.value),
            declares: false,
          }
        : {
            place: placeIn(place.chunk, first),
            kind: 'lead',
            name: canonicalLeadName(first.value),
            target: declared.get(canonicalLeadName(first.value)),
            declares: false,
          };
    if (reference.target || reference.kind === 'coil') note(reference);
  };
  for (const coil of blocksOf(pickup, language.coil))
    for (const line of [...coil.facts.start, ...coil.facts.finish])
      if (line.value.option === 'soldered') use(line.value.value.onto.value, line.place);
  for (const line of [...pickup.facts.baseplate, ...pickup.facts.cover])
    if (line.value.option === 'metal' && line.value.value.tied) use(line.value.value.tied.to.value, line.place);
  for (const line of pickup.facts.magnet) use({ parts: [line.value.coil] }, line.place);
  for (const hookup of blocksOf(pickup, language.hookup))
    for (const kind of ['hot', 'link', 'ground', 'shield', 'free'] as const)
      for (const line of hookup.facts[kind]) for (const path of line.value) use(path.value, line.place);
  for (const readings of blocksOf(pickup, language.readings)) {
    for (const line of readings.facts.resistance) {
      use(line.value.from.value, line.place);
      if (line.value.to) use(line.value.to.lead.value, line.place);
    }
    for (const line of readings.facts.kick) {
      use(line.value.between.from.value, line.place);
      use(line.value.between.onto.value, line.place);
      if (line.value.at) use({ parts: [line.value.at.coil] }, line.place);
    }
    for (const line of readings.facts.compass) use({ parts: [line.value.coil] }, line.place);
  }
}
