/**
 * Signs that are measured as products. A compass gives a pole, a kick wind times pole, a statement one or the other: each is an equation
 * over signs, linear where products are sums, and what follows from all of them is found by elimination. What comes first goes before:
 * an equation that contradicts those before it is left out.
 */
import type { Sign } from '../model/coil.ts';
import type { Place } from '../model/place.ts';

export interface Known {
  readonly sign: Sign;
  readonly basis: 'declared' | 'measured' | 'derived';
  /** The lines that fix it. */
  readonly places: readonly Place[];
}

interface Row {
  readonly mask: bigint;
  readonly sign: Sign;
  /** The equations that it was made of. */
  readonly from: bigint;
}

export interface SignSystem {
  /** The product of these is that sign. What it contradicts, where it does. */
  add(signs: readonly string[], known: Known): Known | undefined;
  /** The product of these, where it follows. */
  known(signs: readonly string[]): Known | undefined;
}

export const times = (a: Sign, b: Sign): Sign => (a === b ? 1 : -1);

export function signSystem(): SignSystem {
  const bits = new Map<string, bigint>();
  const rows: Row[] = [];
  const equations: Known[] = [];
  const bit = (name: string): bigint => {
    const known = bits.get(name) ?? 1n << BigInt(bits.size);
    bits.set(name, known);
    return known;
  };
  const maskOf = (signs: readonly string[]) => signs.reduce((mask, name) => mask ^ bit(name), 0n);
  const reduced = (row: Row): Row =>
    rows.reduce(
      (left, { mask, sign, from }) =>
        left.mask & lowest(mask)
          ? { mask: left.mask ^ mask, sign: times(left.sign, sign), from: left.from ^ from }
          : left,
      row,
    );
  const knownOf = (signs: readonly string[]): Known | undefined => {
    const { mask, sign, from } = reduced({ mask: maskOf(signs), sign: 1, from: 0n });
    if (mask !== 0n) return undefined;
    const used = equations.filter((_, index) => from & (1n << BigInt(index)));
    return { sign, basis: basisOf(used), places: [...new Set(used.flatMap(({ places }) => places))] };
  };
  return {
    add: (signs, known) => {
      const before = knownOf(signs);
      if (before) return before.sign === known.sign ? undefined : before;
      rows.push(reduced({ mask: maskOf(signs), sign: known.sign, from: 1n << BigInt(equations.length) }));
      equations.push(known);
      return undefined;
    },
    known: knownOf,
  };
}

const lowest = (mask: bigint): bigint => mask & -mask;

function basisOf(used: readonly Known[]): Known['basis'] {
  if (used.every(({ basis }) => basis === 'declared')) return 'declared';
  return used.some(({ basis }) => basis === 'measured') ? 'measured' : 'derived';
}
