/**
 * Sweeps of one coil, or of several circuits that share coils and a recorder, as one problem of least squares. What is fitted is what was measured:
 * level and phase of each point, never an impedance made from them (J. R. Macdonald and L. D. Potter, Solid State Ionics 23 (1987)
 * 61–79). What is believed of the set-up comes in as further residuals; nothing is believed of the coil but what a meter read.
 */
import type { Complex } from '../complex.ts';
import type { LeastSquares } from '../levenberg-marquardt.ts';
import { type CoilForm, type CoilModel, partsOfForm } from './coil-form.ts';
import { type CoilNetwork, type CoilsJoined, coilNetwork, ONE_COIL } from './coil-network.ts';
import type { Noise } from './scatter.ts';
import { type Terminals, terminalsOf } from './terminals.ts';

/**
 * The circuits. `impedance`: a meter's own table. `through`: a resistor from the output to the pickup, the ratio across the pickup.
 * `over`: the pickup from the output to a resistor, the ratio across that. `excited`: an e.m.f. that rises with frequency, the ratio to the
 * voltage over the resistor in series with the coil that makes it. `alone`: `through` without a pickup.
 */
export type SetUpKind = 'impedance' | 'through' | 'over' | 'excited' | 'alone';

export interface MeasuredCurve {
  readonly kind: SetUpKind;
  readonly hz: readonly number[];
  readonly magnitude: readonly number[];
  /** Radians. */
  readonly phase: readonly number[] | undefined;
  /** Of ln magnitude, where the file states it. */
  readonly relativeSd: readonly number[] | undefined;
  /** The resistor, and one relative deviation of it; 0 where there is none. */
  readonly seriesOhm: number;
  readonly seriesSd: number;
  /** A capacitor put across the pickup. */
  readonly addedFarad: number;
  readonly addedSd: number;
  /** One relative deviation of a meter's scale, or of the balance of two channels. */
  readonly scaleSd: number;
  /** Which of the circuits it is of, and the factor on their resistances by the temperature; the first, and 1, where left out. */
  readonly circuit?: number;
  readonly copper?: number;
  /** The circuit whose resistance, inductance and capacitance are told of it, where that is another. */
  readonly toldAs?: number;
}

/** What lies at each input: 1 + relative deviation of the resistance, one deviation of the capacitance in farad. */
export interface RecorderInput {
  readonly ohm: number;
  readonly ohmSd: number;
  readonly farad: number;
  readonly faradSd: number;
}

export interface DcReading {
  readonly ohm: number;
  /** Relative, of this reading alone. */
  readonly sd: number;
  /** Relative, of the scale of the meter, which is the same for all readings; 0 where it is in `sd`. */
  readonly meterSd: number;
  /** As with a curve. */
  readonly circuit?: number;
  readonly copper?: number;
}

export interface SweepsOfCoil {
  readonly curves: readonly MeasuredCurve[];
  readonly recorder: RecorderInput;
  readonly dc: readonly DcReading[];
  /** Left out: one coil between the probes of all. */
  readonly joined?: CoilsJoined;
}

/** What a nuisance is of: its name, where its parameter stands, and one deviation of it before the sweep. */
export interface Nuisance {
  readonly name:
    | 'resistor'
    | 'input resistance'
    | 'input capacitance'
    | 'meter scale'
    | 'balance'
    | 'added capacitance'
    | 'coupling'
    | 'resistance meter'
    | 'cable';
  readonly at: number;
  readonly sd: number;
  /** What a part is marked with, ohm or farad. */
  readonly marked: number;
}

export interface SweepProblem extends LeastSquares {
  readonly form: CoilForm;
  readonly network: CoilNetwork;
  readonly nuisances: readonly Nuisance[];
  /** Points before the priors: level of each point, then phase where there is one, curve by curve. */
  readonly data: number;
  readonly start: (coils: ArrayLike<number>) => Float64Array;
  /** Residuals of one curve as they are, not over their deviations; phases wrapped. */
  rest(values: Float64Array, curve: number): { readonly level: Float64Array; readonly phase: Float64Array | undefined };
  /** What was found of the set-up of a curve, as factors on what was believed. */
  setUpAt(values: Float64Array, curve: number): SetUpFound;
  /** What the coils are between the probes of a curve. */
  terminalsAt(values: Float64Array, curve: number): Terminals;
  /** Between the probes of a curve, siemens. */
  admittanceAt(values: Float64Array, curve: number, hz: number): Complex;
  /** ln of the modelled ratio or impedance at a frequency of a curve, and its angle. */
  modelled(values: Float64Array, curve: number, hz: number): readonly [level: number, phase: number];
}

export interface SetUpFound {
  readonly scale: number;
  readonly resistor: number;
  readonly added: number;
  readonly inputOhm: number;
  readonly inputFarad: number;
}

interface Slots {
  readonly resistor: number;
  readonly scale: number;
  readonly added: number;
  readonly coupling: number;
}

export function sweepProblem(
  { curves, recorder, dc, joined = ONE_COIL }: SweepsOfCoil,
  form: CoilForm,
  noise: readonly Noise[],
): SweepProblem {
  const hasCoil = curves.some(({ kind }) => kind !== 'alone');
  const network = coilNetwork(form, joined);
  const { admittance, slopes: admittanceSlopes } = network;
  const own = hasCoil ? network.count : 0;
  const nuisances: Nuisance[] = [];
  const slotOf = (name: Nuisance['name'], sd: number, marked = 0): number => {
    nuisances.push({ name, at: own + nuisances.length, sd, marked });
    return own + nuisances.length - 1;
  };
  const isRecorded = curves.some(({ kind }) => kind !== 'impedance');
  const inputOhm = isRecorded ? slotOf('input resistance', recorder.ohmSd) : -1;
  const inputFarad = isRecorded ? slotOf('input capacitance', recorder.faradSd / recorder.farad) : -1;
  const shared = new Map<string, number>();
  const sharedSlot = (key: string, name: Nuisance['name'], sd: number, marked = 0): number => {
    const known = shared.get(key) ?? slotOf(name, sd, marked);
    shared.set(key, known);
    return known;
  };
  const slots = curves.map(
    ({ kind, seriesOhm, seriesSd, scaleSd, addedFarad, addedSd }, index): Slots => ({
      // One resistor serves all sweeps that name it.
      resistor: kind === 'impedance' ? -1 : sharedSlot(`resistor ${seriesOhm}`, 'resistor', seriesSd, seriesOhm),
      // A meter's scale is one; the balance of two channels may be another each time.
      scale:
        kind === 'impedance'
          ? sharedSlot('meter', 'meter scale', scaleSd)
          : sharedSlot(`balance ${index}`, 'balance', scaleSd),
      added: addedFarad > 0 ? sharedSlot(`added ${addedFarad}`, 'added capacitance', addedSd, addedFarad) : -1,
      coupling: kind === 'excited' ? sharedSlot('coupling', 'coupling', Number.POSITIVE_INFINITY) : -1,
    }),
  );
  const meterSd = Math.max(0, ...dc.map((each) => each.meterSd));
  const meter = hasCoil && meterSd > 0 ? slotOf('resistance meter', meterSd) : -1;
  const parameters = own + nuisances.length;
  if (hasCoil && joined.cableSd !== undefined)
    nuisances.push({ name: 'cable', at: network.cableAt, sd: joined.cableSd, marked: 0 });
  const rowsOf = curves.map(({ hz, phase }) => (phase ? 2 : 1) * hz.length);
  const data = rowsOf.reduce((sum, each) => sum + each, 0);
  const priors = nuisances.filter(({ sd }) => Number.isFinite(sd));
  const bounded = hasCoil ? boundsOf(form, network) : [];
  const residuals = data + priors.length + dc.length + bounded.length;
  const deviations = curves.map((curve, index) => deviationsOf(curve, noise[index]));
  const logs = curves.map(({ magnitude }) => Float64Array.from(magnitude, Math.log));
  const out = new Float64Array(2);
  const outSlopes = new Float64Array(2 * parameters);
  const senses = curves.map(senseOf);
  const ratios = curves.map((curve, index) =>
    ratioOf({
      curve,
      slot: slots[index] as Slots,
      own,
      inputOhm,
      inputFarad,
      recorder,
      network,
      out,
      slopes: outSlopes,
    }),
  );
  const take = (values: Float64Array) => {
    if (hasCoil) network.take(values);
  };
  /** `take` comes first. */
  const modelAt = (values: Float64Array, index: number, hz: number, withSlopes: boolean) => {
    const { kind, circuit = 0, copper = 1 } = curves[index] as MeasuredCurve;
    if (kind !== 'alone') network.at(circuit, hz, copper, withSlopes);
    (ratios[index] as Ratio)(values, hz, withSlopes);
  };
  return {
    form,
    network,
    nuisances,
    data,
    residuals,
    parameters,
    start: (coils) => {
      const values = new Float64Array(parameters);
      values.set(Array.from(coils).slice(0, own));
      take(values);
      slots.forEach(({ coupling }, index) => {
        if (coupling < 0) return;
        const { hz } = curves[index] as MeasuredCurve;
        // Level alone says what the coupling is: the median of what is left.
        values[coupling] = 0;
        const left = hz.map((each, at) => {
          modelAt(values, index, each, false);
          return (logs[index]?.[at] ?? 0) - (out[0] as number);
        });
        values[coupling] = median(left);
      });
      return values;
    },
    at: (values, into, slopes) => {
      let row = 0;
      take(values);
      curves.forEach(({ hz, phase }, index) => {
        const deviation = deviations[index] as Float64Array;
        const sense = senses[index] ?? 0;
        for (let at = 0; at < hz.length; at++) {
          modelAt(values, index, hz[at] as number, slopes !== undefined);
          const sd = deviation[at] as number;
          into[row] = ((out[0] as number) - ((logs[index] as Float64Array)[at] as number)) / sd;
          if (slopes) writeSlopes(slopes, row, parameters, outSlopes, 0, sd);
          row += 1;
          if (!phase) continue;
          into[row] = wrapped((out[1] as number) + sense - (phase[at] as number)) / sd;
          if (slopes) writeSlopes(slopes, row, parameters, outSlopes, 1, sd);
          row += 1;
        }
      });
      slopes?.fill(0, row * parameters);
      for (const { at, sd } of priors) {
        into[row] = (values[at] as number) / sd;
        if (slopes) slopes[row * parameters + at] = 1 / sd;
        row += 1;
      }
      for (const { ohm, sd, circuit = 0, copper = 1 } of dc) {
        network.at(circuit, DC_HZ, copper, slopes !== undefined, true);
        const [re = 0, im = 0] = admittance;
        const square = re * re + im * im;
        into[row] = (-Math.log(square) / 2 - Math.log(ohm) + (meter < 0 ? 0 : (values[meter] as number))) / sd;
        if (slopes) {
          for (let at = 0; at < own; at++)
            slopes[row * parameters + at] =
              -((admittanceSlopes[2 * at] ?? 0) * re + (admittanceSlopes[2 * at + 1] ?? 0) * im) / square / sd;
          if (meter >= 0) slopes[row * parameters + meter] = 1 / sd;
        }
        row += 1;
      }
      for (const bound of bounded) {
        into[row] = bound(values, slopes?.subarray(row * parameters, (row + 1) * parameters));
        row += 1;
      }
    },
    rest: (values, index) => {
      const { hz, phase } = curves[index] as MeasuredCurve;
      take(values);
      const level = new Float64Array(hz.length);
      const angle = phase && new Float64Array(hz.length);
      hz.forEach((each, at) => {
        modelAt(values, index, each, false);
        level[at] = (logs[index]?.[at] ?? 0) - (out[0] as number);
        if (angle) angle[at] = wrapped((phase?.[at] ?? 0) - (out[1] as number) - (senses[index] ?? 0));
      });
      return { level, phase: angle };
    },
    setUpAt: (values, index) => {
      const { resistor, scale, added } = slots[index] as Slots;
      const factor = (at: number) => (at < 0 ? 1 : Math.exp(values[at] as number));
      return {
        scale: factor(scale),
        resistor: factor(resistor),
        added: factor(added),
        inputOhm: factor(inputOhm),
        inputFarad: factor(inputFarad),
      };
    },
    terminalsAt: (values, index) => {
      const { circuit = 0, toldAs = circuit, copper = 1 } = curves[index] as MeasuredCurve;
      return terminalsOf(form, joined, network, values, { circuit: toldAs, copper });
    },
    admittanceAt: (values, index, hz) => {
      const { circuit = 0, copper = 1 } = curves[index] as MeasuredCurve;
      take(values);
      network.at(circuit, hz, copper, false);
      return { re: admittance[0] as number, im: admittance[1] as number };
    },
    modelled: (values, index, hz) => {
      take(values);
      modelAt(values, index, hz, false);
      return [out[0] as number, (out[1] as number) + (senses[index] ?? 0)];
    },
  };
}

/** As good as none: a coil's reactance is nothing beside its resistance. */
const DC_HZ = 1e-6;

type Bound = (values: Float64Array, slopes: Float64Array | undefined) => number;

/**
 * One part of metal alone is held by its own scale; two could take more than there is, and where they take all, capacitance says the same.
 * Metal of one coil lies about the other no more than about its own; what stands about the coils is as it is computed, within as much.
 */
function boundsOf(form: CoilForm, { sets, ofSet, reachAt, reaches, aboutAt }: CoilNetwork): readonly Bound[] {
  const metal = partsOfForm(form).flatMap((part, index) => (part === 'across' ? [] : [3 + 2 * index]));
  const ofSets = metal.length > 1 ? Array.from({ length: sets }, (_, set) => metal.map((at) => set * ofSet + at)) : [];
  return [
    ...ofSets.map(
      (places): Bound =>
        (values, slopes) => {
          const shares = places.map((at) => 1 / (1 + Math.exp(-(values[at] as number))));
          const taken = shares.reduce((sum, each) => sum + each, 0);
          const over = Math.max(0, taken - MOST_TAKEN) / PAST_MOST;
          places.forEach((at, index) => {
            const share = shares[index] ?? 0;
            if (slopes) slopes[at] = share * (1 - share) * (1 / ANY_SHARE + (over > 0 ? 1 / PAST_MOST : 0));
          });
          return (taken - 0.5) / ANY_SHARE + over;
        },
    ),
    ...Array.from(
      { length: reaches },
      (_, at): Bound =>
        (values, slopes) => {
          if (slopes) slopes[reachAt + at] = 1 / ANY_REACH;
          return (values[reachAt + at] as number) / ANY_REACH;
        },
    ),
    ...(aboutAt < 0 ? [] : [aboutBound(aboutAt)]),
  ];
}

const aboutBound =
  (at: number): Bound =>
  (values, slopes) => {
    if (slopes) slopes[at] = 1;
    return (values[at] as number) - 1;
  };

/** Metal in the middle of two coils has 1. */
const ANY_REACH = 1;
/** Any share of an inductance between none and all of it. */
const ANY_SHARE = 0.4;
/** All metal together leaves something. */
const MOST_TAKEN = 0.97;
const PAST_MOST = 0.01;

/** Before anything is known of the points. */
const FIRST_NOISE: Noise = { share: 0.005, floor: 0 };
/** Better than this no file is believed: the last digit of a table has as much. */
const LEAST_DEVIATION = 2e-4;

export function deviationsOf(
  { hz, magnitude, relativeSd }: MeasuredCurve,
  { share, floor }: Noise = FIRST_NOISE,
): Float64Array {
  return Float64Array.from(hz, (_, at) => {
    const known = relativeSd?.[at] ?? Math.hypot(share, floor / (magnitude[at] ?? 1));
    return Math.max(LEAST_DEVIATION, known);
  });
}

/** An exciter's sense is free: what turns its phase by half a turn is no part of the model. */
function senseOf({ kind, phase, hz, magnitude }: MeasuredCurve): number {
  if (kind !== 'excited' || !phase) return 0;
  // Below the resonance the e.m.f. leads by a quarter turn; weighed by level, since the low end is noise.
  const peak = magnitude.indexOf(Math.max(...magnitude));
  const below = phase.filter((_, at) => (hz[at] ?? 0) < (hz[peak] ?? 0) / 2 && (hz[at] ?? 0) > (hz[peak] ?? 0) / 20);
  return below.reduce((sum, each) => sum + Math.sin(each), 0) < 0 ? Math.PI : 0;
}

function writeSlopes(
  slopes: Float64Array,
  row: number,
  parameters: number,
  from: Float64Array,
  part: 0 | 1,
  sd: number,
): void {
  const perDeviation = 1 / sd;
  const start = row * parameters;
  for (let index = 0; index < parameters; index++)
    slopes[start + index] = (from[2 * index + part] as number) * perDeviation;
}

interface RatioArguments {
  readonly curve: MeasuredCurve;
  readonly slot: Slots;
  readonly own: number;
  readonly inputOhm: number;
  readonly inputFarad: number;
  readonly recorder: RecorderInput;
  readonly network: CoilNetwork;
  readonly out: Float64Array;
  readonly slopes: Float64Array;
}

/** Writes ln of what a set-up gives, its angle as the imaginary part, and the slopes of both, of a network that has been solved there. */
type Ratio = (values: Float64Array, hz: number, withSlopes: boolean) => void;

function ratioOf({ curve, slot, own, inputOhm, inputFarad, recorder, network, out, slopes }: RatioArguments): Ratio {
  const { kind, addedFarad, seriesOhm } = curve;
  const { admittance, slopes: admittanceSlopes } = network;
  const { scale: scaleAt, added: addedAt, resistor: resistorAt, coupling: couplingAt } = slot;
  const hasCoil = kind !== 'alone';
  /** d ln A = dA/A. */
  const byCoil = (from: Float64Array, byRe: number, byIm: number, factor: number) => {
    const size = factor / (byRe * byRe + byIm * byIm);
    const overRe = byRe * size;
    const overIm = byIm * size;
    for (let at = 0; at < 2 * own; at += 2) {
      const re = from[at] as number;
      const im = from[at + 1] as number;
      slopes[at] = (slopes[at] as number) + re * overRe + im * overIm;
      slopes[at + 1] = (slopes[at + 1] as number) + im * overRe - re * overIm;
    }
  };
  const add = (at: number, re: number, im: number, byRe: number, byIm: number, factor: number) => {
    const square = (byRe * byRe + byIm * byIm) / factor;
    slopes[2 * at] = (slopes[2 * at] as number) + (re * byRe + im * byIm) / square;
    slopes[2 * at + 1] = (slopes[2 * at + 1] as number) + (im * byRe - re * byIm) / square;
  };
  return (values, hz, withSlopes) => {
    const omega = 2 * Math.PI * hz;
    const addedIm = addedAt < 0 ? 0 : omega * addedFarad * Math.exp(values[addedAt] as number);
    const yRe = hasCoil ? (admittance[0] as number) : 0;
    const yIm = (hasCoil ? (admittance[1] as number) : 0) + addedIm;
    const scale = values[scaleAt] as number;
    if (withSlopes) {
      slopes.fill(0);
      slopes[2 * scaleAt] = 1;
    }
    if (kind === 'impedance') {
      out[0] = scale - logSize(yRe, yIm);
      out[1] = -Math.atan2(yIm, yRe);
      if (!withSlopes) return;
      byCoil(admittanceSlopes, yRe, yIm, -1);
      if (addedAt >= 0) add(addedAt, 0, addedIm, yRe, yIm, -1);
      return;
    }
    const resistor = seriesOhm * Math.exp(values[resistorAt] as number);
    const inRe = 1 / (recorder.ohm * Math.exp(values[inputOhm] as number));
    const inIm = omega * recorder.farad * Math.exp(values[inputFarad] as number);
    if (kind === 'over') {
      // H = Y/(Y + Yl), Yl of the resistor and the input.
      const toGround = 1 / resistor;
      const sumRe = yRe + toGround + inRe;
      const sumIm = yIm + inIm;
      out[0] = scale + logSize(yRe, yIm) - logSize(sumRe, sumIm);
      out[1] = wrapped(Math.atan2(yIm, yRe) - Math.atan2(sumIm, sumRe));
      if (!withSlopes) return;
      byCoil(admittanceSlopes, yRe, yIm, 1);
      byCoil(admittanceSlopes, sumRe, sumIm, -1);
      if (addedAt >= 0) {
        add(addedAt, 0, addedIm, yRe, yIm, 1);
        add(addedAt, 0, addedIm, sumRe, sumIm, -1);
      }
      add(resistorAt, -toGround, 0, sumRe, sumIm, -1);
      add(inputOhm, -inRe, 0, sumRe, sumIm, -1);
      add(inputFarad, 0, inIm, sumRe, sumIm, -1);
      return;
    }
    if (kind === 'excited') {
      // H = K · jω · (1 + Rs Yin) / (Zs (Y + Yin)), of one coil.
      const { series, seriesSlopes } = network.models[0] as CoilModel;
      const sumRe = yRe + inRe;
      const sumIm = yIm + inIm;
      const upRe = 1 + resistor * inRe;
      const upIm = resistor * inIm;
      const seriesRe = series[0] as number;
      const seriesIm = series[1] as number;
      out[0] =
        scale +
        (values[couplingAt] as number) +
        Math.log(omega) +
        logSize(upRe, upIm) -
        logSize(seriesRe, seriesIm) -
        logSize(sumRe, sumIm);
      out[1] = wrapped(
        Math.PI / 2 + Math.atan2(upIm, upRe) - Math.atan2(seriesIm, seriesRe) - Math.atan2(sumIm, sumRe),
      );
      if (!withSlopes) return;
      byCoil(seriesSlopes, seriesRe, seriesIm, -1);
      byCoil(admittanceSlopes, sumRe, sumIm, -1);
      if (addedAt >= 0) add(addedAt, 0, addedIm, sumRe, sumIm, -1);
      add(resistorAt, resistor * inRe, resistor * inIm, upRe, upIm, 1);
      add(inputOhm, -resistor * inRe, 0, upRe, upIm, 1);
      add(inputOhm, -inRe, 0, sumRe, sumIm, -1);
      add(inputFarad, 0, resistor * inIm, upRe, upIm, 1);
      add(inputFarad, 0, inIm, sumRe, sumIm, -1);
      slopes[2 * couplingAt] = 1;
      return;
    }
    // H = 1/(1 + Rs (Y + Yin)).
    const sumRe = 1 + resistor * (yRe + inRe);
    const sumIm = resistor * (yIm + inIm);
    out[0] = scale - logSize(sumRe, sumIm);
    out[1] = -Math.atan2(sumIm, sumRe);
    if (!withSlopes) return;
    if (hasCoil) byCoil(admittanceSlopes, sumRe, sumIm, -resistor);
    if (addedAt >= 0) add(addedAt, 0, resistor * addedIm, sumRe, sumIm, -1);
    add(resistorAt, sumRe - 1, sumIm, sumRe, sumIm, -1);
    add(inputOhm, -resistor * inRe, 0, sumRe, sumIm, -1);
    add(inputFarad, 0, resistor * inIm, sumRe, sumIm, -1);
  };
}

/** ln |re + j im|. */
const logSize = (re: number, im: number): number => Math.log(re * re + im * im) / 2;

/** An angle between −π and π. */
export const wrapped = (angle: number): number => angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI));

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = Math.floor(sorted.length / 2);
  return sorted.length % 2 === 1 ? (sorted[middle] ?? 0) : ((sorted[middle - 1] ?? 0) + (sorted[middle] ?? 0)) / 2;
}
