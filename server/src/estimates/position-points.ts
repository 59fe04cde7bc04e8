/**
 * Measured points in a position of an instrument: how far they lie off its curve. A pickup of the admittance Y passes the current e Ys into
 * its leads. Where Y was measured a little other than fitted, the position gives another voltage by what that current and that admittance
 * change there, to first order, through all that hangs on it.
 */
import type { Instrument, Selection } from '../model/instrument.ts';
import { timesOf } from '../physics/circuit/response.ts';
import { sourceValue, transfers } from '../physics/circuit/solve.ts';
import { add, type Complex, divide, magnitude, multiply, scale, subtract, zero } from '../physics/complex.ts';
import { measuredPoints } from '../physics/sweep/measured-impedance.ts';
import {
  AS_PLAYED,
  type PlacedProbe,
  type Played,
  type PositionNetwork,
  positionNetwork,
  type QuickOf,
} from './position-network.ts';
import { FULL_UP } from './positions.ts';
import { stringDrives } from './sources.ts';
import type { SweptCoil } from './sweeps-measured.ts';
import { holdingSweep } from './sweeps-used.ts';
import { quickAsSwept } from './swept-whole.ts';

export interface PositionPoints {
  readonly hz: readonly number[];
  /** Above the curve that is drawn, dB. */
  readonly offDb: readonly number[];
  /** One deviation of that, by the scatter of the points. */
  readonly sdDb: readonly number[];
  /** What the phase at the jack lies off, degrees; `undefined` where a sweep holds none. */
  readonly offDegrees: readonly number[] | undefined;
  readonly sdDegrees: readonly number[];
  /** The sweeps that they are of. */
  readonly swept: readonly SweptCoil[];
}

/** `undefined` where something sounds that no sweep in use is of. */
export function positionPoints(
  instrument: Instrument,
  selection: Selection,
  quickOf: QuickOf,
  played: Played = FULL_UP,
): PositionPoints | undefined {
  const asSwept = quickAsSwept(selection, quickOf);
  const built = positionNetwork(instrument, selection, asSwept, { ...AS_PLAYED, ...played, probed: true });
  const deviating = sweptIn(built);
  const [first] = deviating ?? [];
  if (!deviating || !first) return undefined;
  const points = first.deviations.flatMap(({ hz }) => offAt(built, deviating, hz) ?? []);
  const isPhased = deviating.every(({ swept }) => swept.group.sweeps.every(({ curve }) => curve.phase));
  return {
    hz: points.map(({ hz }) => hz),
    offDb: points.map(({ db }) => db),
    sdDb: points.map(({ sd }) => sd * DB),
    offDegrees: isPhased ? points.map(({ turned }) => turned * DEGREES) : undefined,
    sdDegrees: points.map(({ sd }) => sd * DEGREES),
    swept: [...new Set(deviating.map(({ swept }) => swept))],
  };
}

const DB = 20 / Math.LN10;
const DEGREES = 180 / Math.PI;

interface Deviating {
  readonly probe: PlacedProbe;
  readonly swept: SweptCoil;
  readonly deviations: readonly Deviation[];
}

/** Measured less fitted admittance, and that over the series admittance of winding and metal. */
interface Deviation {
  readonly hz: number;
  readonly admittance: Complex;
  readonly share: Complex;
  /** One deviation of it over its size. */
  readonly relativeSd: number;
}

/** Of each part the sweep of all of it, else those of each of its coils. */
function sweptIn({ probes }: PositionNetwork): readonly Deviating[] | undefined {
  const parts = [...new Set(probes.map(({ part }) => part))];
  const found = parts.map((part) => {
    const own = probes.filter((each) => each.part === part);
    const [whole, coils] = [own.filter(({ coil }) => !coil), own.filter(({ coil }) => coil)];
    const inAll = (among: readonly PlacedProbe[]) => {
      const deviating = among.flatMap(deviatingAt);
      return among.length > 0 && deviating.length === among.length ? deviating : undefined;
    };
    return inAll(whole) ?? inAll(coils);
  });
  return found.every((each) => each !== undefined) ? found.flat() : undefined;
}

function deviatingAt(probe: PlacedProbe): readonly Deviating[] {
  const { part, quick, coil } = probe;
  const named = part.kind === 'coil' ? quick.netlist.pickup.coils.find(({ name }) => name === part.coil) : 'whole';
  const of = coil ?? named;
  const isPlain = part.kind !== 'tap' && !(part.kind === 'coil' && part.throughOhm);
  const swept = of && isPlain ? holdingSweep(quick, of) : undefined;
  const deviations = swept && deviationsOf(swept);
  return swept && deviations?.length ? [{ probe, swept, deviations }] : [];
}

function deviationsOf({ fit, sweeps, capacitanceF }: SweptCoil): readonly Deviation[] {
  return sweeps.curves
    .flatMap((_, at) => measuredPoints(fit, sweeps, at))
    .filter(({ hz }) => hz >= 20 && hz <= 20_000)
    .sort((a, b) => a.hz - b.hz)
    .map(({ hz, measured, fitted, rest, phaseRest = 0, sd }) => {
      const own = divide(ONE, fitted);
      const admittance = subtract(divide(ONE, measured), own);
      const across: Complex = { re: 0, im: 2 * Math.PI * hz * capacitanceF.value };
      const relativeSd = sd / Math.max(LEAST_REST, Math.hypot(rest, phaseRest));
      return { hz, admittance, share: divide(admittance, subtract(own, across)), relativeSd };
    });
}

const ONE: Complex = { re: 1, im: 0 };
const LEAST_REST = 1e-9;

/** What the voltage lies off: its level in dB, its angle and one deviation of either as shares of it. */
interface Off {
  readonly hz: number;
  readonly db: number;
  readonly turned: number;
  readonly sd: number;
}

function offAt(built: PositionNetwork, deviating: readonly Deviating[], hz: number): Off | undefined {
  const { network, output, segments } = built;
  const atOutput = transfers(network, output, hz);
  if (typeof atOutput === 'string') return undefined;
  const index = new Map(network.sources.map((source, at) => [source, at]));
  const effects = deviating.map(({ probe, deviations }) => {
    const [hot, low] = [probe.hot, probe.ground].map((node) => transfers(network, node, hz));
    const deviation = deviationAt(deviations, hz);
    if (!Array.isArray(hot) || !Array.isArray(low) || !deviation) return undefined;
    const own = segments.flatMap(({ part, segment }) =>
      part === probe.part && (!probe.coil || probe.coil === segment.coil) ? [index.get(segment.source) ?? -1] : [],
    );
    return { hot, low, own, deviation, injected: atOutput[index.get(probe.source) ?? -1] ?? zero };
  });
  let [before, after, turned, variance] = [0, 0, 0, 0];
  for (const { values, weight } of timesOf(stringDrives(built))) {
    const sum = (transfer: readonly Complex[], sources?: readonly number[]) =>
      network.sources.reduce(
        (total, _, at) =>
          sources && !sources.includes(at)
            ? total
            : add(total, scale(transfer[at] ?? zero, sourceValue(network, at, values))),
        zero,
      );
    const voltage = sum(atOutput);
    const part = weight * magnitude(voltage) ** 2;
    let changed = voltage;
    for (const effect of effects) {
      if (!effect) return undefined;
      const { hot, low, own, deviation, injected } = effect;
      const across = subtract(sum(hot), sum(low));
      const change = subtract(
        multiply(deviation.share, sum(atOutput, own)),
        multiply(multiply(deviation.admittance, across), injected),
      );
      changed = add(changed, change);
      variance += weight * (magnitude(change) * deviation.relativeSd) ** 2;
    }
    before += part;
    after += weight * magnitude(changed) ** 2;
    turned += part > 0 ? part * divide(changed, voltage).im : 0;
  }
  return before > 0 && after > 0
    ? { hz, db: 10 * Math.log10(after / before), turned: turned / before, sd: Math.sqrt(variance / before) }
    : undefined;
}

/** Between two points straight over the logarithm of frequency; beyond the last ones nothing was measured. */
function deviationAt(deviations: readonly Deviation[], hz: number): Deviation | undefined {
  const at = deviations.findIndex((each) => each.hz >= hz);
  const [low, high] = [deviations[at - 1], deviations[at]];
  if (!high) return undefined;
  if (high.hz === hz || !low) return high.hz === hz ? high : undefined;
  const share = Math.log(hz / low.hz) / Math.log(high.hz / low.hz);
  const between = (a: Complex, b: Complex) => add(scale(a, 1 - share), scale(b, share));
  return {
    hz,
    admittance: between(low.admittance, high.admittance),
    share: between(low.share, high.share),
    relativeSd: low.relativeSd * (1 - share) + high.relativeSd * share,
  };
}
