import { type Circuit, type Component, circuit, ground } from '../../server/src/physics/circuit/circuit.ts';
import { type Coil, coupling, inductor } from '../../server/src/physics/circuit/coil.ts';
import { capacitor, currentSource, resistor } from '../../server/src/physics/circuit/components.ts';
import type { SourceValues } from '../../server/src/physics/circuit/solve.ts';
import { voltageSource } from './voltage-source.ts';

export interface ReadNetlist {
  readonly circuit: Circuit;
  /** The `ac` amplitudes as signed numbers: phase 0 or 180 degrees. */
  readonly values: SourceValues;
}

/** Reads the few elements that the reference netlists use: V, I, R, L, C and K, with `ac` amplitudes. */
export function readSpice(lines: readonly string[]): ReadNetlist {
  const components: Component[] = [];
  const coils = new Map<string, Coil>();
  const values: Record<string, number> = {};
  for (const line of lines.slice(1)) {
    const [name = '', a = '', b = '', ...rest] = line.split(/\s+/);
    if (name.startsWith('.')) continue;
    const [from, to] = [nodeOf(a), nodeOf(b)];
    const value = rest[0] ?? '';
    const read: Record<string, () => Component> = {
      // SPICE's first node of V is the positive one.
      V: () => voltageSource({ name, from: to, to: from }),
      I: () => currentSource({ name, from, to }),
      R: () => resistor({ name, from, to, ohm: spiceNumber(value) }),
      C: () => capacitor({ name, from, to, farad: spiceNumber(value) }),
      L: () => inductor({ name, from, to, henry: spiceNumber(value) }),
      K: () => coupling(name, coilOf(coils, a), coilOf(coils, b), spiceNumber(value)),
    };
    const make = read[name.charAt(0).toUpperCase()];
    if (make === undefined) throw new Error(`cannot read "${line}"`);
    const component = make();
    components.push(component);
    if ('henry' in component) coils.set(name, component as Coil);
    if (rest[0] === 'ac') values[name] = signedAmplitude(rest[1] ?? '', rest[2]);
  }
  return { circuit: circuit(components), values };
}

const scales: Record<string, number> = { g: 1e9, meg: 1e6, k: 1e3, m: 1e-3, u: 1e-6, n: 1e-9, p: 1e-12 };

export function spiceNumber(text: string): number {
  const parts = /^([+-]?\d*\.?\d+(?:e[+-]?\d+)?)(meg|[gkmunp])?$/i.exec(text);
  if (parts === null) throw new Error(`"${text}" is no number of a netlist`);
  return Number(parts[1]) * (scales[parts[2]?.toLowerCase() ?? ''] ?? 1);
}

function nodeOf(name: string): string {
  return name === '0' ? ground : name;
}

function coilOf(coils: ReadonlyMap<string, Coil>, name: string): Coil {
  const found = coils.get(name);
  if (found === undefined) throw new Error(`no inductor ${name} before its coupling`);
  return found;
}

function signedAmplitude(amplitude: string, phaseDegrees = '0'): number {
  const sign = { '0': 1, '180': -1 }[phaseDegrees];
  if (sign === undefined) throw new Error(`a phase of ${phaseDegrees} degrees is not a sign`);
  return sign * spiceNumber(amplitude);
}
