/** Readings from their block. */
import type { language } from '../../../grammar/src/schema/index.ts';
import type { LeadPath, Probes } from './lead.ts';
import { factsOf, type MergedBlock } from './merged-block.ts';
import type { Place, Stated } from './place.ts';
import type { FactsRead } from './reading.ts';
import type { Reading, Readings } from './readings.ts';
import type { Resolver } from './resolver.ts';
import type { SetUp, Sweep } from './sweep.ts';
import { curveProblem } from './sweeps.ts';

type ReadingsBlock = MergedBlock<typeof language.readings>;

export function readingsFrom(block: ReadingsBlock, resolver: Resolver): Readings {
  const { resistance, kick, compass, inductance, capacitance, position, sweep, accept, ...plain } = factsOf(block);
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
    sweeps: sweep.map(({ value, place }) => sweepFrom(value, place, resolver)),
    lines: [...lines].sort((a, b) => a.place.span.start - b.place.span.start),
    unreadSigns: block.unread.some((field) => field === 'kick' || field === 'compass')
      ? block.misfits.flatMap((line) => (line.kind === 'fact' ? [line.items.map(({ text }) => text)] : []))
      : [],
  };
}

type SweepRead = FactsRead<typeof language.readings.facts>['sweep'][number]['value'];

function sweepFrom({ between, file, measured, added, at }: SweepRead, place: Place, resolver: Resolver): Sweep {
  const setUp: SetUp =
    'ohm' in measured
      ? { kind: measured.by, seriesOhm: measured.ohm }
      : { kind: measured.by, accuracy: measured.accuracy };
  const found = resolver.curve(file);
  const problem = curveProblem(file, found, setUp.kind === 'impedance' ? 'impedance' : 'ratio');
  if (problem) resolver.report(problem);
  return {
    place,
    probes: probesOf(between),
    file,
    curve: found.kind === 'curve' && !problem ? found : undefined,
    setUp,
    addedF: added,
    atC: at,
  };
}

const probesOf = ({ from, onto }: { readonly from: LeadPath; readonly onto: LeadPath }): Probes => ({
  red: from,
  black: onto,
});

const pathOfName = ({ value, place }: Stated<string>): LeadPath => ({ parts: [value], text: value, place });
