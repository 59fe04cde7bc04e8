/** Names of coils inside a pickup and of slots inside an instrument that nothing declares, or that are declared twice. */
import { nearest } from '../../../grammar/src/nearest.ts';
import type { Instrument } from './instrument.ts';
import type { LeadPath } from './lead.ts';
import type { ModelProblem } from './model.ts';
import type { Pickup } from './pickup.ts';
import type { Place } from './place.ts';

export function innerNameProblems(pickup: Pickup): readonly ModelProblem[] {
  const names = pickup.coils.map(({ name }) => name);
  const uses: { readonly name: string; readonly place: Place }[] = [];
  const useOf = (path: LeadPath) => uses.push({ name: path.text, place: path.place });
  const bar = pickup.barMagnet?.value.towardCoil;
  if (bar) uses.push({ name: bar.value, place: bar.place });
  for (const { below } of pickup.coils) if (below) uses.push({ name: below.value, place: below.place });
  for (const { found, lines } of pickup.readings)
    for (const line of found ? [] : lines) {
      if (line.kind === 'compass') useOf(line.coil);
      if (line.kind === 'kick' && line.at) useOf(line.at);
      if (line.kind === 'coil resistance' && !isCoilEnd(line.coil)) useOf(line.coil);
    }
  const unknown = uses
    .filter(({ name }) => !names.includes(name))
    .map(({ name, place }) => unknownCoil(name, place, names));
  return [...unknown, ...duplicates(pickup.coils, 'coils of this pickup')];
}

/** A position's number stands once; a slot's name too. */
export const instrumentNameProblems = (instrument: Instrument): readonly ModelProblem[] => [
  ...duplicates(instrument.slots, 'pickups of this instrument'),
];

const isCoilEnd = (path: LeadPath) => path.parts.length > 1;

function unknownCoil(name: string, place: Place, names: readonly string[]): ModelProblem {
  const right = nearest(name, names);
  const known = names.length ? `it has ${names.join(', ')}` : 'it has no coils';
  return {
    code: 'name/unknown',
    message: `This pickup has no coil called ${name}: ${known}.`,
    place,
    related: [],
    fixes: right ? [{ title: `Change to \`${right}\``, edits: [{ place, newText: right }] }] : [],
  };
}

function duplicates(
  things: readonly { readonly name: string; readonly place: Place }[],
  what: string,
): readonly ModelProblem[] {
  const first = new Map<string, Place>();
  return things.flatMap(({ name, place }) => {
    const before = first.get(name);
    if (!before) {
      first.set(name, place);
      return [];
    }
    return [
      {
        code: 'name/duplicate',
        message: `Two ${what} are called ${name}; a name stands for one of them.`,
        place,
        related: [{ message: `the first ${name}`, place: before }],
        fixes: [],
      },
    ];
  });
}
