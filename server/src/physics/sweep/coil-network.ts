/**
 * Coils that are joined and coupled, as a sweep between two points sees them: the admittance there and its slopes by all parameters. With
 * one volt across the probes let coil c have the voltage u and the current i, of the nodal equations with the coils' currents among the
 * unknowns. The circuit is reciprocal, so the slope of the admittance by anything is u² times that of an admittance that lies there, less
 * i² times that of an impedance in the way of i (B. D. H. Tellegen, Philips Research Reports 7 (1952) 259–269).
 */
import { type CoilForm, type CoilModel, coilModel, metalPartsOf, parametersOf } from './coil-form.ts';
import { type ComplexSystem, complexSystem } from './complex-system.ts';
import type { Noise } from './scatter.ts';

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
  readonly pairs: readonly {
    readonly a: number;
    readonly b: number;
    readonly coupling: number;
    /** Metal of either lies about the other as well. */
    readonly isMetalShared: boolean;
  }[];
  readonly isCouplingFree: boolean;
  /** One relative deviation of the own cable's capacitance; `undefined`: it is what it is said to be. */
  readonly cableSd: number | undefined;
  readonly circuits: readonly ProbedCircuit[];
  /**
   * Where the fit begins: of each form of loss that is tried the parameters of each set, the factor on the coupling, and the scatter of
   * each curve. Without it all are looked for in the curves, of one coil.
   */
  readonly start?: {
    readonly forms: readonly { readonly form: CoilForm; readonly sets: readonly (readonly number[])[] }[];
    readonly couplings: readonly number[];
    readonly noise: readonly Noise[];
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
  /**
   * Pair by pair of those that share metal: how much of each part of the first one's metal lies about the second, against the first; then
   * the other way.
   */
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
  const reaches = 2 * metalPartsOf(form) * joined.pairs.filter(({ isMetalShared }) => isMetalShared).length;
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
  /** How much of a part of a coil's metal lies about a coil, as it was taken: 1 of its own. */
  reachOf(from: number, to: number, part: number): number;
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
  /** A logarithm: of the cable, or of the coil that something stands about. */
  const parameterOf = ({ scaledBy }: Capacitor) =>
    scaledBy === 'cable' ? cableAt : scaledBy === 'nothing' ? -1 : (starts[scaledBy.coil] as number) + 2;
  const factorOf = ({ scaledBy }: Capacitor) =>
    typeof scaledBy === 'object' ? (joined.coils[scaledBy.coil]?.farad ?? 1) : 1;
  let coupling = 1;
  let about = 1;
  const reach = new Float64Array(reaches);
  const howMany = models.length;
  const parts = reaches > 0 ? metalPartsOf(form) : 0;
  /** Where the reaches of one coil's metal to another coil begin; −1 where it has none. */
  const reachFrom = new Int32Array(howMany * howMany).fill(-1);
  joined.pairs
    .filter(({ isMetalShared }) => isMetalShared)
    .forEach(({ a, b }, at) => {
      reachFrom[a * howMany + b] = 2 * parts * at;
      reachFrom[b * howMany + a] = 2 * parts * at + parts;
    });
  const reachOf = (from: number, to: number, part: number): number => {
    const first = reachFrom[from * howMany + to] as number;
    return from === to ? 1 : first < 0 ? 0 : (reach[first + part] as number);
  };

  const circuits = joined.circuits.map((circuit) =>
    placed(
      circuit,
      joined.pairs,
      howMany,
      (from, to) => from === to || (reachFrom[from * howMany + to] as number) >= 0,
    ),
  );

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

  let takenRe = 0;
  let takenIm = 0;
  /** Share of the inductance of a coil, or of what two have between them, that metal takes; of one coil not what its own metal does. */
  const takenOf = (one: number, other: number, metalOf: readonly number[]) => {
    takenRe = 0;
    takenIm = 0;
    for (let index = 0; index < metalOf.length; index++) {
      const from = metalOf[index] as number;
      if (one === other && from === one) continue;
      const { taken } = models[from] as CoilModel;
      for (let part = 0; part < parts; part++) {
        const share = reachOf(from, one, part) * reachOf(from, other, part);
        takenRe += share * (taken[2 * part] as number);
        takenIm += share * (taken[2 * part + 1] as number);
      }
    }
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
      const { coil, start, finish, metalOf } = coils[row] as PlacedCoil;
      const { series, shunt, henry } = models[coil] as CoilModel;
      takenOf(coil, coil, metalOf);
      system.add(
        row,
        row,
        (series[0] as number) + omega * henry * takenIm,
        (series[1] as number) - omega * henry * takenRe,
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
      const { rowA, rowB, a, b, metalOf, coupling: k } = pairs[at] as PlacedPair;
      const first = models[a] as CoilModel;
      const second = models[b] as CoilModel;
      const reactance = omega * Math.sqrt(first.henry * second.henry);
      takenOf(a, b, metalOf);
      system.add(rowA, rowB, reactance * takenIm, reactance * (k * coupling - takenRe));
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
    if (!withSlopes) return;
    for (let at = 0; at < pairs.length; at++) addCouplingSlopes(pairs[at] as PlacedPair, omega, xRe, xIm);
    if (reaches > 0) addMetalSlopes(circuit, omega);
  };

  /** Both currents meet the mutual inductance once; half of it goes with each inductance. */
  const addCouplingSlopes = (pair: PlacedPair, omega: number, xRe: Float64Array, xIm: Float64Array) => {
    const { rowA, rowB, a, b, coupling: k } = pair;
    const reactance = omega * Math.sqrt((models[a] as CoilModel).henry * (models[b] as CoilModel).henry);
    const aRe = xRe[rowA] as number;
    const aIm = xIm[rowA] as number;
    const bRe = xRe[rowB] as number;
    const bIm = xIm[rowB] as number;
    // −2 iₐ i_b · j · reactance · k.
    const wRe = 2 * k * reactance * (aRe * bIm + aIm * bRe);
    const wIm = -2 * k * reactance * (aRe * bRe - aIm * bIm);
    addSlope((starts[a] as number) + 1, (coupling * wRe) / 2, (coupling * wIm) / 2);
    addSlope((starts[b] as number) + 1, (coupling * wRe) / 2, (coupling * wIm) / 2);
    if (couplingAt >= 0) addSlope(couplingAt, wRe, wIm);
  };

  /**
   * A turn that has the coupling r √L with each coil takes jω · taken · (Σ r √L i)². What it takes of its own coil alone is among that one's
   * slopes.
   */
  const addMetalSlopes = ({ coils, metalOf }: PlacedCircuit, omega: number) => {
    for (const from of metalOf) {
      const { taken, takenSlopes } = models[from] as CoilModel;
      for (let part = 0; part < parts; part++) {
        let ownRe = 0;
        let ownIm = 0;
        let sumRe = 0;
        let sumIm = 0;
        for (let row = 0; row < coils.length; row++) {
          const { coil } = coils[row] as PlacedCoil;
          const share = reachOf(from, coil, part) * Math.sqrt((models[coil] as CoilModel).henry);
          const re = share * (currents[2 * coil] as number);
          const im = share * (currents[2 * coil + 1] as number);
          sumRe += re;
          sumIm += im;
          if (coil !== from) continue;
          ownRe = re;
          ownIm = im;
        }
        const squareRe = sumRe * sumRe - sumIm * sumIm - ownRe * ownRe + ownIm * ownIm;
        const squareIm = 2 * (sumRe * sumIm - ownRe * ownIm);
        addSlopes(takenSlopes, from, 3 + 2 * part, 5 + 2 * part, -omega * squareIm, omega * squareRe);
        // jω · taken.
        const wRe = -omega * (taken[2 * part + 1] as number);
        const wIm = omega * (taken[2 * part] as number);
        for (let row = 0; row < coils.length; row++) {
          const { coil } = coils[row] as PlacedCoil;
          const first = reachFrom[from * howMany + coil] as number;
          if (first < 0 && coil !== from) continue;
          const root = Math.sqrt((models[coil] as CoilModel).henry);
          const iRe = root * (currents[2 * coil] as number);
          const iIm = root * (currents[2 * coil + 1] as number);
          const bothRe = sumRe * iRe - sumIm * iIm;
          const bothIm = sumRe * iIm + sumIm * iRe;
          const share = reachOf(from, coil, part);
          const isOwn = coil === from;
          const goneRe = share * bothRe - (isOwn ? ownRe * ownRe - ownIm * ownIm : 0);
          const goneIm = share * bothIm - (isOwn ? 2 * ownRe * ownIm : 0);
          addSlope((starts[coil] as number) + 1, goneRe * wRe - goneIm * wIm, goneRe * wIm + goneIm * wRe);
          if (isOwn) continue;
          addSlope(reachAt + first + part, 2 * (bothRe * wRe - bothIm * wIm), 2 * (bothRe * wIm + bothIm * wRe));
        }
      }
    }
  };

  const last = new Float64Array(parameters.count).fill(Number.NaN);
  const hasTaken = (values: ArrayLike<number>): boolean => {
    let isSame = true;
    for (let at = 0; at < last.length; at++) {
      isSame &&= last[at] === values[at];
      last[at] = values[at] as number;
    }
    return isSame;
  };

  return {
    ...parameters,
    admittance,
    slopes,
    models,
    currents,
    reachOf,
    take: (values) => {
      // Numbers of one fit are asked for one after the other.
      if (hasTaken(values)) return;
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
      for (const coil of circuit.metalOf) (models[coil] as CoilModel).at(hz, copper);
      if (circuit.only >= 0 && reaches === 0) alone(circuit.only, withSlopes, isDc);
      else solved(circuit, 2 * Math.PI * hz, withSlopes, isDc);
    },
  };
}

/** At 0 Hz an end that only capacitors hold would float. */
const NEARLY_NOTHING = 1e-15;

type Capacitor = ProbedCircuit['capacitors'][number];

/** `metalOf`: the coils whose metal lies about this one, or about both of a pair, or about any of a circuit. */
type PlacedCoil = ProbedCircuit['coils'][number] & { readonly metalOf: readonly number[] };

interface PlacedPair {
  readonly a: number;
  readonly b: number;
  readonly rowA: number;
  readonly rowB: number;
  readonly coupling: number;
  readonly metalOf: readonly number[];
}

interface PlacedCircuit {
  readonly coils: readonly PlacedCoil[];
  readonly metalOf: readonly number[];
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
function placed(
  { nodes, coils: asLaid, capacitors }: ProbedCircuit,
  all: CoilsJoined['pairs'],
  howMany: number,
  liesAbout: (from: number, to: number) => boolean,
): PlacedCircuit {
  const everyCoil = [...Array(howMany).keys()];
  const coils = asLaid
    .toSorted((one, other) => one.coil - other.coil)
    .map((each) => ({ ...each, metalOf: everyCoil.filter((from) => liesAbout(from, each.coil)) }));
  const rowOf = (coil: number) => coils.findIndex((each) => each.coil === coil);
  const pairs = all.flatMap((pair) => {
    const [rowA, rowB] = [rowOf(pair.a), rowOf(pair.b)];
    const metalOf = everyCoil.filter((from) => liesAbout(from, pair.a) && liesAbout(from, pair.b));
    return rowA < 0 || rowB < 0 ? [] : [{ ...pair, rowA, rowB, metalOf }];
  });
  return {
    coils,
    metalOf: everyCoil.filter((from) => coils.some(({ coil }) => liesAbout(from, coil))),
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
