/** An instrument, its controls and its selector from its block. */

import { nearest } from '../../../grammar/src/nearest.ts';
import { language } from '../../../grammar/src/schema/index.ts';
import type { SelectionNode } from '../../../grammar/src/schema/shape.ts';
import type { Chunk } from '../../../grammar/src/syntax-tree.ts';
import { canonicalLeadName } from '../../../grammar/values/lead-name.ts';
import { acceptancesIn } from './from-pickup.ts';
import { readingsFrom } from './from-readings.ts';
import type { Control, Instrument, Position, Selection, Slot } from './instrument.ts';
import { blocksOf, type MergedBlock } from './merged-block.ts';
import type { Stated } from './place.ts';
import { only, pathOf, placeIn, siOf, statedQuantity } from './read-facts.ts';
import type { Resolver } from './resolver.ts';

type InstrumentBlock = MergedBlock<typeof language.instrument>;
type ControlsBlock = MergedBlock<typeof language.controls>;

export function instrumentFrom(block: InstrumentBlock, resolver: Resolver): Instrument {
  const { facts } = block;
  const strings = only(facts.strings);
  const spread = (place: 'bridge' | 'nut') => {
    const found = strings?.value.spread?.places.find((each) => each.place.value === place);
    return found && siOf(found.distance);
  };
  const cable = only(facts.cable);
  const length = cable && siOf(cable.value.length);
  const capacitancePerLength = cable && siOf(cable.value.perLength);
  const slots = facts.pickup.map((line): Slot => {
    const { slot, pickup, at } = line.value;
    const { chunk } = line.place;
    const slotPlace = placeIn(chunk, slot);
    resolver.note({ place: slotPlace, kind: 'slot', name: slot.value, target: slotPlace, declares: true });
    return {
      name: slot.value,
      pickup: resolver.pickup(pickup.value, placeIn(chunk, pickup)),
      pickupName: { value: pickup.value, place: placeIn(chunk, pickup) },
      distance: at && siOf(at.distance),
      place: line.place,
    };
  });
  const selector = blocksOf(block, language.selector).at(-1);
  return {
    name: block.name ?? '',
    place: block.place,
    title: block.title,
    scale: statedQuantity(only(facts.scale)),
    strings: strings && {
      value: { count: strings.value.count.value.value, atBridge: spread('bridge'), atNut: spread('nut') },
      place: strings.place,
    },
    slots,
    controls: blocksOf(block, language.controls).flatMap((controls) => controlsFrom(controls, slots, resolver)),
    cable:
      cable && length && capacitancePerLength
        ? { value: { length, capacitancePerLength }, place: cable.place }
        : undefined,
    input: statedQuantity(only(facts.input)),
    readings: blocksOf(block, language.readings).map(readingsFrom),
    selectorPlace: selector?.place,
    positionsUnread: (selector?.unread.length ?? 0) > 0,
    positions: selector ? selector.facts.position.map((line) => positionFrom(line, slots, resolver)) : [],
    accepted: acceptancesIn(block),
  };
}

function controlsFrom({ facts }: ControlsBlock, slots: readonly Slot[], resolver: Resolver): readonly Control[] {
  const slotOf = (line: {
    readonly place: Slot['place'];
    readonly value: { readonly for: ControlsBlock['facts']['volume'][number]['value']['for'] };
  }) => {
    const named = line.value.for?.slot;
    return named && slotNamed(named, line.place.chunk, slots, resolver);
  };
  const controls = [
    ...facts.volume.flatMap((line): readonly Control[] => {
      const track = siOf(line.value.value);
      return track
        ? [
            {
              kind: 'volume',
              track,
              taper: line.value.taper?.value ?? 'audio',
              forSlot: slotOf(line),
              place: line.place,
            },
          ]
        : [];
    }),
    ...facts.tone.flatMap((line): readonly Control[] => {
      const [track, capacitor] = [siOf(line.value.value), siOf(line.value.capacitor)];
      return track && capacitor
        ? [
            {
              kind: 'tone',
              track,
              capacitor,
              taper: line.value.taper?.value ?? 'audio',
              forSlot: slotOf(line),
              place: line.place,
            },
          ]
        : [];
    }),
    ...facts.bleed.flatMap((line): readonly Control[] => {
      const capacitor = siOf(line.value.capacitor);
      const resistor = line.value.resistor && siOf(line.value.resistor.value);
      return capacitor
        ? [
            {
              kind: 'bleed',
              capacitor,
              resistor,
              joined: line.value.resistor?.joined.value ?? 'parallel',
              forSlot: slotOf(line),
              place: line.place,
            },
          ]
        : [];
    }),
  ];
  return controls.sort((a, b) => a.place.span.start - b.place.span.start);
}

function slotNamed(
  named: { readonly value: string; readonly span: Slot['place']['span'] },
  chunk: Chunk,
  slots: readonly Slot[],
  resolver: Resolver,
): Stated<string> {
  const place = placeIn(chunk, named);
  const slot = slots.find(({ name }) => name === named.value);
  resolver.note({ place, kind: 'slot', name: named.value, target: slot?.place, declares: false });
  if (!slot) unknownSlot(named.value, place, slots, resolver);
  return { value: named.value, place };
}

function unknownSlot(name: string, place: Slot['place'], slots: readonly Slot[], resolver: Resolver): void {
  const right = nearest(
    name,
    slots.map((slot) => slot.name),
  );
  resolver.report({
    code: 'name/unknown',
    message: `No pickup is fitted as ${name} in this instrument${slots.length ? `: it has ${slots.map((slot) => slot.name).join(', ')}` : ''}.`,
    place,
    related: [],
    fixes: right ? [{ title: `Change to \`${right}\``, edits: [{ place, newText: right }] }] : [],
  });
}

type PositionLine = MergedBlock<typeof language.selector>['facts']['position'][number];

function positionFrom({ value, place }: PositionLine, slots: readonly Slot[], resolver: Resolver): Position {
  const { chunk } = place;
  const onPurpose = value.onPurpose;
  return {
    key: { value: String(value.key.value.value), place: placeIn(chunk, value.key) },
    title: value.title?.value,
    selection: selectionFrom(value.selection.value, chunk, slots, resolver),
    onPurpose: onPurpose && placeIn(chunk, onPurpose.on),
    place,
  };
}

function selectionFrom(
  node: SelectionNode,
  chunk: Chunk,
  slots: readonly Slot[],
  resolver: Resolver,
): Selection | undefined {
  const place = placeIn(chunk, node);
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
  if (!first) return undefined;
  const slot = slots.find(({ name }) => name === first.value);
  slotNamed(first, chunk, slots, resolver);
  if (!slot) return undefined;
  if (!second) return { kind: 'pickup', slot, path, place };
  const { pickup } = slot;
  if (!pickup) return undefined;
  if (pickup.coils.some(({ name }) => name === second.value)) {
    const ohm = node.through && siOf(node.through);
    const throughOhm = node.through && ohm ? { value: ohm, place: placeIn(chunk, node.through) } : undefined;
    return { kind: 'coil', slot, coil: second.value, throughOhm, path, place };
  }
  const lead = canonicalLeadName(second.value);
  const leads = leadsOf(pickup);
  if (leads.includes(lead)) return { kind: 'tap', slot, lead, path, place };
  const names = [...pickup.coils.map(({ name }) => name), ...leads];
  const right = nearest(second.value, names);
  const secondPlace = placeIn(chunk, second);
  resolver.report({
    code: 'name/unknown',
    message: `The pickup fitted as ${slot.name} has no coil or lead called ${second.value}: it has ${names.join(', ')}.`,
    place: secondPlace,
    related: [],
    fixes: right ? [{ title: `Change to \`${right}\``, edits: [{ place: secondPlace, newText: right }] }] : [],
  });
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
