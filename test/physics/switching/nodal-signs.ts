/**
 * A second method for what sounds: joints closed by reachability, every element a random resistance with a source in it, the voltage that
 * each source leaves between hot and ground by nodal equations. It knows no union-find, no blocks and no folding.
 */
import { solveInPlace } from '../../../server/src/physics/linear-solve.ts';
import { closedIn, GROUND, HOT, type Rig, type SwitchState } from '../../../server/src/physics/switching/rig.ts';

export interface NodalSigns {
  readonly shorted: boolean;
  /** The sign that each element has at hot; 0 where nothing of it arrives. */
  readonly signs: Readonly<Record<string, -1 | 0 | 1>>;
}

export function nodalSigns(rig: Rig, state: SwitchState, uniform: () => number): NodalSigns {
  const groups = [...rig.fixed, ...rig.links, ...closedIn(rig, state)];
  const nodeOf = closure(groups);
  const names = [...new Set([HOT, GROUND, ...rig.elements.flatMap(({ ends }) => ends)].map(nodeOf))];
  const ground = nodeOf(GROUND);
  const at = (terminal: string) => names.filter((name) => name !== ground).indexOf(nodeOf(terminal));
  const size = names.length - 1;
  const matrix = new Float64Array(size * size);
  const add = (row: number, column: number, value: number) => {
    if (row >= 0 && column >= 0) matrix[row * size + column] = (matrix[row * size + column] ?? 0) + value;
  };
  const hot = at(HOT);
  // The input that listens.
  add(hot, hot, 1);
  // What hangs in the air is tied to ground by a billionth of the other conductances.
  for (let node = 0; node < size; node++) add(node, node, 1e-9);
  const sides = rig.elements.map(({ ends }) => {
    const siemens = 0.5 + uniform();
    const [high, low] = [at(ends[0]), at(ends[1])];
    add(high, high, siemens);
    add(low, low, siemens);
    add(high, low, -siemens);
    add(low, high, -siemens);
    const side = new Float64Array(size);
    if (high >= 0) side[high] = (side[high] ?? 0) + siemens;
    if (low >= 0) side[low] = (side[low] ?? 0) - siemens;
    return side;
  });
  solveInPlace(matrix, sides);
  const signs = rig.elements.map(({ name }, index): [string, -1 | 0 | 1] => {
    const volt = hot < 0 ? 0 : (sides[index]?.[hot] ?? 0);
    return [name, Math.abs(volt) < 1e-6 ? 0 : volt > 0 ? 1 : -1];
  });
  return { shorted: hot < 0, signs: Object.fromEntries(signs) };
}

/** The first of all terminals that one can be reached from. */
function closure(groups: readonly (readonly string[])[]): (terminal: string) => string {
  return (terminal) => {
    const reached = new Set([terminal]);
    for (let before = 0; before < reached.size; ) {
      before = reached.size;
      for (const group of groups)
        if (group.some((each) => reached.has(each))) for (const each of group) reached.add(each);
    }
    return [...reached].sort()[0] ?? terminal;
  };
}
