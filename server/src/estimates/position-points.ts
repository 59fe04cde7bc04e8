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
  const points = first.deviations.flatMap(({ hz }) => {
    const off = offAt(built, deviating, hz);
    return off === undefined ? [] : [{ hz, off }];
  });
  return {
    hz: points.map(({ hz }) => hz),
    offDb: points.map(({ off }) => off),
    swept: deviating.map(({ swept }) => swept),
  };
}

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
}

function sweptIn({ probes }: PositionNetwork): readonly Deviating[] | undefined {
  const found = probes.flatMap((probe): Deviating[] => {
    const { part, quick } = probe;
    const of = part.kind === 'coil' ? quick.netlist.pickup.coils.find(({ name }) => name === part.coil) : 'whole';
    const isPlain = part.kind !== 'tap' && !(part.kind === 'coil' && part.throughOhm);
    const swept = of && isPlain ? holdingSweep(quick, of) : undefined;
    const deviations = swept && deviationsOf(swept);
    return swept && deviations?.length ? [{ probe, swept, deviations }] : [];
  });
  return found.length === probes.length ? found : undefined;
}

function deviationsOf({ fit, sweeps, capacitanceF }: SweptCoil): readonly Deviation[] {
  return sweeps.curves
    .flatMap((_, at) => measuredPoints(fit, sweeps, at))
    .filter(({ hz }) => hz >= 20 && hz <= 20_000)
    .sort((a, b) => a.hz - b.hz)
    .map(({ hz, measured, fitted }) => {
      const own = divide(ONE, fitted);
      const admittance = subtract(divide(ONE, measured), own);
      const across: Complex = { re: 0, im: 2 * Math.PI * hz * capacitanceF.value };
      return { hz, admittance, share: divide(admittance, subtract(own, across)) };
    });
}

const ONE: Complex = { re: 1, im: 0 };

function offAt(built: PositionNetwork, deviating: readonly Deviating[], hz: number): number | undefined {
  const { network, output, segments } = built;
  const atOutput = transfers(network, output, hz);
  if (typeof atOutput === 'string') return undefined;
  const index = new Map(network.sources.map((source, at) => [source, at]));
  const effects = deviating.map(({ probe, deviations }) => {
    const [hot, low] = [probe.hot, probe.ground].map((node) => transfers(network, node, hz));
    const deviation = deviationAt(deviations, hz);
    if (!Array.isArray(hot) || !Array.isArray(low) || !deviation) return undefined;
    const own = segments.flatMap(({ part, segment }) => (part === probe.part ? [index.get(segment.source) ?? -1] : []));
    return { hot, low, own, deviation, injected: atOutput[index.get(probe.source) ?? -1] ?? zero };
  });
  let [before, after] = [0, 0];
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
    let changed = voltage;
    for (const effect of effects) {
      if (!effect) return undefined;
      const { hot, low, own, deviation, injected } = effect;
      const across = subtract(sum(hot), sum(low));
      changed = add(changed, multiply(deviation.share, sum(atOutput, own)));
      changed = subtract(changed, multiply(multiply(deviation.admittance, across), injected));
    }
    before += weight * magnitude(voltage) ** 2;
    after += weight * magnitude(changed) ** 2;
  }
  return before > 0 && after > 0 ? 10 * Math.log10(after / before) : undefined;
}

/** Between two points straight over the logarithm of frequency; beyond the last ones nothing was measured. */
function deviationAt(deviations: readonly Deviation[], hz: number): Deviation | undefined {
  const at = deviations.findIndex((each) => each.hz >= hz);
  const [low, high] = [deviations[at - 1], deviations[at]];
  if (!high) return undefined;
  if (high.hz === hz || !low) return high.hz === hz ? high : undefined;
  const share = Math.log(hz / low.hz) / Math.log(high.hz / low.hz);
  const between = (a: Complex, b: Complex) => add(scale(a, 1 - share), scale(b, share));
  return { hz, admittance: between(low.admittance, high.admittance), share: between(low.share, high.share) };
}
