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
  /** The unknowns that it multiplies, by their numbers. */
  readonly signs: readonly number[];
  readonly sign: Sign;
  /** The equations that it was made of, by theirs. */
  readonly from: readonly number[];
}

export interface SignSystem {
  /** The product of these is that sign. What it contradicts, where it does. */
  add(signs: readonly string[], known: Known): Known | undefined;
  /** The product of these, where it follows. */
  known(signs: readonly string[]): Known | undefined;
}

export const times = (a: Sign, b: Sign): Sign => (a === b ? 1 : -1);

export function signSystem(): SignSystem {
  const numbers = new Map<string, number>();
  /** By the lowest of its unknowns, which no later one has. Those that are added first come first. */
  const rows = new Map<number, { readonly row: Row; readonly order: number }>();
  const equations: Known[] = [];
  const numberOf = (name: string): number => {
    const number = numbers.get(name) ?? numbers.size;
    numbers.set(name, number);
    return number;
  };
  const rowOf = (signs: readonly string[], sign: Sign, from: readonly number[]): Row => ({
    signs: signs.map(numberOf).reduce<readonly number[]>((product, each) => oddly(product, [each]), []),
    sign,
    from,
  });
  const reduced = (row: Row): Row => {
    let left = row;
    for (;;) {
      const first = left.signs
        .flatMap((number) => rows.get(number) ?? [])
        .reduce<{ readonly row: Row; readonly order: number } | undefined>(
          (before, each) => (before && before.order < each.order ? before : each),
          undefined,
        )?.row;
      if (!first) return left;
      left = {
        signs: oddly(left.signs, first.signs),
        sign: times(left.sign, first.sign),
        from: oddly(left.from, first.from),
      };
    }
  };
  const knownOf = (signs: readonly string[]): Known | undefined => {
    const { signs: left, sign, from } = reduced(rowOf(signs, 1, []));
    if (left.length > 0) return undefined;
    const used = [...from].sort((a, b) => a - b).flatMap((number) => equations[number] ?? []);
    return { sign, basis: basisOf(used), places: [...new Set(used.flatMap(({ places }) => places))] };
  };
  return {
    add: (signs, known) => {
      const before = knownOf(signs);
      if (before) return before.sign === known.sign ? undefined : before;
      const row = reduced(rowOf(signs, known.sign, [equations.length]));
      rows.set(Math.min(...row.signs), { row, order: equations.length });
      equations.push(known);
      return undefined;
    },
    known: knownOf,
  };
}

/** What stands in one of the two and not in both: a sign times itself is 1. */
const oddly = (a: readonly number[], b: readonly number[]): readonly number[] => [
  ...a.filter((each) => !b.includes(each)),
  ...b.filter((each) => !a.includes(each)),
];

function basisOf(used: readonly Known[]): Known['basis'] {
  if (used.every(({ basis }) => basis === 'declared')) return 'declared';
  return used.some(({ basis }) => basis === 'measured') ? 'measured' : 'derived';
}
