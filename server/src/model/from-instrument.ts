/** An instrument, its controls and its selector from its block: what the trade makes of the facts that are not as they read. */
import type { language } from '../../../grammar/src/schema/index.ts';
import type { SelectionNode } from '../../../grammar/src/schema/shape.ts';
import type { Chunk } from '../../../grammar/src/syntax-tree.ts';
import { canonicalLeadName } from '../../../grammar/values/lead-name.ts';
import { quantityOf } from '../../../grammar/values/quantity.ts';
import { acceptancesIn } from './acceptance.ts';
import { readingsFrom } from './from-readings.ts';
import { wiringFrom } from './from-wiring.ts';
import type { Control, Instrument, Position, Selection, Slot, SwitchedAt } from './instrument.ts';
import { factsOf, innerBlocks, type MergedBlock, type Nothing } from './merged-block.ts';
import type { Place } from './place.ts';
import { pathOf } from './reading.ts';
import type { Readings } from './readings.ts';
import type { Resolver } from './resolver.ts';
import { unknownAmong } from './unknown-name.ts';
import type { SwitchSlot } from './wiring.ts';

export function instrumentFrom(block: MergedBlock<typeof language.instrument>, resolver: Resolver): Instrument {
  const { strings, pickup, switches, accept, ...plain } = factsOf(block);
  const { controls, wiring, selector, readings, ...unread } = innerBlocks(block);
  unread satisfies Nothing;
  const spread = (end: 'bridge' | 'nut') =>
    strings?.value.spread?.find(({ value }) => value.place === end)?.value.distance;
  const slots = pickup.map(
    ({ value, place }): Slot => ({
      name: value.slot.value,
      pickup: resolver.thing('pickup', value.pickup),
      pickupName: value.pickup,
      distance: value.at,
      place,
    }),
  );
  const switchSlots = switches.map(
    ({ value, place }): SwitchSlot => ({
      name: value.slot.value,
      part: resolver.thing('switch', value.part),
      partName: value.part,
      on: value.on,
      place,
    }),
  );
  const fitted = { slots, switches: switchSlots, controls: controls.flatMap(controlsFrom) };
  const soldered = wiring.at(-1);
  const switched = selector.at(-1);
  return {
    ...plain,
    name: block.name ?? '',
    place: block.place,
    title: block.title,
    strings: strings && {
      value: { count: strings.value.count, atBridge: spread('bridge'), atNut: spread('nut') },
      place: strings.place,
    },
    ...fitted,
    wiring: soldered && wiringFrom(soldered, fitted, resolver),
    readings: readings.map((inner) => ofInstrument(readingsFrom(inner, resolver), resolver)),
    selectorPlace: switched?.place,
    positionsUnread: (switched?.unread.length ?? 0) > 0,
    positions: switched ? positionsFrom(switched, fitted, resolver) : [],
    accepted: acceptancesIn(block),
  };
}

function controlsFrom(block: MergedBlock<typeof language.controls>): readonly Control[] {
  const { volume, tone, blend, bleed, accept, ...unread } = factsOf(block);
  unread satisfies Nothing;
  const controls = [
    ...volume.flatMap(({ value: stated, place }): readonly Control[] => {
      if (stated === 'none') return [];
      const { name, value, taper = 'audio', turnedRound, for: forSlot, in: keys } = stated;
      const common = { name: name?.value, forSlot, inPositions: keys, place };
      return [{ ...common, kind: 'volume', track: value, taper, wiperToPickup: turnedRound !== undefined }];
    }),
    ...tone.flatMap(({ value: stated, place }): readonly Control[] => {
      if (stated === 'none') return [];
      const { name, value, taper = 'audio', capacitor, for: forSlot, in: keys } = stated;
      const wired = { name: name?.value, noLoad: stated.noLoad !== undefined, atWiper: stated.atWiper !== undefined };
      return [{ kind: 'tone', track: value, capacitor, taper, ...wired, forSlot, inPositions: keys, place }];
    }),
    ...blend.flatMap(({ value: stated, place }): readonly Control[] => {
      if (stated === 'none') return [];
      const { first, second, value, taper = 'linear', in: keys } = stated;
      const twoGang = stated.twoGang !== undefined;
      const half = { kind: 'blend', track: value, taper, twoGang, inPositions: keys, place } as const;
      return [
        { ...half, end: 'first', forSlot: first, other: second },
        { ...half, end: 'second', forSlot: second, other: first },
      ];
    }),
    ...bleed.flatMap(({ value: stated, place }): readonly Control[] => {
      if (stated === 'none') return [];
      const { capacitor, resistor, for: forSlot } = stated;
      const joined = resistor?.joined ?? 'parallel';
      return [{ kind: 'bleed', capacitor, resistor: resistor?.value, joined, forSlot, inPositions: undefined, place }];
    }),
  ];
  return controls.sort((a, b) => a.place.span.start - b.place.span.start);
}

function positionsFrom(
  block: MergedBlock<typeof language.selector>,
  { slots, switches }: Pick<Instrument, 'slots' | 'switches'>,
  resolver: Resolver,
): readonly Position[] {
  const { position, accept, ...unread } = factsOf(block);
  unread satisfies Nothing;
  return position.map(
    ({ value, place }): Position => ({
      key: value.key,
      title: value.title,
      selection: selectionFrom(value.selection, place.chunk, slots, resolver),
      at: (value.at ?? []).map((each) => detentAt(each.value, switches, resolver)),
      onPurpose: onPurposeAt(block.facts.position.find((line) => line.place === place)),
      place,
    }),
  );
}

/** Told where the switch has no such detent. */
function detentAt(at: SwitchedAt, switches: readonly SwitchSlot[], resolver: Resolver): SwitchedAt {
  const { slot, detent } = at;
  const names = switches.find(({ name }) => name === slot.value)?.part?.detents.map(({ name }) => name);
  if (names && !names.includes(detent.value)) {
    const message = `The switch ${slot.value} has no detent ${detent.value}: it has ${names.join(', ')}.`;
    resolver.report(unknownAmong(names, detent.value, detent.place, message));
  }
  return at;
}

type PositionLine = MergedBlock<typeof language.selector>['facts']['position'][number];

const onPurposeAt = (line: PositionLine | undefined): Place | undefined =>
  line?.value.onPurpose && { chunk: line.place.chunk, span: line.value.onPurpose.on.span };

function selectionFrom(
  node: SelectionNode,
  chunk: Chunk,
  slots: readonly Slot[],
  resolver: Resolver,
): Selection | undefined {
  const place = { chunk, span: node.span };
  if (node.kind === 'reversed') {
    const of = selectionFrom(node.of, chunk, slots, resolver);
    return of && { kind: 'reversed', of, place };
  }
  if (node.kind !== 'part') {
    const of = node.of.flatMap((each) => selectionFrom(each, chunk, slots, resolver) ?? []);
    return of.length === node.of.length ? { kind: node.kind, of, place } : undefined;
  }
  const path = pathOf({ value: node.path, span: node.span }, chunk);
  const [first, second] = node.path.parts;
  const slot = slots.find(({ name }) => name === first?.value);
  if (!slot) return undefined;
  if (!second) return { kind: 'pickup', slot, path, place };
  const { pickup } = slot;
  if (!pickup) return undefined;
  if (pickup.coils.some(({ name }) => name === second.value)) {
    const through = node.through && quantityOf(node.through.value);
    const throughOhm =
      node.through && through?.ok ? { value: through.quantity, place: { chunk, span: node.through.span } } : undefined;
    return { kind: 'coil', slot, coil: second.value, throughOhm, path, place };
  }
  const lead = canonicalLeadName(second.value);
  const leads = leadsOf(pickup);
  if (leads.includes(lead)) return { kind: 'tap', slot, lead, path, place };
  const names = [...pickup.coils.map(({ name }) => name), ...leads];
  const message = `The pickup fitted as ${slot.name} has no coil or lead called ${second.value}: it has ${names.join(', ')}.`;
  resolver.report(unknownAmong(names, second.value, { chunk, span: second.span }, message));
  return undefined;
}

/** Leads that a position may take a pickup at: what leaves it. */
function leadsOf(pickup: NonNullable<Slot['pickup']>): readonly string[] {
  const own = pickup.coils.flatMap(({ start, finish, taps }) => [
    ...[start, finish].flatMap((lead) => (lead?.value.own && !lead.value.to ? [lead.value.own.value] : [])),
    ...taps.map(({ value }) => value.lead.value),
  ]);
  return [...new Set([...pickup.conductors.map(({ value }) => value), ...own].map(canonicalLeadName))];
}

/** A sweep is of a pickup by itself: at a jack it would be of pots and cable as well. */
function ofInstrument(read: Readings, resolver: Resolver): Readings {
  for (const { file } of read.sweeps)
    resolver.report({
      code: 'sweep/file',
      message: `${file.value} stands in the readings of an instrument, where a sweep tells nothing.`,
      action: 'Move the line to the readings of its pickup.',
      place: file.place,
    });
  return { ...read, sweeps: [] };
}
