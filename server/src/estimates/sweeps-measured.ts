/** What the sweeps of a pickup measured: its numbers with their ±, whether the circuit holds, and what a set-up could not tell. */

import { onceFor } from '../../../grammar/values/remember.ts';
import type { Bench } from '../model/bench.ts';
import type { Curve } from '../model/curve.ts';
import type { PickupNetlist } from '../model/netlist.ts';
import type { MetalLoop } from '../physics/sweep/coil-form.ts';
import { type Figure, figureOf, figuresOf, fitSweeps, type SweepFit } from '../physics/sweep/sweep-fit.ts';
import type { DcReading, MeasuredCurve, Nuisance, SweepProblem, SweepsOfCoil } from '../physics/sweep/sweep-problem.ts';
import { capacitanceAlone, resistanceSeen } from '../physics/sweep/sweep-start.ts';
import { copperTemperatureFactor } from '../physics/wire.ts';
import { type Estimate, estimateOf } from '../quantities/estimate.ts';
import { printQuantity } from '../quantities/print.ts';
import { causes } from './causes.ts';
import { CAUSE_FITS_WITHIN, SWEEP_TOO_WEAK } from './common-practice.ts';
import { because } from './reasons.ts';
import { moreThanGiven } from './sweep-faults.ts';
import { dcReadings, type SweepGroup, sweepGroups, sweepsOfGroup, sweepTemperature } from './sweep-set-up.ts';

/** `doubtful`: its ± are stretched by what is left. What does not hold is not used. */
export type SweepVerdict = 'holds' | 'doubtful' | 'does not hold';

/** A circuit of one coil that was found in sweeps. */
export interface SweptCoil {
  readonly kind: 'coil';
  readonly group: SweepGroup;
  readonly sweeps: SweepsOfCoil;
  readonly fit: SweepFit;
  readonly verdict: SweepVerdict;
  /** Of the winding while it was swept. */
  readonly atC: number;
  /** As the winding has it at low frequency, at the temperature of the sweep. */
  readonly resistanceOhm: Estimate;
  readonly resistance20COhm: Estimate;
  readonly inductanceH: Estimate;
  /** Between the leads, own cable included. */
  readonly capacitanceF: Estimate;
  /** Im Z / Re Z at 1 kHz. */
  readonly quality1kHz: Estimate;
  /** Share of the inductance that metal takes in all, and the corner of that; `undefined` where it takes nothing. */
  readonly losses:
    | { readonly share: Estimate; readonly cornerHz: Estimate; readonly loops: readonly MetalLoop[] }
    | undefined;
  /** A resistance across. */
  readonly acrossOhm: Estimate | undefined;
  /** What is known too weakly to be used. */
  readonly tooWeak: readonly SweptNumber[];
}

export type SweptNumber = 'inductance' | 'capacitance' | 'losses';

export type Swept =
  | SweptCoil
  /** Only a capacitance lies there. */
  | { readonly kind: 'open'; readonly group: SweepGroup; readonly capacitanceF: Estimate }
  /** The low end shows another resistance than a meter read. */
  | {
      readonly kind: 'set-up';
      readonly group: SweepGroup;
      readonly sweeps: SweepsOfCoil;
      readonly curve: MeasuredCurve;
      readonly seenOhm: number;
      readonly readOhm: number;
    }
  /** Nothing in the curve rises like a coil. */
  | { readonly kind: 'no coil'; readonly group: SweepGroup };

/** Every group of sweeps of a pickup by itself, in the order of its blocks; curves that cannot be are left out. */
export const sweptEach = onceFor((netlist: PickupNetlist, bench: Bench | undefined): readonly Swept[] =>
  sweepGroups(netlist)
    .filter(({ sweeps }) => !sweeps.some(moreThanGiven))
    .map((group) => sweptGroup(group, netlist, bench)),
);

function sweptGroup(group: SweepGroup, netlist: PickupNetlist, bench: Bench | undefined): Swept {
  const dc = dcReadings(group, netlist, bench);
  const sweeps = sweepsOfGroup(group, bench, dc);
  const alone = sweeps.curves.map((curve) => capacitanceAlone(curve, sweeps.recorder));
  const [open] = alone.flatMap((each) => each ?? []);
  if (open) {
    const sd = Math.hypot(
      open.scatter,
      group.sweeps.some(({ setUp }) => setUp.kind === 'through') ? sweeps.recorder.faradSd : 0,
    );
    return {
      kind: 'open',
      group,
      capacitanceF: estimateOf(open.farad, { sd, basis: 'reading', restsOn: [sweepWords(group)] }),
    };
  }
  const unlike = unlikeResistance(sweeps.curves, sweeps, dc);
  if (unlike) return { kind: 'set-up', group, sweeps, ...unlike };
  const fit = rememberedFit(sweeps);
  return fit ? sweptCoil(group, sweeps, fit, sweepTemperature(group, bench).celsius) : { kind: 'no coil', group };
}

/** The same sweeps by another fit of them. */
export const withFit = ({ group, sweeps, atC }: SweptCoil, fit: SweepFit): SweptCoil =>
  sweptCoil(group, sweeps, fit, atC);

/** A fit asks for less than this of what the resistor, the meter and the low end say apart. */
const LIKE_RESISTANCE = 10 * CAUSE_FITS_WITHIN;

function unlikeResistance(curves: readonly MeasuredCurve[], { recorder }: SweepsOfCoil, [read]: readonly DcReading[]) {
  if (!read) return undefined;
  for (const curve of curves) {
    const seen = resistanceSeen(curve, recorder);
    if (seen !== undefined && !(Math.abs(Math.log(seen / read.ohm)) < LIKE_RESISTANCE))
      return { curve, seenOhm: seen, readOhm: read.ohm };
  }
  return undefined;
}

/** Fits are made once for what they are made of: an edit elsewhere in the spec asks for none. */
export function rememberedFit(sweeps: SweepsOfCoil): SweepFit | undefined {
  const [first] = sweeps.curves;
  if (!first) return undefined;
  const key = JSON.stringify(sweeps, (name, value: unknown) =>
    name === 'hz' || name === 'magnitude' || name === 'relativeSd'
      ? identityOf(value)
      : name === 'phase'
        ? phaseKey(value)
        : value,
  );
  const known = fits.get(first.hz) ?? new Map<string, SweepFit | undefined>();
  fits.set(first.hz, known);
  if (!known.has(key)) known.set(key, fitSweeps(sweeps));
  return known.get(key);
}

const fits = new WeakMap<Curve['hz'], Map<string, SweepFit | undefined>>();
const identities = new WeakMap<object, number>();
let lastIdentity = 0;

function identityOf(value: unknown): number {
  if (typeof value !== 'object' || value === null) return 0;
  const known = identities.get(value) ?? ++lastIdentity;
  identities.set(value, known);
  return known;
}

/** Phase may have been turned, which its first point tells; the rest is that of the curve. */
const phaseKey = (value: unknown): unknown => (Array.isArray(value) ? value[0] : undefined);

function sweptCoil(group: SweepGroup, sweeps: SweepsOfCoil, fit: SweepFit, atC: number): SweptCoil {
  const figures = figuresOf(fit, (values, problem) => {
    const { ohm, henry, farad, loops, acrossOhm = 0 } = problem.terminalsAt(values, 0);
    const { re, im } = problem.admittanceAt(values, 0, 1000);
    return { ohm, henry, farad, ...takenTogether(loops), acrossOhm, quality1kHz: -im / re };
  });
  const estimate = (name: keyof typeof figures) => estimateFrom(figures[name], fit.nuisances, group);
  const { loops, acrossOhm } = fit.problem.terminalsAt(fit.values, 0);
  const resistanceOhm = estimate('ohm');
  const inductanceH = estimate('henry');
  const capacitanceF = estimate('farad');
  const losses =
    loops.length === 0 ? undefined : { loops, share: estimate('takenShare'), cornerHz: estimate('takenCornerHz') };
  const isWeak = ({ value, sd }: Estimate) => !(sd < SWEEP_TOO_WEAK * Math.abs(value));
  // One coil whose drive is not known gives the shape of its resonance, and that has one number fewer than L and C.
  const isOneExcited = group.sweeps.length === 1 && group.sweeps[0]?.setUp.kind === 'excited';
  return {
    kind: 'coil',
    group,
    sweeps,
    fit,
    verdict: verdictOf(fit),
    atC,
    resistanceOhm,
    resistance20COhm: cooled(resistanceOhm, atC),
    inductanceH,
    capacitanceF,
    quality1kHz: estimate('quality1kHz'),
    losses,
    acrossOhm: acrossOhm === undefined ? undefined : estimate('acrossOhm'),
    tooWeak: [
      ...(isOneExcited || isWeak(inductanceH) ? (['inductance'] as const) : []),
      ...(isOneExcited || isWeak(capacitanceF) ? (['capacitance'] as const) : []),
      ...(losses && (isOneExcited || isWeak(losses.share) || isWeak(losses.cornerHz)) ? (['losses'] as const) : []),
    ],
  };
}

function cooled(ohm: Estimate, celsius: number): Estimate {
  const factor = 1 / copperTemperatureFactor(celsius);
  const sources = Object.fromEntries(Object.entries(ohm.sources ?? {}).map(([name, share]) => [name, share * factor]));
  return { ...ohm, value: ohm.value * factor, sd: ohm.sd * factor, sources };
}

/** What is left against what the points scatter by; a residue below half a per cent hides nothing. */
export function verdictOf({ rest, scatter }: SweepFit): SweepVerdict {
  const ratio = rest / scatter;
  if (ratio < 1.5) return 'holds';
  return ratio < 3 || rest < 0.005 ? 'doubtful' : 'does not hold';
}

/** A number made of what was fitted, with its error and what resistor, recorder and meter make of that. */
export const sweptFigure = (
  { group, fit }: Pick<SweptCoil, 'group' | 'fit'>,
  f: (values: Float64Array, problem: SweepProblem) => number,
): Estimate => estimateFrom(figureOf(fit, f), fit.nuisances, group);

/** Several of them, made together. */
export const sweptFigures = (
  { group, fit }: Pick<SweptCoil, 'group' | 'fit'>,
  f: (values: Float64Array, problem: SweepProblem) => Readonly<Record<string, number>>,
): readonly Estimate[] => Object.values(figuresOf(fit, f)).map((figure) => estimateFrom(figure, fit.nuisances, group));

/** All that metal takes far above its corners, and the corner of one loop that would cost as much at low frequency. */
function takenTogether(loops: readonly MetalLoop[]) {
  const takenShare = loops.reduce((sum, { squaredCoupling }) => sum + squaredCoupling, 0);
  const perHz = loops.reduce((sum, { squaredCoupling, cornerHz }) => sum + squaredCoupling / cornerHz, 0);
  return { takenShare, takenCornerHz: takenShare / perHz };
}

function estimateFrom({ value, sd, shares }: Figure, nuisances: readonly Nuisance[], group: SweepGroup): Estimate {
  const sources: Record<string, number> = {};
  for (const nuisance of nuisances) {
    const cause = causeOf(nuisance, group);
    const share = shares.get(nuisance.at) ?? 0;
    if (cause !== undefined && Math.abs(share) > 1e-6 * sd) sources[cause] = (sources[cause] ?? 0) + share;
  }
  // Two nuisances that go together may make more between them than both leave.
  const named = Math.hypot(...Object.values(sources));
  const fits = named > sd ? sd / named : 1;
  return {
    value,
    sd,
    basis: 'reading',
    restsOn: [sweepWords(group)],
    sources: Object.fromEntries(Object.entries(sources).map(([cause, share]) => [cause, share * fits])),
  };
}

function causeOf({ name, marked }: Nuisance, { piece }: SweepGroup): string | undefined {
  switch (name) {
    case 'resistor':
      return causes.sweepResistor(printQuantity({ value: marked, dimension: 'resistance' }));
    case 'input resistance':
      return causes.inputResistance;
    case 'input capacitance':
      return causes.inputCapacitance;
    case 'meter scale':
      return causes.impedanceMeter;
    case 'resistance meter':
      return causes.meter;
    case 'added capacitance':
      return causes.addedCapacitor(printQuantity({ value: marked, dimension: 'capacitance' }));
    case 'cable':
      return causes.leadCapacitance(piece);
    default:
      return undefined;
  }
}

/** `sweep heron-after.csv over 10 kohm, 2026-10-04`. */
export function sweepWords({ sweeps, block }: SweepGroup): string {
  const files = sweeps
    .map(({ file, setUp }) =>
      setUp.kind === 'impedance'
        ? `${file.value} by a meter`
        : `${file.value} ${setUp.kind === 'excited' ? 'excited over' : setUp.kind} ${setUp.seriesOhm.written}`,
    )
    .join(' and ');
  return block.date === undefined ? because('sweep {0}', files) : because('sweep {0}, {1}', files, block.date);
}
