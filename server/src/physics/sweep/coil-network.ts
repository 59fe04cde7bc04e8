/**
 * Coils that are joined and coupled, as a sweep between two points sees them: the admittance there and its slopes by all parameters. With
 * one volt across the probes let coil c have the voltage u and the current i, of the nodal equations with the coils' currents among the
 * unknowns. The circuit is reciprocal, so the slope of the admittance by anything is u² times that of an admittance that lies there, less
 * i² times that of an impedance in the way of i (B. D. H. Tellegen, Philips Research Reports 7 (1952) 259–269).
 */
import { type CoilForm, type CoilModel, coilModel, metalPartsOf, parametersOf } from './coil-form.ts';
import { type ComplexSystem, complexSystem } from './complex-system.ts';

/** A coil has parameters of its own, or shares those of others and differs from them by factors. */
export interface NetworkCoil {
  readonly set: number;
  readonly ohm: number;
  readonly henry: number;
  readonly farad: number;
}

/** Node 0 is the black probe, 1 the red one. */
export interface ProbedCircuit {
  readonly nodes: number;
  readonly coils: readonly { readonly coil: number; readonly start: number; readonly finish: number }[];
  /** The own cable in farad; what stands about a coil as a part of its capacitance; what only holds a coil in the air is what it is. */
  readonly capacitors: readonly {
    readonly from: number;
    readonly to: number;
    readonly farad: number;
    readonly scaledBy: 'cable' | 'nothing' | { readonly coil: number };
  }[];
}

export interface CoilsJoined {
  readonly coils: readonly NetworkCoil[];
  /** M = coupling · √(LₐL_b), from start to finish of both; times one parameter for all where that is free. */
  readonly pairs: readonly { readonly a: number; readonly b: number; readonly coupling: number }[];
  readonly isCouplingFree: boolean;
  /** One relative deviation of the own cable's capacitance; `undefined`: it is what it is said to be. */
  readonly cableSd: number | undefined;
  readonly circuits: readonly ProbedCircuit[];
  /**
   * Where the fit begins: of each form of loss that is tried the parameters of each set, and the factor on the coupling. Without it both are
   * looked for in the curves, of one coil.
   */
  readonly start?: {
    readonly forms: readonly { readonly form: CoilForm; readonly sets: readonly (readonly number[])[] }[];
    readonly couplings: readonly number[];
  };
}

export const withoutSurroundings = (joined: CoilsJoined): CoilsJoined => ({
  ...joined,
  circuits: joined.circuits.map(({ capacitors, ...circuit }) => ({
    ...circuit,
    capacitors: capacitors.filter(({ scaledBy }) => typeof scaledBy !== 'object'),
  })),
});

/** One coil between the probes. */
export const ONE_COIL: CoilsJoined = {
  coils: [{ set: 0, ohm: 1, henry: 1, farad: 1 }],
  pairs: [],
  isCouplingFree: false,
  cableSd: undefined,
  circuits: [{ nodes: 2, coils: [{ coil: 0, start: 1, finish: 0 }], capacitors: [] }],
};

/** Where the parameters stand: set by set those of a coil, then coupling, the reach of the metal, and the cable. */
export interface NetworkParameters {
  readonly sets: number;
  readonly ofSet: number;
  readonly couplingAt: number;
  /** Of two coils: how much of each part of the first one's metal lies about the second, against the first; then the other way. */
  readonly reachAt: number;
  readonly reaches: number;
  /** Factor on all that stands about the coils. */
  readonly aboutAt: number;
  readonly cableAt: number;
  readonly count: number;
}

export function networkParameters(form: CoilForm, joined: CoilsJoined): NetworkParameters {
  const sets = joined.coils.reduce((most, { set }) => Math.max(most, set + 1), 0);
  const ofSet = parametersOf(form);
  let count = sets * ofSet;
  const next = (howMany: number) => {
    count += howMany;
    return howMany > 0 ? count - howMany : -1;
  };
  const couplingAt = next(joined.isCouplingFree ? 1 : 0);
  const reaches = joined.pairs.length === 1 ? 2 * metalPartsOf(form) : 0;
  const reachAt = next(reaches);
  const hasAbout = joined.circuits.some(({ capacitors }) =>
    capacitors.some(({ scaledBy }) => typeof scaledBy === 'object'),
  );
  const aboutAt = next(hasAbout ? 1 : 0);
  const cableAt = next(joined.cableSd === undefined ? 0 : 1);
  return { sets, ofSet, couplingAt, reachAt, reaches, aboutAt, cableAt, count };
}

export interface CoilNetwork extends NetworkParameters {
  /** Siemens, real and imaginary part; slopes two numbers a parameter. */
  readonly admittance: Float64Array;
  readonly slopes: Float64Array;
  readonly models: readonly CoilModel[];
  /** Of each coil from its start to its finish for one volt from red to black, two numbers a coil. */
  readonly currents: Float64Array;
  take(values: ArrayLike<number>): void;
  /** `copper`: factor on the resistances. `isDc`: without all that lies across. */
  at(circuit: number, hz: number, copper: number, withSlopes: boolean, isDc?: boolean): void;
}

export function coilNetwork(form: CoilForm, joined: CoilsJoined): CoilNetwork {
  const parameters = networkParameters(form, joined);
  const { ofSet, couplingAt, reachAt, reaches, aboutAt, cableAt, count } = parameters;
  const models = joined.coils.map((factors) => coilModel(form, factors));
  const starts = joined.coils.map(({ set }) => set * ofSet);
  const admittance = new Float64Array(2);
  const slopes = new Float64Array(2 * count);
  const currents = new Float64Array(2 * models.length);
  const circuits = joined.circuits.map((circuit) => placed(circuit, joined.pairs));
  /** A logarithm: of the cable, or of the coil that something stands about. */
  const parameterOf = ({ scaledBy }: Capacitor) =>
    scaledBy === 'cable' ? cableAt : scaledBy === 'nothing' ? -1 : (starts[scaledBy.coil] as number) + 2;
  const factorOf = ({ scaledBy }: Capacitor) =>
    typeof scaledBy === 'object' ? (joined.coils[scaledBy.coil]?.farad ?? 1) : 1;
  let coupling = 1;
  let about = 1;
  const reach = new Float64Array(reaches);
  const parts = reaches / 2;
  /** Share of each coil's inductance that the other one's metal takes. */
  const fromOther = new Float64Array(2 * models.length);

  const addSlope = (at: number, re: number, im: number) => {
    slopes[2 * at] = (slopes[2 * at] as number) + re;
    slopes[2 * at + 1] = (slopes[2 * at + 1] as number) + im;
  };
  /** Of some of a coil's parameters, times a weight. */
  const addSlopes = (from: Float64Array, coil: number, first: number, after: number, wRe: number, wIm: number) => {
    const start = starts[coil] as number;
    for (let at = first; at < after; at++) {
      const re = from[2 * at] as number;
      const im = from[2 * at + 1] as number;
      if (re !== 0 || im !== 0) addSlope(start + at, re * wRe - im * wIm, re * wIm + im * wRe);
    }
  };

  const alone = (coil: number, withSlopes: boolean, isDc: boolean) => {
    const { series, shunt, seriesSlopes, shuntSlopes } = models[coil] as CoilModel;
    const re = series[0] as number;
    const im = series[1] as number;
    const square = re * re + im * im;
    const iRe = re / square;
    const iIm = -im / square;
    currents[2 * coil] = iRe;
    currents[2 * coil + 1] = iIm;
    admittance[0] = iRe + (isDc ? 0 : (shunt[0] as number));
    admittance[1] = iIm + (isDc ? 0 : (shunt[1] as number));
    if (!withSlopes) return;
    addSlopes(seriesSlopes, coil, 0, ofSet, iIm * iIm - iRe * iRe, -2 * iRe * iIm);
    if (!isDc) addSlopes(shuntSlopes, coil, 0, ofSet, 1, 0);
  };

  let intoRe = 0;
  let intoIm = 0;
  let uRe = 0;
  let uIm = 0;
  /** The voltage of what lies across two nodes, and what flows through it into the red probe; a probe has the volts of its number. */
  const across = ({ re, im }: ComplexSystem, size: number, from: number, to: number, yRe: number, yIm: number) => {
    uRe = (from >= 2 ? (re[size + from - 2] as number) : from) - (to >= 2 ? (re[size + to - 2] as number) : to);
    uIm = (from >= 2 ? (im[size + from - 2] as number) : 0) - (to >= 2 ? (im[size + to - 2] as number) : 0);
    const sign = from === 1 ? 1 : to === 1 ? -1 : 0;
    intoRe += sign * (yRe * uRe - yIm * uIm);
    intoIm += sign * (yRe * uIm + yIm * uRe);
  };

  /** The coils' currents come first among the unknowns, then the voltages of inner nodes, in equations that are symmetric. */
  const solved = (circuit: PlacedCircuit, omega: number, withSlopes: boolean, isDc: boolean) => {
    const { coils, capacitors, farads, wholes, pairs, system } = circuit;
    const { re: xRe, im: xIm } = system;
    const size = coils.length;
    system.clear();
    for (let row = 0; row < size; row++) {
      const { coil, start, finish } = coils[row] as PlacedCoil;
      const { series, shunt } = models[coil] as CoilModel;
      const reactance = omega * (models[coil] as CoilModel).henry;
      system.add(
        row,
        row,
        (series[0] as number) + reactance * (fromOther[2 * coil + 1] as number),
        (series[1] as number) - reactance * (fromOther[2 * coil] as number),
      );
      if (start === 1) system.addRight(row, 1, 0);
      else if (start >= 2) system.add(row, size + start - 2, -1, 0);
      if (finish === 1) system.addRight(row, -1, 0);
      else if (finish >= 2) system.add(row, size + finish - 2, 1, 0);
      putAcross(
        system,
        size,
        start,
        finish,
        isDc ? 0 : (shunt[0] as number),
        isDc ? NEARLY_NOTHING : (shunt[1] as number),
      );
    }
    for (let at = 0; at < pairs.length; at++) {
      const { rowA, rowB, a, b, coupling: k } = pairs[at] as PlacedPair;
      const first = models[a] as CoilModel;
      const second = models[b] as CoilModel;
      let re = 0;
      let im = k * coupling;
      for (let part = 0; part < parts; part++) {
        const toSecond = reach[part] as number;
        const toFirst = reach[parts + part] as number;
        im -= toSecond * (first.taken[2 * part] as number) + toFirst * (second.taken[2 * part] as number);
        re += toSecond * (first.taken[2 * part + 1] as number) + toFirst * (second.taken[2 * part + 1] as number);
      }
      const reactance = omega * Math.sqrt(first.henry * second.henry);
      system.add(rowA, rowB, reactance * re, reactance * im);
    }
    for (let at = 0; at < capacitors.length; at++) {
      const { from, to } = capacitors[at] as Capacitor;
      putAcross(system, size, from, to, 0, isDc ? NEARLY_NOTHING : omega * (farads[at] as number));
    }
    system.solve();
    intoRe = 0;
    intoIm = 0;
    for (let row = 0; row < size; row++) {
      const { coil, start, finish } = coils[row] as PlacedCoil;
      const { shunt, seriesSlopes, shuntSlopes } = models[coil] as CoilModel;
      const iRe = xRe[row] as number;
      const iIm = xIm[row] as number;
      currents[2 * coil] = iRe;
      currents[2 * coil + 1] = iIm;
      const sign = start === 1 ? 1 : finish === 1 ? -1 : 0;
      intoRe += sign * iRe;
      intoIm += sign * iIm;
      if (withSlopes) {
        addSlopes(seriesSlopes, coil, 0, ofSet, iIm * iIm - iRe * iRe, -2 * iRe * iIm);
        if (reaches > 0) addSlopesOfOther(coil, omega, iIm * iIm - iRe * iRe, -2 * iRe * iIm);
      }
      if (isDc) continue;
      across(system, size, start, finish, shunt[0] as number, shunt[1] as number);
      if (withSlopes) addSlopes(shuntSlopes, coil, 0, ofSet, uRe * uRe - uIm * uIm, 2 * uRe * uIm);
    }
    if (!isDc)
      for (let at = 0; at < capacitors.length; at++) {
        const capacitor = capacitors[at] as Capacitor;
        const susceptance = omega * (farads[at] as number);
        across(system, size, capacitor.from, capacitor.to, 0, susceptance);
        const parameter = parameterOf(capacitor);
        if (!withSlopes || parameter < 0) continue;
        const squareRe = uRe * uRe - uIm * uIm;
        addSlope(parameter, -2 * susceptance * uRe * uIm, susceptance * squareRe);
        if (typeof capacitor.scaledBy !== 'object') continue;
        const whole = omega * (wholes[at] as number);
        addSlope(aboutAt, -2 * whole * uRe * uIm, whole * squareRe);
      }
    admittance[0] = intoRe;
    admittance[1] = intoIm;
    if (withSlopes)
      for (let at = 0; at < pairs.length; at++) addCouplingSlopes(pairs[at] as PlacedPair, omega, xRe, xIm);
  };

  /** What the other coil's metal takes of a coil, its current squared as a weight. */
  const addSlopesOfOther = (coil: number, omega: number, weightRe: number, weightIm: number) => {
    const { henry } = models[coil] as CoilModel;
    const other = 1 - coil;
    const { taken, takenSlopes } = models[other] as CoilModel;
    // −jωL.
    const wRe = omega * henry * weightIm;
    const wIm = -omega * henry * weightRe;
    const allRe = fromOther[2 * coil] as number;
    const allIm = fromOther[2 * coil + 1] as number;
    addSlope((starts[coil] as number) + 1, allRe * wRe - allIm * wIm, allRe * wIm + allIm * wRe);
    for (let part = 0; part < parts; part++) {
      const at = other * parts + part;
      const share = reach[at] as number;
      const re = 2 * share * (taken[2 * part] as number);
      const im = 2 * share * (taken[2 * part + 1] as number);
      addSlope(reachAt + at, re * wRe - im * wIm, re * wIm + im * wRe);
      addSlopes(takenSlopes, other, 3 + 2 * part, 5 + 2 * part, share * share * wRe, share * share * wIm);
    }
  };

  /** Both currents meet the mutual inductance once. */
  const addCouplingSlopes = (pair: PlacedPair, omega: number, xRe: Float64Array, xIm: Float64Array) => {
    const { rowA, rowB, a, b, coupling: k } = pair;
    const first = models[a] as CoilModel;
    const second = models[b] as CoilModel;
    const reactance = omega * Math.sqrt(first.henry * second.henry);
    const aRe = xRe[rowA] as number;
    const aIm = xIm[rowA] as number;
    const bRe = xRe[rowB] as number;
    const bIm = xIm[rowB] as number;
    // −2 iₐ i_b · j · reactance.
    const wRe = 2 * reactance * (aRe * bIm + aIm * bRe);
    const wIm = -2 * reactance * (aRe * bRe - aIm * bIm);
    let re = k * coupling;
    let im = 0;
    for (let at = 0; at < reaches; at++) {
      const part = at % parts;
      const model = at < parts ? first : second;
      const share = reach[at] as number;
      const takenRe = model.taken[2 * part] as number;
      const takenIm = model.taken[2 * part + 1] as number;
      re -= share * takenRe;
      im -= share * takenIm;
      addSlope(reachAt + at, -(takenRe * wRe - takenIm * wIm), -(takenRe * wIm + takenIm * wRe));
      addSlopes(model.takenSlopes, at < parts ? a : b, 3 + 2 * part, 5 + 2 * part, -share * wRe, -share * wIm);
    }
    // Half of it goes with each inductance.
    const byRe = (re * wRe - im * wIm) / 2;
    const byIm = (re * wIm + im * wRe) / 2;
    addSlope((starts[a] as number) + 1, byRe, byIm);
    addSlope((starts[b] as number) + 1, byRe, byIm);
    if (couplingAt >= 0) addSlope(couplingAt, k * wRe, k * wIm);
  };

  return {
    ...parameters,
    admittance,
    slopes,
    models,
    currents,
    take: (values) => {
      models.forEach((model, coil) => {
        model.take(values, starts[coil] as number);
      });
      if (couplingAt >= 0) coupling = values[couplingAt] as number;
      for (let at = 0; at < reaches; at++) reach[at] = values[reachAt + at] as number;
      if (aboutAt >= 0) about = values[aboutAt] as number;
      for (const { capacitors, farads, wholes } of circuits)
        capacitors.forEach((capacitor, at) => {
          const parameter = parameterOf(capacitor);
          wholes[at] =
            capacitor.farad * (parameter < 0 ? 1 : Math.exp(values[parameter] as number)) * factorOf(capacitor);
          farads[at] = (wholes[at] as number) * (typeof capacitor.scaledBy === 'object' ? about : 1);
        });
    },
    at: (index, hz, copper, withSlopes, isDc = false) => {
      const circuit = circuits[index] as PlacedCircuit;
      if (withSlopes) slopes.fill(0);
      if (reaches === 0) for (const { coil } of circuit.coils) (models[coil] as CoilModel).at(hz, copper);
      else {
        for (const model of models) model.at(hz, copper);
        for (let coil = 0; coil < 2; coil++) {
          const { taken } = models[1 - coil] as CoilModel;
          fromOther[2 * coil] = 0;
          fromOther[2 * coil + 1] = 0;
          for (let part = 0; part < parts; part++) {
            const square = (reach[(1 - coil) * parts + part] as number) ** 2;
            fromOther[2 * coil] = (fromOther[2 * coil] as number) + square * (taken[2 * part] as number);
            fromOther[2 * coil + 1] = (fromOther[2 * coil + 1] as number) + square * (taken[2 * part + 1] as number);
          }
        }
      }
      if (circuit.only >= 0 && reaches === 0) alone(circuit.only, withSlopes, isDc);
      else solved(circuit, 2 * Math.PI * hz, withSlopes, isDc);
    },
  };
}

/** At 0 Hz an end that only capacitors hold would float. */
const NEARLY_NOTHING = 1e-15;

type Capacitor = ProbedCircuit['capacitors'][number];
type PlacedCoil = ProbedCircuit['coils'][number];

interface PlacedPair {
  readonly a: number;
  readonly b: number;
  readonly rowA: number;
  readonly rowB: number;
  readonly coupling: number;
}

interface PlacedCircuit {
  readonly coils: readonly PlacedCoil[];
  readonly capacitors: ProbedCircuit['capacitors'];
  readonly farads: Float64Array;
  /** Those of what stands about the coils without its common factor. */
  readonly wholes: Float64Array;
  readonly pairs: readonly PlacedPair[];
  readonly system: ComplexSystem;
  /** The coil that lies there alone, else −1. */
  readonly only: number;
}

/** Rows go by the numbers of the coils, so that the first of each pair is the one that its reaches are counted from. */
function placed({ nodes, coils: asLaid, capacitors }: ProbedCircuit, all: CoilsJoined['pairs']): PlacedCircuit {
  const coils = asLaid.toSorted((one, other) => one.coil - other.coil);
  const rowOf = (coil: number) => coils.findIndex((each) => each.coil === coil);
  const pairs = all.flatMap((pair) => {
    const [rowA, rowB] = [rowOf(pair.a), rowOf(pair.b)];
    return rowA < 0 || rowB < 0 ? [] : [{ ...pair, rowA, rowB }];
  });
  return {
    coils,
    capacitors,
    farads: new Float64Array(capacitors.length),
    wholes: new Float64Array(capacitors.length),
    pairs,
    system: complexSystem(coils.length + nodes - 2),
    only: coils.length === 1 && nodes === 2 && capacitors.length === 0 ? (coils[0]?.coil ?? -1) : -1,
  };
}

/** An admittance between two nodes: what leaves an inner one, with the other sign, so that the equations are symmetric. */
function putAcross(system: ComplexSystem, size: number, from: number, to: number, re: number, im: number): void {
  if (from >= 2) system.add(size + from - 2, size + from - 2, -re, -im);
  if (to >= 2) system.add(size + to - 2, size + to - 2, -re, -im);
  if (from >= 2 && to >= 2) system.add(size + Math.min(from, to) - 2, size + Math.max(from, to) - 2, re, im);
  else if (from >= 2 && to === 1) system.addRight(size + from - 2, -re, -im);
  else if (to >= 2 && from === 1) system.addRight(size + to - 2, -re, -im);
}
