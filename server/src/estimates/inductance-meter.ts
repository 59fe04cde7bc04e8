/** What a bench meter for inductance shows between hot and ground, nothing connected: series inductance and quality factor. */

import { type Bench, benchRoomC } from '../model/bench.ts';
import { isGrounded } from '../model/netlist.ts';
import { ground } from '../physics/circuit/circuit.ts';
import { capacitor, currentSource } from '../physics/circuit/components.ts';
import { networkOf } from '../physics/circuit/network.ts';
import { solve } from '../physics/circuit/solve.ts';
import type { Complex } from '../physics/complex.ts';
import { type Estimate, estimateOf, functionOf } from '../quantities/estimate.ts';
import { NO_SCALING, type Scaling, scalingOf, windingComponents } from './electric.ts';
import { pickupMagnetics } from './magnetics.ts';
import { segmentsOf } from './pickup-circuit.ts';
import { NO_LOAD, pickupEstimates } from './pickup-estimates.ts';
import type { QuickEstimates } from './quick.ts';
import { asSwept } from './swept-whole.ts';

export interface InductanceMeterReading {
  readonly frequencyHz: number;
  /** Im Z / ω, henry. */
  readonly inductanceH: Estimate;
  /** Im Z / Re Z. */
  readonly quality: Estimate;
}

export interface InductanceMeter {
  /** The pickup's own resonance, with nothing on its leads. */
  readonly resonanceHz: Estimate | undefined;
  /** At a frequency surely below the resonance; `undefined` above it, where a meter shows no inductance, and near it. */
  at(frequencyHz: number): InductanceMeterReading | undefined;
}

/** `undefined` where resistance, inductance or the way from hot to ground is not known. */
export function inductanceMeter(
  built: QuickEstimates,
  bench: Bench | undefined,
  temperatureC = benchRoomC(bench),
): InductanceMeter | undefined {
  const quick = asSwept(built);
  const { inductanceH, resonanceHz } = pickupEstimates(quick, bench, NO_LOAD);
  const plain = impedance(quick, { ...NO_SCALING, temperatureC, capacitance: 0 }, LOW_HZ);
  if (!inductanceH || !plain || !(plain.im > 0)) return undefined;
  // A measured inductance stands in the place of the computed one, as it does for the resonance.
  const correction = inductanceH.value / (plain.im / (2 * Math.PI * LOW_HZ));
  const causes = [
    relative(
      [...quick.windings.values()].map(({ resistance20COhm }) => resistance20COhm),
      'resistance',
    ),
    estimateOf(correction, {
      sd: (inductanceH.sd / inductanceH.value) * correction,
      basis: 'computed',
      source: 'inductance',
    }),
    relative([pickupMagnetics(quick).capacitanceF], 'capacitance'),
    pickupMagnetics(quick).eddies().losses,
  ];
  return {
    resonanceHz: resonanceHz ?? undefined,
    at: (frequencyHz) => {
      // Near the resonance the inductance shown changes many times over: what is told must hold within the uncertainty.
      if (resonanceHz && frequencyHz >= resonanceHz.value - 2 * resonanceHz.sd) return undefined;
      const figure = (pick: (z: Complex) => number) =>
        functionOf(causes, (factors) => {
          const z = impedance(quick, { ...scalingOf(factors), temperatureC }, frequencyHz);
          return z ? pick(z) : Number.NaN;
        });
      const reading = {
        frequencyHz,
        inductanceH: figure(({ im }) => im / (2 * Math.PI * frequencyHz)),
        quality: figure(({ re, im }) => im / re),
      };
      return reading.inductanceH.value > 0 ? reading : undefined;
    },
  };
}

/** Far below every resonance and every eddy current. */
const LOW_HZ = 20;

function relative(estimates: readonly (Estimate | undefined)[], source: string): Estimate {
  const sd = Math.max(0, ...estimates.flatMap((each) => (each && each.value > 0 ? [each.sd / each.value] : [])));
  return estimateOf(1, { sd, basis: 'computed', source });
}

/** Between hot and ground, nothing connected, ohm; `undefined` where something of it is not known. */
export function pickupImpedance(built: QuickEstimates, frequencyHz: number): Complex | undefined {
  const quick = asSwept(built);
  return pickupMagnetics(quick).inductanceH && impedance(quick, NO_SCALING, frequencyHz);
}

function impedance(quick: QuickEstimates, scaling: Scaling, frequencyHz: number): Complex | undefined {
  const { netlist } = quick;
  const nodeOf = (net: number) => (isGrounded(netlist, net) ? ground : net === netlist.hot ? HOT : `net ${net}`);
  const magnetics = pickupMagnetics(quick);
  const { components } = windingComponents(segmentsOf(netlist, nodeOf), quick, magnetics, scaling, ground);
  const network = networkOf({
    components: [
      ...components,
      capacitor({ name: 'cable', from: HOT, to: ground, farad: magnetics.leadF * scaling.capacitance }),
      currentSource({ name: 'probe', from: ground, to: HOT }),
    ],
  });
  const solution = solve(network, frequencyHz, { probe: 1 });
  const voltage = solution === 'undetermined' ? 'floating' : solution.voltageAt(HOT);
  return voltage === 'floating' ? undefined : voltage;
}

const HOT = 'hot';
