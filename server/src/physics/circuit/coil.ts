import type { Component, Equations, Placement } from './circuit.ts';
import { component, directPath, stampAdmittance } from './components.ts';

export interface CoilValues {
  readonly name: string;
  /** Node of the winding's start, and of its finish. A positive e.m.f. raises the finish above the start. */
  readonly start: string;
  readonly finish: string;
  readonly ohm: number;
  readonly henry: number;
  /** Across the whole coil. */
  readonly farad?: number;
}

/**
 * A closed loop of metal that couples to coils. Its own inductance can be chosen freely without changing what the coils' terminals
 * see, and is 1 H here; so it is described by the frequency at which its reactance equals its resistance and by its coupling factor k
 * with each coil. Far below that frequency it only adds a loss that grows with the square of the frequency; far above it takes
 * the share k² away from a coil's inductance.
 */
export interface ShortedTurn {
  readonly name: string;
  /** Above 0. */
  readonly cornerHz: number;
  readonly beside: readonly BesideTurn[];
}

export interface BesideTurn {
  readonly coil: Coil;
  /** Positive where currents from the coil's start to its finish and the turn's make fluxes that add. */
  readonly coupling: number;
  /** What moves near the coil and makes an e.m.f. e in it makes `drive` · e/√(henry of the coil) in the turn. */
  readonly drive: number;
}

/** A coil's component: what a mutual inductance needs to know of it beside its name. */
export interface Coil extends Component {
  readonly henry: number;
}

/**
 * A pickup coil: source, inductance and wire resistance in series, capacitance across. Its own unknown is the current I through the
 * inductance from start to finish inside the coil, and mutual inductances stamp at (own, own) of the two coils. At 0 Hz the coil is its
 * wire's resistance. Losses in metal are shorted turns beside it.
 */
export function coil(values: CoilValues): Coil {
  return makeCoil(values, true);
}

/** An inductor with its series resistance: a coil that is no source. */
export function inductor(values: {
  readonly name: string;
  readonly from: string;
  readonly to: string;
  readonly henry: number;
  readonly ohm?: number;
}): Coil {
  const { name, from, to, henry, ohm = 0 } = values;
  return makeCoil({ name, start: from, finish: to, henry, ohm }, false);
}

/**
 * Mutual inductance of two coils, in H, positive where currents from start to finish of both make fluxes that add.
 * For M counted "both windings the same way round" multiply by the two coils' winding signs.
 */
export function mutualInductance(name: string, a: Coil, b: Coil, henry: number): Component {
  return component(name, [], {
    refersTo: [a.name, b.name],
    stamp: (equations, { referred: [first = -1, second = -1] }) => {
      equations.add(first, second, 0, henry);
      equations.add(second, first, 0, henry);
    },
  });
}

/** The same from the coupling factor k = M / √(La·Lb). */
export function coupling(name: string, a: Coil, b: Coil, k: number): Component {
  return mutualInductance(name, a, b, k * Math.sqrt(a.henry * b.henry));
}

/**
 * A shorted turn beside coils, which must stand before it in the circuit: (R + jω) It + jω Σ k √L I = Σ drive · e/√L, R = 2π · corner,
 * and its part in each coil's flux. Nothing couples to a coil without inductance.
 */
export function shortedTurn({ name, cornerHz, beside }: ShortedTurn): Component {
  const coupled = beside.filter(({ coil }) => coil.henry > 0);
  return component(name, [], {
    ownUnknowns: 1,
    refersTo: coupled.map(({ coil }) => coil.name),
    stamp: (equations, { own, referred }) => {
      equations.add(own, own, 2 * Math.PI * cornerHz, 1);
      coupled.forEach(({ coil, coupling: k, drive }, index) => {
        const current = referred[index] ?? -1;
        const root = Math.sqrt(coil.henry);
        equations.add(own, current, 0, k * root);
        equations.add(current, own, 0, k * root);
        if (drive !== 0) equations.source(coil.name, own, drive / root);
      });
    },
  });
}

function makeCoil(values: CoilValues, excited: boolean): Coil {
  const { name, start, finish, henry, farad = 0 } = values;
  return {
    name,
    terminals: [start, finish],
    ownUnknowns: 1,
    wires: [],
    paths: [directPath],
    refersTo: [],
    henry,
    stamp: (equations, at) => {
      if (farad !== 0) stampAdmittance(equations, at, 0, farad);
      stampSeries(equations, at, values);
      if (excited) equations.source(name, at.own, 1);
    },
  };
}

/** V(finish) - V(start) + (R + jωL)·I + jωM·I' = e */
function stampSeries(equations: Equations, at: Placement, { ohm, henry }: CoilValues): void {
  const [start = -1, finish = -1] = at.terminals;
  const current = at.own;
  equations.add(start, current, 1, 0);
  equations.add(finish, current, -1, 0);
  equations.add(current, start, -1, 0);
  equations.add(current, finish, 1, 0);
  equations.add(current, current, ohm, henry);
}
