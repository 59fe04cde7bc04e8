/**
 * The components of the circuits, each remembered with its lines of a SPICE netlist: from the values it was made of, not from what it
 * writes into our equations, so that a simulator that reads the netlist checks the equations.
 */
import type { Component } from '../../server/src/physics/circuit/circuit.ts';
import * as coils from '../../server/src/physics/circuit/coil.ts';
import * as components from '../../server/src/physics/circuit/components.ts';
import * as pots from '../../server/src/physics/circuit/potentiometer.ts';

export interface SpiceNames {
  readonly nets: readonly string[];
  readonly label: string;
  readonly referred: readonly string[];
  /** The value of the component's source; 0 where none is given. */
  readonly sourceValue: number;
  /** Those of the components that it refers to. */
  readonly referredValues: readonly number[];
}

type Lines = (names: SpiceNames) => readonly string[];

const linesOf = new WeakMap<Component, Lines>();

function withLines<C extends Component>(component: C, lines: Lines): C {
  linesOf.set(component, lines);
  return component;
}

/** A component that was made elsewhere has none, which no netlist may hide. */
export function spiceLines(component: Component, names: SpiceNames): readonly string[] {
  const lines = linesOf.get(component);
  if (!lines) throw new Error(`${component.name} was not made here`);
  return lines(names);
}

const nothing: Lines = () => [];

export const wire = (values: components.Between): Component => withLines(components.wire(values), nothing);

export const resistor = (values: components.Between & { readonly ohm: number }): Component =>
  withLines(
    components.resistor(values),
    values.ohm === 0 || values.ohm === Number.POSITIVE_INFINITY ? nothing : resistorLine(values.ohm),
  );

const resistorLine =
  (ohm: number): Lines =>
  ({ label, nets }) => [`R${label} ${nets[0]} ${nets[1]} ${ohm}`];

export const capacitor = (values: components.Between & { readonly farad: number }): Component =>
  withLines(
    components.capacitor(values),
    values.farad === 0 ? nothing : ({ label, nets }) => [`C${label} ${nets[0]} ${nets[1]} ${values.farad}`],
  );

export const currentSource = (values: components.Between): Component =>
  withLines(components.currentSource(values), ({ label, nets, sourceValue }) => [
    `I${label} ${nets[0]} ${nets[1]} dc 0 ac ${sourceValue}`,
  ]);

export const coil = (values: coils.CoilValues): coils.Coil =>
  withLines(coils.coil(values), (names) => coilLines(values, names, names.sourceValue));

export const inductor = (values: Parameters<typeof coils.inductor>[0]): coils.Coil =>
  withLines(coils.inductor(values), (names) => {
    const { name, from, to, henry, ohm = 0 } = values;
    return coilLines({ name, start: from, finish: to, henry, ohm }, names, undefined);
  });

export const coupling = (name: string, a: coils.Coil, b: coils.Coil, k: number): Component =>
  withLines(coils.coupling(name, a, b, k), ({ label, referred: [first, second] }) =>
    k * Math.sqrt(a.henry * b.henry) === 0 ? [] : [`K${label} L${first} L${second} ${k}`],
  );

/** The turn as a loop of its own; what drives it is the sum of what the coils' sources make in it. */
export const shortedTurn = (values: coils.ShortedTurn): Component =>
  withLines(coils.shortedTurn(values), ({ label, referred, referredValues }) => {
    const coupled = values.beside.filter(({ coil }) => coil.henry > 0);
    const driven = coupled.reduce(
      (sum, { coil, drive }, index) => sum + (drive / Math.sqrt(coil.henry)) * (referredValues[index] ?? 0),
      0,
    );
    return [
      `V${label} ${label}__e 0 dc 0 ac ${driven}`,
      `L${label} ${label}__e ${label}__w 1`,
      `R${label} ${label}__w 0 ${2 * Math.PI * values.cornerHz}`,
      ...coupled.map(({ coupling: k }, index) => `K${label}__${index + 1} L${referred[index]} L${label} ${k}`),
    ];
  });

export function potentiometer(values: Parameters<typeof pots.potentiometer>[0]): Component {
  const { trackOhm, endOhm = 0 } = values;
  const lowerOhm = pots.wiperFraction(values.taper, values.rotation) * trackOhm;
  const part = (ohm: number, label: string, nets: readonly string[]) =>
    ohm === 0 ? [] : [`R${label} ${nets[0]} ${nets[1]} ${ohm}`];
  return withLines(pots.potentiometer(values), ({ label, nets }) => [
    ...part(trackOhm - lowerOhm + endOhm, `${label}__upper`, nets.slice(0, 2)),
    ...part(lowerOhm + endOhm, `${label}__lower`, nets.slice(1, 3)),
  ]);
}

export function rheostat(values: Parameters<typeof pots.rheostat>[0]): Component {
  const { name, from, to, trackOhm, taper, rotation, endOhm = 0 } = values;
  return resistor({ name, from, to, ohm: pots.wiperFraction(taper, rotation) * trackOhm + endOhm });
}

function coilLines(
  { ohm, henry, farad = 0 }: coils.CoilValues,
  { label, nets: [start = '0', finish = '0'] }: SpiceNames,
  sourceValue: number | undefined,
): readonly string[] {
  const behindSource = sourceValue === undefined ? start : `${label}__e`;
  const beforeWire = ohm === 0 ? finish : `${label}__w`;
  return [
    ...(sourceValue === undefined ? [] : [`V${label} ${behindSource} ${start} dc 0 ac ${sourceValue}`]),
    `L${label} ${behindSource} ${beforeWire} ${henry}`,
    ...(ohm === 0 ? [] : [`R${label} ${beforeWire} ${finish} ${ohm}`]),
    ...(farad === 0 ? [] : [`C${label} ${start} ${finish} ${farad}`]),
  ];
}
