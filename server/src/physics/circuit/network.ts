import { type Circuit, type Component, disjointSets, type Nets, netsOf } from './circuit.ts';
import type { LinearSystem } from './linear-system.ts';
import { type Solver, solverOf } from './solver.ts';

/**
 * A circuit made ready for solving: nodes joined into nets, equations written down once, and for 0 Hz and for all
 * other frequencies the islands that no current can leave.
 */
export interface Network {
  readonly circuit: Circuit;
  readonly nets: Nets;
  /** How many unknowns the equations have. */
  readonly size: number;
  /** Names of the sources (coils, voltage and current sources) in the order of the circuit. */
  readonly sources: readonly string[];
  /** Where each source stands on the right-hand side. */
  readonly sourceTerms: readonly SourceTerm[];
  /** Made when it is asked for first. */
  readonly direct: () => Regime;
  readonly alternating: () => Regime;
}

export interface SourceTerm {
  readonly source: number;
  readonly row: number;
  readonly coefficient: number;
}

export interface Regime {
  /** For each net its island. Island 0 holds ground; the others float. */
  readonly islands: Int32Array;
  readonly system: LinearSystem;
  readonly solver: Solver;
}

export function networkOf(circuit: Circuit): Network {
  const { components } = circuit;
  const nets = netsOf(components);
  const written = writeEquations(components, nets);
  const regime = (direct: boolean): Regime => {
    const islands = islandsOf(components, nets, direct);
    const system = pinned(written.entries, written.size, islands);
    return { islands, system, solver: solverOf(system, direct) };
  };
  return {
    circuit,
    nets,
    size: written.size,
    sources: written.sources,
    sourceTerms: written.sourceTerms,
    direct: lazy(() => regime(true)),
    alternating: lazy(() => regime(false)),
  };
}

/** The regime that holds at a frequency. */
export function regimeAt(network: Network, frequencyHz: number): Regime {
  return frequencyHz === 0 ? network.direct() : network.alternating();
}

/** The net of a node; undefined for a node that no component touches. */
export function netOf({ nets }: Network, node: string): number | undefined {
  return nets.ofNode.get(node);
}

interface Entry {
  readonly row: number;
  readonly column: number;
  g: number;
  b: number;
}

function writeEquations(components: readonly Component[], nets: Nets) {
  const netCount = nets.names.length - 1;
  const firstOwn = new Map<string, number>();
  let size = netCount;
  const placed = components.map((component) => {
    const own = size;
    size += component.ownUnknowns;
    firstOwn.set(component.name, own);
    return { component, own };
  });
  const entries = new Map<number, Entry>();
  const sources = new Map<string, number>();
  const sourceTerms: SourceTerm[] = [];
  const equations = {
    add(row: number, column: number, g: number, b: number) {
      if (row < 0 || column < 0) return;
      const key = row * size + column;
      const entry = entries.get(key);
      if (entry === undefined) entries.set(key, { row, column, g, b });
      else {
        entry.g += g;
        entry.b += b;
      }
    },
    source(name: string, row: number, coefficient: number) {
      const source = sources.get(name) ?? sources.size;
      sources.set(name, source);
      if (row >= 0) sourceTerms.push({ source, row, coefficient });
    },
  };
  for (const { component, own } of placed)
    component.stamp(equations, {
      terminals: component.terminals.map((node) => (nets.ofNode.get(node) ?? 0) - 1),
      own,
      referred: component.refersTo.map((name) => firstOwn.get(name) ?? -1),
    });
  return { size, entries, sources: [...sources.keys()], sourceTerms };
}

function islandsOf(components: readonly Component[], nets: Nets, direct: boolean): Int32Array {
  const sets = disjointSets(nets.names.length);
  for (const { terminals, paths } of components)
    for (const path of paths) {
      if (direct && !path.direct) continue;
      const a = nets.ofNode.get(terminals[path.between[0]] ?? '');
      const b = nets.ofNode.get(terminals[path.between[1]] ?? '');
      if (a !== undefined && b !== undefined) sets.unite(a, b);
    }
  return Int32Array.from(nets.names, (_, net) => sets.find(net));
}

/**
 * The voltage of a floating island is undefined as a whole. One siemens from one of its nets to ground gives it
 * one, and since no current can come back from ground, none flows and nothing else changes.
 */
function pinned(entries: ReadonlyMap<number, Entry>, size: number, islands: Int32Array): LinearSystem {
  const all = new Map(entries);
  for (let net = 1; net < islands.length; net++) {
    if (islands[net] !== net) continue;
    const row = net - 1;
    const own = entries.get(row * size + row);
    all.set(row * size + row, { row, column: row, g: (own?.g ?? 0) + 1, b: own?.b ?? 0 });
  }
  const rows = new Int32Array(all.size);
  const columns = new Int32Array(all.size);
  const g = new Float64Array(all.size);
  const b = new Float64Array(all.size);
  let k = 0;
  for (const entry of all.values()) {
    rows[k] = entry.row;
    columns[k] = entry.column;
    g[k] = entry.g;
    b[k] = entry.b;
    k++;
  }
  return { size, rows, columns, g, b };
}

/** Makes the value when it is first asked for: a response needs no equations of the meter, and the other way round. */
function lazy<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}
