/** Which strings a coil senses where no line says it. */

import { isBlade } from './bobbin.ts';
import type { Coil } from './coil.ts';

/**
 * A row with fewer poles than the pickup has strings cannot lie under all of them. Where the poles of all coils together are one to a
 * string, each coil senses its own strings; which of them come first changes nothing that is computed, so they follow the order of the text.
 */
export function withStringsServed(coils: readonly Coil[], strings: number | undefined): readonly Coil[] {
  const sensing = coils.filter(({ serves, below }) => serves?.value !== 'none' && below === undefined);
  const rows = sensing.map(polesInRow);
  const poles = rows.reduce<number>((sum, count) => sum + (count ?? 0), 0);
  if (strings === undefined || poles !== strings || rows.length < 2) return coils;
  if (rows.some((count) => !count) || sensing.some(({ serves }) => serves)) return coils;
  let last = 0;
  return coils.map((coil) => {
    const index = sensing.indexOf(coil);
    if (index < 0) return coil;
    const from = last + 1;
    last += rows[index] ?? 0;
    return { ...coil, serves: { value: { from, to: last }, place: coil.bobbinPlace ?? coil.place } };
  });
}

const polesInRow = ({ bobbin }: Coil): number | undefined =>
  bobbin && !isBlade(bobbin) ? bobbin.poles?.value.count : undefined;
