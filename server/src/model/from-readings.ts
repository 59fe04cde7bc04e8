/** Readings from their block. */
import type { language } from '../../../grammar/src/schema/index.ts';
import type { LeadPath } from './lead.ts';
import { factsOf, type MergedBlock } from './merged-block.ts';
import type { Stated } from './place.ts';
import type { Probes, Reading, Readings } from './readings.ts';

export function readingsFrom(block: MergedBlock<typeof language.readings>): Readings {
  const { resistance, kick, compass, inductance, capacitance, position, accept, ...plain } = factsOf(block);
  const lines: readonly Reading[] = [
    ...resistance.map(
      ({ value: { from, to, value, at }, place }): Reading =>
        to
          ? { kind: 'resistance', probes: { red: from, black: to }, value, atC: at, place }
          : { kind: 'coil resistance', coil: from, value, atC: at, place },
    ),
    ...kick.map(
      ({ value: { between, at, motion, reads }, place }): Reading => ({
        kind: 'kick',
        probes: probesOf(between),
        at: at && pathOfName(at),
        motion,
        reads,
        place,
      }),
    ),
    ...compass.map(
      ({ value: { coil, pole }, place }): Reading => ({
        kind: 'compass',
        coil: pathOfName(coil),
        shows: pole,
        place,
      }),
    ),
    ...inductance.map(
      ({ value: { between, value, at }, place }): Reading => ({
        kind: 'inductance',
        probes: probesOf(between),
        value,
        atHz: at,
        place,
      }),
    ),
    ...capacitance.map(
      ({ value: { between, value }, place }): Reading => ({
        kind: 'capacitance',
        probes: between && probesOf(between),
        value,
        place,
      }),
    ),
    ...position.map(
      ({ value: { key, value, at }, place }): Reading => ({ kind: 'position', key, value, atC: at, place }),
    ),
  ];
  return {
    ...plain,
    place: block.place,
    title: block.title,
    date: block.date,
    found: block.words.includes('found'),
    apart: block.words.includes('apart'),
    lines: [...lines].sort((a, b) => a.place.span.start - b.place.span.start),
    unreadSigns: block.unread.some((field) => field === 'kick' || field === 'compass')
      ? block.misfits.flatMap((line) => (line.kind === 'fact' ? [line.items.map(({ text }) => text)] : []))
      : [],
  };
}

const probesOf = ({ from, onto }: { readonly from: LeadPath; readonly onto: LeadPath }): Probes => ({
  red: from,
  black: onto,
});

const pathOfName = ({ value, place }: Stated<string>): LeadPath => ({ parts: [value], text: value, place });
