/** Readings from their block. */
import type { language } from '../../../grammar/src/schema/index.ts';
import type { Chunk } from '../../../grammar/src/syntax-tree.ts';
import type { Quantity } from '../../../grammar/values/quantity.ts';
import type { LeadPath } from './lead.ts';
import type { MergedBlock } from './merged-block.ts';
import type { Place } from './place.ts';
import { only, pathOf, placeIn, siOf, statedQuantity } from './read-facts.ts';
import type { Probes, Reading, Readings } from './readings.ts';

type ReadingsBlock = MergedBlock<typeof language.readings>;
type Facts = ReadingsBlock['facts'];

export function readingsFrom(block: ReadingsBlock): Readings {
  const { facts } = block;
  const lines = [
    ...facts.resistance.flatMap(resistanceLine),
    ...facts.kick.map(kickLine),
    ...facts.compass.map(
      ({ value, place }): Reading => ({
        kind: 'compass',
        coil: namePath(value.coil, place.chunk),
        shows: value.pole.value,
        place,
      }),
    ),
    ...facts.inductance.flatMap(inductanceLine),
    ...facts.capacitance.flatMap(capacitanceLine),
    ...facts.position.flatMap(positionLine),
  ];
  return {
    place: block.place,
    title: block.title,
    date: block.date,
    found: block.words.includes('found'),
    room: statedQuantity(only(facts.room)),
    lines: lines.sort((a, b) => a.place.span.start - b.place.span.start),
  };
}

function resistanceLine({ value, place }: Facts['resistance'][number]): readonly Reading[] {
  const reads = openOr(value.value);
  if (reads === undefined) return [];
  const atC = value.at && siOf(value.at.temperature);
  const from = pathOf(value.from, place.chunk);
  if (!value.to) return [{ kind: 'coil resistance', coil: from, value: reads, atC, place }];
  return [
    { kind: 'resistance', probes: { red: from, black: pathOf(value.to.lead, place.chunk) }, value: reads, atC, place },
  ];
}

function openOr(value: Facts['resistance'][number]['value']['value']): Quantity | 'open' | undefined {
  return value.option === 'open' ? 'open' : siOf(value.value);
}

function kickLine({ value, place }: Facts['kick'][number]): Reading {
  return {
    kind: 'kick',
    probes: probesOf(value.between, place.chunk),
    at: value.at && namePath(value.at.coil, place.chunk),
    motion: value.motion.value,
    reads: value.reads.value,
    place,
  };
}

function inductanceLine({ value, place }: Facts['inductance'][number]): readonly Reading[] {
  const henry = siOf(value.value);
  if (!henry) return [];
  return [
    {
      kind: 'inductance',
      probes: probesOf(value.between, place.chunk),
      value: henry,
      atHz: value.at && siOf(value.at.frequency),
      place,
    },
  ];
}

function capacitanceLine({ value, place }: Facts['capacitance'][number]): readonly Reading[] {
  const farad = siOf(value.value.value);
  if (!farad) return [];
  const { between } = value.value;
  return [{ kind: 'capacitance', probes: between && probesOf(between, place.chunk), value: farad, place }];
}

function positionLine({ value, place }: Facts['position'][number]): readonly Reading[] {
  const reads = openOr(value.value);
  if (reads === undefined) return [];
  return [
    {
      kind: 'position',
      key: { value: String(value.key.value.value), place: placeIn(place.chunk, value.key) },
      value: reads,
      atC: value.at && siOf(value.at.temperature),
      place,
    },
  ];
}

const probesOf = (between: Facts['kick'][number]['value']['between'], chunk: Chunk): Probes => ({
  red: pathOf(between.from, chunk),
  black: pathOf(between.onto, chunk),
});

const namePath = (name: { readonly value: string; readonly span: Place['span'] }, chunk: Chunk): LeadPath => ({
  parts: [name.value],
  text: name.value,
  place: placeIn(chunk, name),
});
