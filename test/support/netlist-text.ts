import { type Circuit, netsOf } from '../../server/src/physics/circuit/circuit.ts';
import type { SourceValues } from '../../server/src/physics/circuit/solve.ts';
import { spiceLines } from './spice-components.ts';

/** What SPICE programs take for ground. */
const groundLabels = ['0', 'gnd'];

export interface NetlistText {
  readonly text: string;
  /** How the text calls a node; undefined for a node that no component touches. */
  nodeName(node: string): string | undefined;
}

/**
 * The circuit as a SPICE netlist: a title, one line an element, `.end`; the same circuit always gives the same text.
 * Ground is node 0. Names keep their letters and digits, with `_` for the rest and a number where two would be alike.
 * Source values go into the `ac` amplitudes. Netlists of this form are read by the SPICE family of simulators
 * (Berkeley SPICE3 syntax).
 */
export function netlistText(circuit: Circuit, title: string, values: SourceValues = {}): NetlistText {
  const nets = netsOf(circuit.components);
  const netLabels = ['0', ...uniqueLabels(nets.names.slice(1), groundLabels)];
  const labels = uniqueLabels(
    circuit.components.map(({ name }) => name),
    [],
  );
  const labelOf = new Map(circuit.components.map(({ name }, index) => [name, labels[index] ?? name]));
  const nodeName = (node: string) => {
    const net = nets.ofNode.get(node);
    return net === undefined ? undefined : netLabels[net];
  };
  const lines = circuit.components.flatMap((component) =>
    spiceLines(component, {
      nets: component.terminals.map((node) => nodeName(node) ?? '0'),
      label: `_${labelOf.get(component.name) ?? component.name}`,
      referred: component.refersTo.map((name) => `_${labelOf.get(name) ?? name}`),
      sourceValue: values[component.name] ?? 0,
      referredValues: component.refersTo.map((name) => values[name] ?? 0),
    }),
  );
  return { text: [`* ${title.replace(/\s+/g, ' ')}`, ...lines, '.end', ''].join('\n'), nodeName };
}

/**
 * SPICE takes upper and lower case for the same, so labels must differ in more than case. None holds two underscores
 * before a letter: components make the names of their inner parts that way.
 */
function uniqueLabels(names: readonly string[], taken: readonly string[]): string[] {
  const used = new Set(taken);
  return names.map((name) => {
    const plain = name.normalize('NFKD').replace(/[^A-Za-z0-9]+/g, '_') || '_';
    let label = plain;
    for (let count = 2; used.has(label.toLowerCase()); count++) label = `${plain}_${count}`;
    used.add(label.toLowerCase());
    return label;
  });
}
