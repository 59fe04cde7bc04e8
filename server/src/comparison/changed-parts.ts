/** Which parts of a pickup's drawing the changed facts write, by the names that the drawing gives its parts. */
import { COIL_ENDS } from '../model/coil.ts';
import { METAL_PARTS } from '../model/lead.ts';
import { type FactChange, factsOf, type WrittenFact } from './compare-facts.ts';

/** `coil:screw`, `coil:screw.start`, `lead:grey`, `magnet`, `part:cover`; on one side of the comparison. */
export function changedParts(
  changes: readonly FactChange[],
  pickup: string,
  side: 'before' | 'after',
): ReadonlySet<string> {
  const parts = changes
    .filter(({ path }) => path[0] === pickup)
    .flatMap((change) => {
      const coil = change.path.find((label) => label.startsWith('coil '))?.slice('coil '.length);
      const facts = factsOf(change, side);
      if (coil !== undefined) return facts.map((fact) => coilPart(coil, fact));
      const other = factsOf(change, side === 'before' ? 'after' : 'before');
      return facts.flatMap((fact) =>
        partsOfLine(
          fact,
          other.flatMap(({ leads }) => leads),
        ),
      );
    });
  return new Set(parts);
}

/** A coil's end has a lead of its own in the drawing; what else changed is the coil's. */
const coilPart = (coil: string, { field }: WrittenFact): string =>
  COIL_ENDS.some((end) => end === field) ? `coil:${coil}.${field}` : `coil:${coil}`;

/** Of a line that joins leads, those that the other state does not join there. */
function partsOfLine({ field, leads }: WrittenFact, there: readonly string[]): readonly string[] {
  if (field === 'magnet') return ['magnet'];
  if (METAL_PARTS.some((part) => part === field)) return [`part:${field}`];
  return leads
    .filter((name) => !there.includes(name))
    .map((name) => (name.includes('.') ? `coil:${name}` : `lead:${name}`));
}
