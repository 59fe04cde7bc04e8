/** Resonance, peak and bandwidth of a network with their uncertainty, from few solutions beside the best one. */
import type { Network } from '../physics/circuit/network.ts';
import { type Drives, type ResponseFigures, responseFigures, responseOf } from '../physics/circuit/response.ts';
import { type Estimate, linear } from '../quantities/estimate.ts';

/** A network with what drives it. */
export interface DrivenNetwork {
  readonly network: Network;
  readonly output: string;
  readonly sources: Drives;
}

export interface ResponseEstimates {
  readonly figures: ResponseFigures;
  /** `null`: there is no peak. */
  readonly resonanceHz: Estimate | null | undefined;
  readonly peakDb: Estimate | undefined;
  readonly minus3DbHz: Estimate | undefined;
}

/**
 * `build` makes the network for values of the causes. With G(x, c) the gain over 10 Hz in dB at x = ln f: a maximum moves by
 * −∂²G/∂x∂c / ∂²G/∂x² and rises by ∂G/∂c; a point of given gain moves by −∂G/∂c / ∂G/∂x. So each cause asks for one more network at
 * seven frequencies, not for a search of its own.
 */
export function responseEstimates(
  causes: readonly Estimate[],
  build: (values: readonly number[]) => DrivenNetwork,
): ResponseEstimates | undefined {
  const nominal = causes.map(({ value }) => value);
  const best = build(nominal);
  const figures = responseFigures(best.network, best.output, best.sources);
  if (typeof figures === 'string') return undefined;
  const { peakHz, peakDb, minus3DbHz } = figures;
  const frequencies = Float64Array.of(10, ...around(peakHz ?? 1000), ...around(minus3DbHz ?? 1000));
  const here = gains(best, frequencies);
  if (!here) return { figures, resonanceHz: undefined, peakDb: undefined, minus3DbHz: undefined };
  const slopes = causes.map(({ sd }, index) => {
    if (!(sd > 0)) return { logPeak: 0, peakDb: 0, logMinus3: 0 };
    // One-sided and short: half the networks, and the bend over a hundredth of the deviation does not matter.
    const step = sd / 100;
    const moved = nominal.map((value, place) => (place === index ? value + step : value));
    const above = gains(build(moved), frequencies) ?? here;
    return movement(
      here,
      above.map((gain, place) => (gain - (here[place] ?? gain)) / step),
    );
  });
  const estimate = (value: number | null, slope: (each: (typeof slopes)[number]) => number): Estimate | undefined =>
    value === null ? undefined : { ...linear(causes, slopes.map(slope)), value };
  return {
    figures,
    resonanceHz: estimate(peakHz, ({ logPeak }) => logPeak * (peakHz ?? 0)) ?? null,
    peakDb: estimate(peakDb, (each) => each.peakDb),
    minus3DbHz: estimate(minus3DbHz, ({ logMinus3 }) => logMinus3 * (minus3DbHz ?? 0)),
  };
}

/** Wide enough for a second difference in double precision, narrow beside any resonance of a coil. */
const STEP = 0.01;
const around = (hz: number): readonly number[] => [hz * Math.exp(-STEP), hz, hz * Math.exp(STEP)];

/** Gains over 10 Hz: before, at and behind the peak, then the same about −3 dB. */
function gains({ network, output, sources }: DrivenNetwork, frequencies: Float64Array): readonly number[] | undefined {
  const response = responseOf(network, output, sources, frequencies);
  if (typeof response === 'string') return undefined;
  const [low = 0, ...rest] = response.levelDb;
  return rest.map((level) => level - low);
}

function movement(
  [a = 0, b = 0, c = 0, d = 0, , f = 0]: readonly number[],
  [da = 0, db = 0, dc = 0, , de = 0]: readonly number[],
): { readonly logPeak: number; readonly peakDb: number; readonly logMinus3: number } {
  const curvature = (a - 2 * b + c) / STEP ** 2;
  const tilt = (dc - da) / (2 * STEP);
  const slope = (f - d) / (2 * STEP);
  return {
    logPeak: curvature < 0 ? -tilt / curvature : 0,
    peakDb: db,
    logMinus3: slope === 0 ? 0 : -de / slope,
  };
}
