/** A build: what is chosen for each coil that leaves something out, as a pickup and as lines of its text. */
import { present } from '../../../grammar/values/present.ts';
import { grouped } from '../../../grammar/values/quantity.ts';
import { insertFirstLine, insertFirstLines } from '../checks/edits.ts';
import type { Edit } from '../checks/finding.ts';
import { ownEdits } from '../checks/own-edits.ts';
import type { Coil } from '../model/coil.ts';
import type { Magnet } from '../model/magnet.ts';
import type { Pickup } from '../model/pickup.ts';
import type { Candidate } from './candidates.ts';
import type { CoilOpening } from './openings.ts';
import type { CoilOption } from './shelf.ts';

export interface CoilChoice extends CoilOption {
  readonly opening: CoilOpening;
  readonly turns: number;
}

/** A bar, and which of its poles lies toward which coil. */
export interface BarChoice {
  readonly bar: Magnet;
  readonly pole: 'north' | 'south';
  readonly toward: Coil;
}

export interface Build {
  readonly coils: readonly CoilChoice[];
  readonly magnet: BarChoice | undefined;
}

export const buildOf = ({ options }: Candidate, turns: readonly number[], magnet: BarChoice | undefined): Build => ({
  coils: options.map(({ curve, ...option }, index) => ({ ...option, turns: turns[index] ?? 0 })),
  magnet,
});

/** The pickup as it would be. */
export function builtPickup(pickup: Pickup, { coils, magnet }: Build): Pickup {
  const chosen = new Map(coils.map((each) => [each.opening.coil, each]));
  return {
    ...pickup,
    coils: pickup.coils.map((coil) => {
      const choice = chosen.get(coil);
      return choice ? builtCoil(coil, choice) : coil;
    }),
    ...(magnet ? { barMagnet: barOf(magnet, pickup) } : {}),
  };
}

function builtCoil(coil: Coil, { opening, bobbin, wire, spool, turns }: CoilChoice): Coil {
  const planned = { dimension: 'turns' as const, si: turns, written: String(turns) };
  return { ...coil, bobbin, wire, spool, ...(opening.turns ? { turns: { value: planned, place: coil.place } } : {}) };
}

const barOf = ({ bar, pole, toward }: BarChoice, { place }: Pickup): Pickup['barMagnet'] => ({
  value: { magnet: bar, pole, towardCoil: { value: toward.name, place }, work: undefined },
  place,
});

/** As a person would write it; `undefined` where it cannot be said in this pickup's own text. */
export function buildEdits(pickup: Pickup, { coils, magnet }: Build): readonly Edit[] | undefined {
  const edits = [
    ...(magnet
      ? [insertFirstLine(pickup.place, `magnet ${magnet.bar.name} ${magnet.pole} toward ${magnet.toward.name}`)]
      : []),
    ...coils.map((choice) => insertFirstLines(choice.opening.coil.place, linesOf(choice))),
  ];
  return ownEdits([...edits, ...declarations(pickup, coils)], pickup);
}

const linesOf = ({ opening, bobbin, wire, spool, turns }: CoilChoice): readonly string[] =>
  present([
    opening.bobbin ? `bobbin ${bobbin.name}` : undefined,
    opening.wire ? (spool ? `spool ${spool.name}` : `wire ${wire.name}`) : undefined,
    opening.turns ? `turns ${grouped(turns)}` : undefined,
  ]);

/** Wire that nobody has declared is declared behind the pickup, as it was read. */
function declarations({ written: { extent } }: Pickup, coils: readonly CoilChoice[]): readonly Edit[] {
  const wires = new Set(coils.flatMap(({ isUndeclared, wire }) => (isUndeclared ? [wire.place.chunk.text] : [])));
  const at = { start: extent.span.end, end: extent.span.end };
  return [...wires].map((text) => ({ place: { chunk: extent.chunk, span: at }, newText: `\n${text}` }));
}
