import type { Component, CurrentPath, Equations, Placement } from './circuit.ts';

/** Below this a resistor is written with its current as an unknown, so that a joint of a microohm costs no digits: as a
 * conductance of 1 MS it would swallow the microsiemens of a load beside it. */
const smallOhm = 0.01;

export interface Between {
  readonly name: string;
  readonly from: string;
  readonly to: string;
}

/** An ideal joint: both nodes are one net. */
export function wire({ name, from, to }: Between): Component {
  return component(name, [from, to], { wires: [[0, 1]] });
}

/** A resistor in Ω. 0 is a wire; infinite is open. */
export function resistor({ name, from, to, ohm }: Between & { readonly ohm: number }): Component {
  if (ohm === 0) return wire({ name, from, to });
  if (ohm === Number.POSITIVE_INFINITY) return component(name, [from, to], {});
  const small = Math.abs(ohm) < smallOhm;
  return component(name, [from, to], {
    ownUnknowns: small ? 1 : 0,
    paths: [directPath],
    stamp: small
      ? (equations, at) => stampImpedance(equations, at, ohm)
      : (equations, at) => stampAdmittance(equations, at, 1 / ohm, 0),
  });
}

/** A capacitor in F: open at 0 Hz. */
export function capacitor({ name, from, to, farad }: Between & { readonly farad: number }): Component {
  if (farad === 0) return component(name, [from, to], {});
  return component(name, [from, to], {
    paths: [{ between: [0, 1], direct: false }],
    stamp: (equations, at) => stampAdmittance(equations, at, 0, farad),
  });
}

/** An ideal current source, in A, that takes its current out of `from` and puts it into `to`. */
export function currentSource({ name, from, to }: Between): Component {
  return component(name, [from, to], {
    stamp: (equations, { terminals: [a = -1, b = -1] }) => {
      equations.source(name, a, -1);
      equations.source(name, b, 1);
    },
  });
}

/** A component that touches its nodes, and beside that does what is said. Field by field: a copy with others over it takes ten times as long. */
export function component(
  name: string,
  terminals: readonly string[],
  { ownUnknowns = 0, wires = [], paths = [], refersTo = [], stamp = () => {} }: Partial<Component>,
): Component {
  return { name, terminals, ownUnknowns, wires, paths, refersTo, stamp };
}

/** g + jω·c between the component's first two terminals. */
export function stampAdmittance(
  equations: Equations,
  { terminals: [a = -1, b = -1] }: Placement,
  g: number,
  c: number,
): void {
  equations.add(a, a, g, c);
  equations.add(b, b, g, c);
  equations.add(a, b, -g, -c);
  equations.add(b, a, -g, -c);
}

/** V(from) - V(to) - R·I = 0, with the current I from `from` to `to` as the own unknown. */
function stampImpedance(equations: Equations, { terminals: [a = -1, b = -1], own }: Placement, ohm: number): void {
  equations.add(a, own, 1, 0);
  equations.add(b, own, -1, 0);
  equations.add(own, a, 1, 0);
  equations.add(own, b, -1, 0);
  equations.add(own, own, -ohm, 0);
}

export const directPath: CurrentPath = { between: [0, 1], direct: true };
