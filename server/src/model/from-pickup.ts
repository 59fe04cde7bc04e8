/** A pickup, its coils, hookup, potting and target from its block: what the trade makes of the facts that are not as they read. */
import type { language } from '../../../grammar/src/schema/index.ts';
import { acceptancesIn } from './acceptance.ts';
import type { Coil, CoilLead, MagnetWork } from './coil.ts';
import { readingsFrom } from './from-readings.ts';
import { METAL_PARTS } from './lead.ts';
import { factsOf, innerBlocks, type MergedBlock, type Nothing } from './merged-block.ts';
import type { Hookup, Joint, MetalFitting, Pickup, Target } from './pickup.ts';
import type { Place, Stated } from './place.ts';
import type { Potting } from './potting.ts';
import type { FactsRead } from './reading.ts';
import type { Resolver } from './resolver.ts';
import { withStringsServed } from './strings-served.ts';

type PickupFacts = FactsRead<typeof language.pickup.facts>;
type CoilFacts = FactsRead<typeof language.coil.facts>;

export function pickupFrom(block: MergedBlock<typeof language.pickup>, resolver: Resolver): Pickup {
  const { coilsApart, conductors, shield, magnet, baseplate, cover, takenAway, accept, ...plain } = factsOf(block);
  const { coil, hookup, readings, potting, target, ...unread } = innerBlocks(block);
  unread satisfies Nothing;
  const metal = { baseplate, cover };
  return {
    ...plain,
    name: block.name ?? '',
    place: block.place,
    reworks: resolver.former,
    title: block.title,
    coilsApart: coilsApart && {
      value: {
        distance: coilsApart.value.distance,
        coil: coilsApart.value.order?.coil.value,
        toward: coilsApart.value.order?.end,
      },
      place: coilsApart.place,
    },
    conductors: conductors?.value ?? [],
    conductorsPlace: conductors?.place,
    shield: shield?.value,
    coils: withStringsServed(
      coil.map((inner) => coilFrom(inner, block, resolver)),
      plain.strings?.value,
    ),
    barMagnet: magnet && {
      value: {
        magnet: resolver.thing('magnet', magnet.value.magnet),
        pole: magnet.value.pole,
        towardCoil: magnet.value.coil,
        work: magnetWork(magnet.value.became, magnet.place, block, resolver),
      },
      place: magnet.place,
    },
    metal: METAL_PARTS.flatMap((part) => metalFrom(part, metal[part])),
    without: METAL_PARTS.filter((part) => metal[part]?.value === 'none'),
    hookup: last(hookup, hookupFrom),
    readings: readings.map((inner) => readingsFrom(inner, resolver)),
    potting: last(potting, pottingFrom),
    target: last(target, (inner) => targetFrom(inner, resolver)),
    accepted: acceptancesIn(block),
    unread: block.unread,
    written: block,
  };
}

function last<B, T>(blocks: readonly B[], from: (block: B) => T): T | undefined {
  const block = blocks.at(-1);
  return block && from(block);
}

function metalFrom(part: MetalFitting['part'], line: PickupFacts['baseplate']): readonly MetalFitting[] {
  if (!line || line.value === 'none') return [];
  const { material, thickness, tied } = line.value;
  return [{ part, material, thickness, tiedTo: tied, place: line.place }];
}

type PickupBlock = MergedBlock<typeof language.pickup>;

/** Said of a magnet in its line; a line that the pickup which is reworked brings says that nothing was done to it. */
function magnetWork(
  stated: MagnetWork | undefined,
  line: Place,
  pickup: PickupBlock,
  { former }: Resolver,
): MagnetWork | undefined {
  if (line.chunk === pickup.place.chunk) return stated;
  return former ? 'kept' : undefined;
}

function coilWork(
  coil: MergedBlock<typeof language.coil>,
  { kept, isNew }: Pick<CoilFacts, 'kept' | 'isNew'>,
  pickup: PickupBlock,
  { former }: Resolver,
): Coil['work'] {
  const said = isNew ? 'new' : 'kept';
  const line = isNew ?? kept;
  if (line) return { value: said, place: line.place };
  if (!former) return undefined;
  const isTakenOver = former.coils.some(({ name }) => name === coil.name);
  if (!isTakenOver) return { value: 'new', place: coil.place };
  // Turns or wire that are stated anew leave it open whether it is still the same coil.
  const { wire, spool, turns, counted } = coil.facts;
  const isAnew = [...wire, ...spool, ...turns, ...counted].some(({ place }) => place.chunk === pickup.place.chunk);
  return isAnew ? undefined : { value: 'kept', place: pickup.place };
}

function coilFrom(block: MergedBlock<typeof language.coil>, pickup: PickupBlock, resolver: Resolver): Coil {
  const { kept, isNew, bobbin, wire, spool, polarity, start, finish, tap, serves, below, accept, ...plain } =
    factsOf(block);
  const reel = resolver.thing('spool', spool?.value);
  const isHere = (line: { readonly place: Place } | undefined) => line?.place.chunk === pickup.place.chunk;
  return {
    ...plain,
    // A count that the state before brings is of its turns; where others are stated since, they hold.
    counted: isHere(plain.turns) && !isHere(plain.counted) ? undefined : plain.counted,
    name: block.name ?? '',
    place: block.place,
    bobbin: resolver.thing('bobbin', bobbin?.value),
    bobbinPlace: bobbin?.place,
    wire: resolver.thing('wire', wire?.value) ?? reel?.wire,
    wirePlace: wire?.place ?? spool?.place,
    spool: reel,
    work: coilWork(block, { kept, isNew }, pickup, resolver),
    polarity: polarity && { value: polarity.value.pole, place: polarity.place },
    rods: polarity && magnetWork(polarity.value.became, polarity.place, pickup, resolver),
    start: leadFrom(start),
    finish: leadFrom(finish),
    taps: tap.flatMap(({ value, place }) => (value === 'none' ? [] : [{ value, place }])),
    serves: servesFrom(serves),
    below: below && { value: below.value.value, place: below.place },
    unread: block.unread,
  };
}

function leadFrom(line: CoilFacts['start']): Stated<CoilLead> | undefined {
  if (!line) return undefined;
  const { value, place } = line;
  const { lead, onto } = 'onto' in value ? value : { lead: value, onto: undefined };
  return { value: { own: lead, to: onto && { value: onto, place } }, place };
}

function servesFrom(line: CoilFacts['serves']): Coil['serves'] {
  if (!line || line.value === 'none') return line && { value: 'none', place: line.place };
  const { first, last = first } = line.value;
  return { value: { from: Math.min(first, last), to: Math.max(first, last) }, place: line.place };
}

function hookupFrom(block: MergedBlock<typeof language.hookup>): Hookup {
  const { onPurpose, accept, ...joining } = factsOf(block);
  const joints = (Object.keys(joining) as Joint['kind'][]).flatMap((kind) =>
    joining[kind].map(({ value, place }): Joint => ({ kind, leads: value, place })),
  );
  const inOrder = joints.sort((a, b) =>
    a.place.chunk === b.place.chunk ? a.place.span.start - b.place.span.start : 0,
  );
  return { place: block.place, joints: inOrder, onPurpose: onPurpose?.place, unread: block.unread };
}

function pottingFrom(block: MergedBlock<typeof language.potting>): Potting {
  const { wax, accept, ...plain } = factsOf(block);
  return {
    ...plain,
    place: block.place,
    wax: wax && {
      value: wax.value.map(({ value, place }) => ({ ingredient: value.ingredient, share: value.share.si, place })),
      place: wax.place,
    },
  };
}

function targetFrom(block: MergedBlock<typeof language.target>, resolver: Resolver): Target {
  const { resonance, output, accept, ...plain } = factsOf(block);
  return {
    ...plain,
    place: block.place,
    resonance: resonance && {
      value: { frequency: resonance.value.frequency, load: resonance.value.load ?? 'loaded' },
      place: resonance.place,
    },
    output: output && {
      value: { level: output.value.level, against: resolver.thing('pickup', output.value.pickup) },
      place: output.place,
    },
  };
}
