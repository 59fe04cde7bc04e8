/** Coils and leads of the pickups that are fitted, where an instrument names them behind a slot: `bridge.screw`, `neck.violet`. */
import { canonicalLeadName } from '../../../grammar/values/lead-name.ts';
import type { PlacedName } from './inner-names.ts';
import type { Reference } from './model.ts';

/** `namesOf`: what stands in a pickup by its name; `undefined` where it is not known. */
export function fittedNames(
  names: readonly PlacedName[],
  namesOf: (pickup: string) => readonly Reference[] | undefined,
): readonly Reference[] {
  const paths = names.filter(({ kind, isPath, parts }) => kind === 'slot' && isPath && parts.length > 1);
  if (paths.length === 0) return [];
  const fitted = new Map<string, readonly Reference[]>();
  for (const { line, parts } of names.filter(({ kind }) => kind === 'pickup')) {
    const slot = names.find((each) => each.line === line && each.kind === 'slot' && each.role === 'declares');
    const known = namesOf(parts[0]?.value ?? '');
    if (slot && known) fitted.set(slot.parts[0]?.value ?? '', known);
  }
  return paths.flatMap(({ place: { chunk }, parts: [slot, ...inner] }) => {
    const known = fitted.get(slot?.value ?? '') ?? [];
    return inner.flatMap(({ value, span }): readonly Reference[] => {
      const found =
        known.find(({ kind, name }) => kind === 'coil' && name === value) ??
        known.find(({ kind, name }) => kind === 'lead' && name === canonicalLeadName(value));
      return found ? [{ ...found, place: { chunk, span }, declares: false }] : [];
    });
  });
}
