/**
 * Coils that are joined and coupled, as a sweep between two points sees them: the admittance there and its slopes by all parameters. With
 * one volt across the probes let coil c have the voltage u and the current i, of the nodal equations with the coils' currents among the
 * unknowns. The circuit is reciprocal, so the slope of the admittance by anything is u² times that of an admittance that lies there, less
 * i² times that of an impedance in the way of i (B. D. H. Tellegen, Philips Research Reports 7 (1952) 259–269).
 */
import { type CoilForm, type CoilModel, coilModel, parametersOf } from './coil-form.ts';

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
  /** `scaledBy`: the parameter of the own cable, or the capacitance of a coil that this one goes with. */
  readonly capacitors: readonly {
    readonly from: number;
    readonly to: number;
    readonly farad: number;
    readonly scaledBy: 'cable' | { readonly coil: number };
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
  /** Of each set ln R, ln L and ln C, and the factor on the coupling; without it they are looked for in the first curve, of one coil. */
  readonly start?: { readonly sets: readonly (readonly number[])[]; readonly coupling: number };
}

/** One coil between the probes. */
export const ONE_COIL: CoilsJoined = {
  coils: [{ set: 0, ohm: 1, henry: 1, farad: 1 }],
  pairs: [],
  isCouplingFree: false,
  cableSd: undefined,
  circuits: [{ nodes: 2, coils: [{ coil: 0, start: 1, finish: 0 }], capacitors: [] }],
};

/** Where the parameters stand: set by set those of a coil, then coupling, what metal takes of it, and the cable. */
export interface NetworkParameters {
  readonly sets: number;
  readonly ofSet: number;
  readonly couplingAt: number;
  readonly sharedMetalAt: number;
  readonly cableAt: number;
  readonly count: number;
}

export function networkParameters(form: CoilForm, joined: CoilsJoined): NetworkParameters {
  const sets = joined.coils.reduce((most, { set }) => Math.max(most, set + 1), 0);
  const ofSet = parametersOf(form);
  let count = sets * ofSet;
  const next = (isThere: boolean) => (isThere ? count++ : -1);
  const couplingAt = next(joined.isCouplingFree);
  const sharedMetalAt = next(joined.isCouplingFree && ofSet > 3);
  const cableAt = next(joined.cableSd !== undefined);
  return { sets, ofSet, couplingAt, sharedMetalAt, cableAt, count };
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
  const { ofSet, couplingAt, sharedMetalAt, cableAt, count } = parameters;
  const models = joined.coils.map((factors) => coilModel(form, factors));
  const starts = joined.coils.map(({ set }) => set * ofSet);
  const most = joined.pairs.reduce((high, { coupling }) => Math.max(high, Math.abs(coupling)), 0);
  const pairs = joined.pairs.map((pair) => ({ ...pair, weight: most > 0 ? pair.coupling / most : 1 }));
  const admittance = new Float64Array(2);
  const slopes = new Float64Array(2 * count);
  const currents = new Float64Array(2 * models.length);
  const solvers = joined.circuits.map(({ nodes, coils }) => complexSystem(coils.length + nodes - 2));
  const farads = joined.circuits.map(({ capacitors }) => new Float64Array(capacitors.length));
  let [coupling, sharedMetal] = [1, 0];

  const addSlopes = (from: Float64Array, start: number, wRe: number, wIm: number) => {
    for (let at = 0; at < 2 * ofSet; at += 2) {
      const re = from[at] as number;
      const im = from[at + 1] as number;
      if (re === 0 && im === 0) continue;
      addSlope(2 * start + at, re * wRe - im * wIm, re * wIm + im * wRe);
    }
  };
  const addSlope = (at: number, re: number, im: number) => {
    slopes[at] = (slopes[at] as number) + re;
    slopes[at + 1] = (slopes[at + 1] as number) + im;
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
    addSlopes(seriesSlopes, starts[coil] as number, iIm * iIm - iRe * iRe, -2 * iRe * iIm);
    if (!isDc) addSlopes(shuntSlopes, starts[coil] as number, 1, 0);
  };

  const solved = (index: number, omega: number, withSlopes: boolean, isDc: boolean) => {
    const { coils, capacitors } = joined.circuits[index] as ProbedCircuit;
    const system = solvers[index] as ComplexSystem;
    system.clear();
    const size = coils.length;
    const across = (from: number, to: number, re: number, im: number) => {
      // What leaves an inner node, and, to keep the equations symmetric, with the other sign.
      for (const [node, other] of [
        [from, to],
        [to, from],
      ] as const) {
        if (node < 2) continue;
        system.add(size + node - 2, size + node - 2, -re, -im);
        if (other >= 2) system.add(size + node - 2, size + other - 2, re, im);
        else if (other === 1) system.addRight(size + node - 2, -re, -im);
      }
    };
    coils.forEach(({ coil, start, finish }, row) => {
      const { series, shunt } = models[coil] as CoilModel;
      system.add(row, row, series[0] as number, series[1] as number);
      for (const [node, sign] of [
        [start, -1],
        [finish, 1],
      ] as const) {
        if (node === 1) system.addRight(row, -sign, 0);
        if (node < 2) continue;
        system.add(row, size + node - 2, sign, 0);
        system.add(size + node - 2, row, sign, 0);
      }
      if (isDc) across(start, finish, 0, NEARLY_NOTHING);
      else across(start, finish, shunt[0] as number, shunt[1] as number);
    });
    for (const { a, b, coupling: k, weight } of pairs) {
      const [rowA, rowB] = [rowOf(coils, a), rowOf(coils, b)];
      if (rowA < 0 || rowB < 0) continue;
      const [first, second] = [models[a] as CoilModel, models[b] as CoilModel];
      const reactance = omega * Math.sqrt(first.henry * second.henry);
      const shared = (sharedMetal * weight) / 2;
      const lostRe = shared * ((first.taken[0] as number) + (second.taken[0] as number));
      const lostIm = shared * ((first.taken[1] as number) + (second.taken[1] as number));
      const [re, im] = [reactance * lostIm, reactance * (k * coupling - lostRe)];
      system.add(rowA, rowB, re, im);
      system.add(rowB, rowA, re, im);
    }
    capacitors.forEach(({ from, to }, at) => {
      if (!isDc) across(from, to, 0, omega * ((farads[index] as Float64Array)[at] as number));
    });
    system.solve();
    const { re: xRe, im: xIm } = system;
    const voltage = (node: number, part: Float64Array) =>
      node >= 2 ? (part[size + node - 2] as number) : node === 1 && part === xRe ? 1 : 0;
    // u·u of what lies between two nodes, and what flows into the red probe through it.
    let [intoRe, intoIm, squareRe, squareIm] = [0, 0, 0, 0];
    const through = (from: number, to: number, re: number, im: number) => {
      const [uRe, uIm] = [voltage(from, xRe) - voltage(to, xRe), voltage(from, xIm) - voltage(to, xIm)];
      squareRe = uRe * uRe - uIm * uIm;
      squareIm = 2 * uRe * uIm;
      const sign = from === 1 ? 1 : to === 1 ? -1 : 0;
      intoRe += sign * (re * uRe - im * uIm);
      intoIm += sign * (re * uIm + im * uRe);
    };
    coils.forEach(({ coil, start, finish }, row) => {
      const { shunt, seriesSlopes, shuntSlopes } = models[coil] as CoilModel;
      const [iRe, iIm] = [xRe[row] as number, xIm[row] as number];
      currents[2 * coil] = iRe;
      currents[2 * coil + 1] = iIm;
      const sign = start === 1 ? 1 : finish === 1 ? -1 : 0;
      intoRe += sign * iRe;
      intoIm += sign * iIm;
      if (withSlopes) addSlopes(seriesSlopes, starts[coil] as number, iIm * iIm - iRe * iRe, -2 * iRe * iIm);
      if (isDc) return;
      through(start, finish, shunt[0] as number, shunt[1] as number);
      if (withSlopes) addSlopes(shuntSlopes, starts[coil] as number, squareRe, squareIm);
    });
    if (!isDc)
      capacitors.forEach(({ from, to, scaledBy }, at) => {
        const susceptance = omega * ((farads[index] as Float64Array)[at] as number);
        through(from, to, 0, susceptance);
        const parameter = scaledBy === 'cable' ? cableAt : (starts[scaledBy.coil] as number) + 2;
        if (withSlopes && parameter >= 0) addSlope(2 * parameter, -susceptance * squareIm, susceptance * squareRe);
      });
    admittance[0] = intoRe;
    admittance[1] = intoIm;
    if (withSlopes) addCouplingSlopes(coils, omega, xRe, xIm);
  };

  /** Both currents meet the mutual inductance once. */
  const addCouplingSlopes = (coils: ProbedCircuit['coils'], omega: number, xRe: Float64Array, xIm: Float64Array) => {
    for (const { a, b, coupling: k, weight } of pairs) {
      const [rowA, rowB] = [rowOf(coils, a), rowOf(coils, b)];
      if (rowA < 0 || rowB < 0) continue;
      const [first, second] = [models[a] as CoilModel, models[b] as CoilModel];
      const reactance = omega * Math.sqrt(first.henry * second.henry);
      const [aRe, aIm, bRe, bIm] = [xRe[rowA], xIm[rowA], xRe[rowB], xIm[rowB]] as [number, number, number, number];
      // −2 iₐ i_b · j · reactance.
      const wRe = 2 * reactance * (aRe * bIm + aIm * bRe);
      const wIm = -2 * reactance * (aRe * bRe - aIm * bIm);
      const meanRe = (weight / 2) * ((first.taken[0] as number) + (second.taken[0] as number));
      const meanIm = (weight / 2) * ((first.taken[1] as number) + (second.taken[1] as number));
      const re = k * coupling - sharedMetal * meanRe;
      const im = -sharedMetal * meanIm;
      for (const coil of [a, b]) {
        const start = starts[coil] as number;
        addSlope(2 * (start + 1), (re * wRe - im * wIm) / 2, (re * wIm + im * wRe) / 2);
        const shared = (-sharedMetal * weight) / 2;
        if (shared !== 0) addSlopes((models[coil] as CoilModel).takenSlopes, start, shared * wRe, shared * wIm);
      }
      if (couplingAt >= 0) addSlope(2 * couplingAt, k * wRe, k * wIm);
      if (sharedMetalAt >= 0)
        addSlope(2 * sharedMetalAt, -(meanRe * wRe - meanIm * wIm), -(meanRe * wIm + meanIm * wRe));
    }
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
      if (sharedMetalAt >= 0) sharedMetal = values[sharedMetalAt] as number;
      joined.circuits.forEach(({ capacitors }, index) => {
        capacitors.forEach(({ farad, scaledBy }, at) => {
          const parameter = scaledBy === 'cable' ? cableAt : (starts[scaledBy.coil] as number) + 2;
          (farads[index] as Float64Array)[at] = farad * (parameter < 0 ? 1 : Math.exp(values[parameter] as number));
        });
      });
    },
    at: (index, hz, copper, withSlopes, isDc = false) => {
      const { coils, capacitors, nodes } = joined.circuits[index] as ProbedCircuit;
      for (const { coil } of coils) (models[coil] as CoilModel).at(hz, copper);
      if (withSlopes) slopes.fill(0);
      const [only] = coils;
      if (only && coils.length === 1 && nodes === 2 && capacitors.length === 0) alone(only.coil, withSlopes, isDc);
      else solved(index, 2 * Math.PI * hz, withSlopes, isDc);
    },
  };
}

/** At 0 Hz an end that only capacitors hold would float. */
const NEARLY_NOTHING = 1e-15;

const rowOf = (coils: ProbedCircuit['coils'], coil: number): number => coils.findIndex((each) => each.coil === coil);

interface ComplexSystem {
  /** The solution. */
  readonly re: Float64Array;
  readonly im: Float64Array;
  clear(): void;
  add(row: number, column: number, re: number, im: number): void;
  addRight(row: number, re: number, im: number): void;
  solve(): void;
}

/** Elimination in the order of the rows: coils come before nodes, and each coil has a resistance. */
function complexSystem(size: number): ComplexSystem {
  const [mRe, mIm] = [new Float64Array(size * size), new Float64Array(size * size)];
  const [re, im] = [new Float64Array(size), new Float64Array(size)];
  return {
    re,
    im,
    clear: () => {
      for (const part of [mRe, mIm, re, im]) part.fill(0);
    },
    add: (row, column, byRe, byIm) => {
      const at = row * size + column;
      mRe[at] = (mRe[at] as number) + byRe;
      mIm[at] = (mIm[at] as number) + byIm;
    },
    addRight: (row, byRe, byIm) => {
      re[row] = (re[row] as number) + byRe;
      im[row] = (im[row] as number) + byIm;
    },
    solve: () => {
      for (let column = 0; column < size; column++) {
        const top = column * size;
        const pRe = mRe[top + column] as number;
        const pIm = mIm[top + column] as number;
        const square = pRe * pRe + pIm * pIm;
        for (let row = column + 1; row < size; row++) {
          const line = row * size;
          const lRe = mRe[line + column] as number;
          const lIm = mIm[line + column] as number;
          if (lRe === 0 && lIm === 0) continue;
          const fRe = (lRe * pRe + lIm * pIm) / square;
          const fIm = (lIm * pRe - lRe * pIm) / square;
          for (let k = column + 1; k < size; k++) {
            const tRe = mRe[top + k] as number;
            const tIm = mIm[top + k] as number;
            mRe[line + k] = (mRe[line + k] as number) - (fRe * tRe - fIm * tIm);
            mIm[line + k] = (mIm[line + k] as number) - (fRe * tIm + fIm * tRe);
          }
          const rRe = re[column] as number;
          const rIm = im[column] as number;
          re[row] = (re[row] as number) - (fRe * rRe - fIm * rIm);
          im[row] = (im[row] as number) - (fRe * rIm + fIm * rRe);
        }
      }
      for (let row = size - 1; row >= 0; row--) {
        let sRe = re[row] as number;
        let sIm = im[row] as number;
        for (let k = row + 1; k < size; k++) {
          const aRe = mRe[row * size + k] as number;
          const aIm = mIm[row * size + k] as number;
          sRe -= aRe * (re[k] as number) - aIm * (im[k] as number);
          sIm -= aRe * (im[k] as number) + aIm * (re[k] as number);
        }
        const pRe = mRe[row * size + row] as number;
        const pIm = mIm[row * size + row] as number;
        const square = pRe * pRe + pIm * pIm;
        re[row] = (sRe * pRe + sIm * pIm) / square;
        im[row] = (sIm * pRe - sRe * pIm) / square;
      }
    },
  };
}
