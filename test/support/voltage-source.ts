import type { Component } from '../../server/src/physics/circuit/circuit.ts';
import { type Between, component } from '../../server/src/physics/circuit/components.ts';

/** An ideal voltage source, in V, that raises `to` above `from`. Its value is given when the network is solved. */
export const voltageSource = ({ name, from, to }: Between): Component =>
  component(name, [from, to], {
    ownUnknowns: 1,
    paths: [{ between: [0, 1], direct: true }],
    stamp: (equations, { terminals: [a = -1, b = -1], own }) => {
      for (const [row, column, value] of [
        [a, own, 1],
        [b, own, -1],
        [own, a, 1],
        [own, b, -1],
      ] as const)
        equations.add(row, column, value, 0);
      equations.source(name, own, -1);
    },
  });
