/** A pickup's numbers as features, documents and reports read them. */
import { type Bench, benchMainsHz } from '../model/bench.ts';
import { ground } from '../physics/circuit/circuit.ts';
import { levelAgainstDb } from '../physics/circuit/combined-level.ts';
import { capacitor, currentSource, resistor, wire } from '../physics/circuit/components.ts';
import { type Network, networkOf } from '../physics/circuit/network.ts';
import { audioFrequencies, type ResponseFigures, responseFigures, responseOf } from '../physics/circuit/response.ts';
import { solve, transfers } from '../physics/circuit/solve.ts';
import { add, type Complex, magnitude, scale, zero } from '../physics/complex.ts';
import { type Estimate, estimateOf, functionOf, restingOn } from '../quantities/estimate.ts';
import { NO_SCALING, type Scaling, turnsShare, windingComponents } from './electric.ts';
import type { CoilEstimates, FrequencyResponse, PickupEstimates } from './estimates.ts';
import { leadReadings } from './lead-readings.ts';
import { ownCableF, pickupMagnetics } from './magnetics.ts';
import { type Segment, segmentsOf } from './pickup-circuit.ts';
import { REFERENCE_TURNS, stringShare } from './positions.ts';
import type { QuickEstimates } from './quick.ts';
import { scalingCauses } from './scaling-causes.ts';

/** What is known without any inductance. */
export function quickPickupEstimates(quick: QuickEstimates): PickupEstimates {
  const coils = new Map<string, CoilEstimates>();
  for (const [coil, winding] of quick.windings)
    coils.set(coil.name, { ...winding, inductanceAirH: undefined, inductanceH: undefined, capacitanceF: undefined });
  return {
    coils,
    resistance20COhm: quick.resistance20COhm,
    inductanceH: undefined,
    capacitanceF: undefined,
    resonanceHz: undefined,
    peakDb: undefined,
    phase: quick.phase,
    signalDb: quick.signalDb,
    humDb: quick.humDb,
    leadReadings: [],
  };
}

/** What hangs on a pickup while its response is computed. */
export interface Load {
  readonly volumeOhm: number | undefined;
  readonly toneOhm: number | undefined;
  readonly toneF: number;
  readonly cableF: number;
  readonly inputOhm: number | undefined;
  readonly words: string;
}

/** The bench's default load. Common practice, no published source. */
export const DEFAULT_LOAD: Load = {
  volumeOhm: 500e3,
  toneOhm: 500e3,
  toneF: 22e-9,
  cableF: 450e-12,
  inputOhm: 1e6,
  words: 'load: 500 kohm volume and tone at 10, 22 nF, 450 pF of cable, 1 Mohm',
};

export const NO_LOAD: Load = {
  volumeOhm: undefined,
  toneOhm: undefined,
  toneF: 0,
  cableF: 0,
  inputOhm: undefined,
  words: 'no load',
};

/** All numbers, inductances and resonance included. */
export function pickupEstimates(
  quick: QuickEstimates,
  bench: Bench | undefined,
  load: Load = quick.netlist.pickup.target?.resonance?.value.load === 'unloaded' ? NO_LOAD : DEFAULT_LOAD,
): PickupEstimates {
  const base = quickPickupEstimates(quick);
  const { pickup } = quick.netlist;
  const magnetics = pickupMagnetics(quick);
  const readings = leadReadings(quick, bench);
  const coils = new Map<string, CoilEstimates>();
  for (const [coil, winding] of quick.windings) {
    const magnetic = magnetics.coils.get(coil);
    coils.set(coil.name, {
      ...winding,
      inductanceAirH: magnetic?.airH,
      inductanceH: magnetic?.totalH,
      capacitanceF: magnetic?.capacitanceF,
    });
  }
  const known =
    pickup.coils.length > 0 &&
    pickup.coils.every((coil) => magnetics.coils.has(coil) && quick.windings.get(coil)?.resistance20COhm);
  if (!known || quick.netlist.hot === undefined || quick.netlist.ground === undefined)
    return { ...base, coils, leadReadings: readings };

  const { inductanceH, causes } = wholeInductance(quick);
  const figure = (pick: (figures: ResponseFigures) => number | null) => {
    const at = scaled((scaling) => {
      const figures = figuresUnder(quick, load, scaling);
      return (figures && pick(figures)) ?? Number.NaN;
    });
    const estimate = functionOf(causes, at);
    return Number.isFinite(estimate.value) ? restingOn(estimate, ...restsOnOf(quick), load.words) : undefined;
  };
  return {
    ...base,
    coils,
    inductanceH,
    capacitanceF: measuredCapacitance(quick) ?? outputCapacitance(quick),
    resonanceHz: figure(({ peakHz }) => peakHz),
    peakDb: figure(({ peakDb }) => peakDb),
    signalDb: inPlace(quick, 'string', 100) ?? base.signalDb,
    humDb: base.humDb && {
      ...base.humDb,
      value: inPlace(quick, 'hum', benchMainsHz(bench))?.value ?? base.humDb.value,
    },
    leadReadings: readings,
  };
}

/** The inductance between hot and ground, and what the response rests on, as factors of all resistances, inductances and capacitances. */
function wholeInductance(quick: QuickEstimates): {
  readonly inductanceH: Estimate;
  readonly causes: readonly Estimate[];
} {
  const causes = scalingCauses([quick]);
  const computed = functionOf(
    causes,
    scaled((scaling) => inductanceAt(quick, scaling)),
  );
  const inductanceH = measuredInductance(quick) ?? restingOn(computed, ...restsOnOf(quick));
  if (inductanceH.basis !== 'reading' || !(computed.value > 0)) return { inductanceH, causes };
  // Where the inductance was measured, everything that follows from it rests on the measured value.
  const correction = inductanceH.value / computed.value;
  const measured = estimateOf(correction, { sd: (inductanceH.sd / inductanceH.value) * correction, basis: 'reading' });
  return { inductanceH, causes: causes.map((cause, index) => (index === 1 ? measured : cause)) };
}

/** Factors of all resistances, inductances and capacitances with what is known of them. */
export const responseCauses = (quick: QuickEstimates): readonly Estimate[] => wholeInductance(quick).causes;

/** Response under a load, 0 dB the unloaded string signal of one coil of 5,000 turns. */
export function pickupResponse(
  quick: QuickEstimates,
  load: Load = DEFAULT_LOAD,
  scaling: Scaling = NO_SCALING,
): FrequencyResponse | undefined {
  const { network, segments } = loadedNetwork(quick, load, scaling);
  const response = responseOf(network, OUTPUT, stringSources(quick, segments), audioFrequencies());
  if (typeof response === 'string') return undefined;
  const reference = 20 * Math.log10(REFERENCE_TURNS);
  return { frequencyHz: [...response.frequencyHz], levelDb: [...response.levelDb].map((level) => level - reference) };
}

const OUTPUT = 'output';

function figuresUnder(quick: QuickEstimates, load: Load, scaling: Scaling): ResponseFigures | undefined {
  const { network, segments } = loadedNetwork(quick, load, scaling);
  const figures = responseFigures(network, OUTPUT, stringSources(quick, segments));
  return typeof figures === 'string' ? undefined : figures;
}

function loadedNetwork(
  quick: QuickEstimates,
  load: Load,
  scaling: Scaling,
): { network: Network; segments: readonly Segment[] } {
  const { netlist } = quick;
  const nodeOf = (net: number) =>
    net === netlist.ground || net === netlist.chassis ? ground : net === netlist.hot ? OUTPUT : `net ${net}`;
  const segments = segmentsOf(netlist, nodeOf);
  const { components } = windingComponents(segments, quick, pickupMagnetics(quick), scaling);
  const across = [
    ...(load.volumeOhm === undefined
      ? []
      : [resistor({ name: 'volume', from: OUTPUT, to: ground, ohm: load.volumeOhm })]),
    ...(load.toneOhm === undefined
      ? []
      : [
          resistor({ name: 'tone', from: OUTPUT, to: 'tone capacitor', ohm: load.toneOhm }),
          capacitor({ name: 'tone capacitor', from: 'tone capacitor', to: ground, farad: load.toneF }),
        ]),
    ...(load.inputOhm === undefined ? [] : [resistor({ name: 'input', from: OUTPUT, to: ground, ohm: load.inputOhm })]),
    capacitor({ name: 'cable', from: OUTPUT, to: ground, farad: load.cableF + ownCableF(netlist.pickup) }),
    wire({ name: 'hot', from: OUTPUT, to: OUTPUT }),
  ];
  return { network: networkOf({ components: [...components, ...across] }), segments };
}

function stringSources(quick: QuickEstimates, segments: readonly Segment[]): Record<string, number> {
  return Object.fromEntries(
    segments.map((segment) => {
      const sign = quick.signs.find(({ coil }) => coil === segment.coil)?.windPole?.sign ?? 1;
      const turns = quick.windings.get(segment.coil)?.turns?.value ?? 0;
      return [segment.source, sign * turns * turnsShare(segment, quick) * stringShare(segment)];
    }),
  );
}

function humSources(quick: QuickEstimates, segments: readonly Segment[]): Record<string, number> {
  return Object.fromEntries(
    segments.map((segment) => {
      const sign = quick.signs.find(({ coil }) => coil === segment.coil)?.wind?.sign ?? 1;
      const area = quick.windings.get(segment.coil)?.turnAreaM2?.value ?? 0;
      return [segment.source, sign * area * turnsShare(segment, quick)];
    }),
  );
}

/** String signal or hum at the unloaded output against the strongest coil in place, inductances and couplings included. */
function inPlace(quick: QuickEstimates, what: 'string' | 'hum', frequencyHz: number): Estimate | undefined {
  if (
    quick.signs.some(
      ({ windPole, wind, transfer }) => transfer !== undefined && (what === 'string' ? !windPole : !wind),
    )
  )
    return undefined;
  const { network, segments } = loadedNetwork(quick, NO_LOAD, NO_SCALING);
  const shares = transfers(network, OUTPUT, frequencyHz);
  if (typeof shares === 'string') return undefined;
  const sources = what === 'string' ? stringSources(quick, segments) : humSources(quick, segments);
  const byCoil = new Map<string, Complex>();
  for (const { source, coil } of segments) {
    const share = shares[network.sources.indexOf(source)] ?? zero;
    byCoil.set(coil.name, add(byCoil.get(coil.name) ?? zero, scale(share, sources[source] ?? 0)));
  }
  const contributions = [...byCoil.values()];
  const value = levelAgainstDb(contributions, Math.max(0, ...contributions.map(magnitude)));
  return estimateOf(value, { sd: 0.1, basis: 'computed', restsOn: ['turns and their signs'] });
}

/** Inductance between hot and ground at a frequency where capacitance and eddy currents play no part. */
function inductanceAt(quick: QuickEstimates, scaling: Scaling): number {
  const { netlist } = quick;
  const nodeOf = (net: number) =>
    net === netlist.ground || net === netlist.chassis ? ground : net === netlist.hot ? OUTPUT : `net ${net}`;
  const { components } = windingComponents(segmentsOf(netlist, nodeOf), quick, pickupMagnetics(quick), {
    ...scaling,
    capacitance: 0,
  });
  const network = networkOf({
    components: [...components, currentSource({ name: 'probe', from: ground, to: OUTPUT })],
  });
  const solution = solve(network, INDUCTANCE_HZ, { probe: 1 });
  const voltage = solution === 'undetermined' ? 'floating' : solution.voltageAt(OUTPUT);
  return voltage === 'floating' ? Number.NaN : voltage.im / (2 * Math.PI * INDUCTANCE_HZ);
}

const INDUCTANCE_HZ = 20;

const scaled =
  (f: (scaling: Scaling) => number) =>
  ([resistance = 1, inductance = 1, capacitance = 1]: readonly number[]): number =>
    f({ temperatureC: 20, resistance, inductance, capacitance });

const restsOnOf = (quick: QuickEstimates): readonly string[] => [
  ...new Set([...pickupMagnetics(quick).coils.values()].flatMap(({ totalH }) => totalH.restsOn)),
];

/** A reading of the whole pickup's inductance stands in the place of the estimate. */
function measuredInductance({ netlist }: QuickEstimates): Estimate | undefined {
  const lines = netlist.pickup.readings.flatMap(({ found, lines: all }) => (found ? [] : all));
  for (const line of [...lines].reverse()) {
    if (line.kind !== 'inductance') continue;
    const nets = [line.probes.red, line.probes.black].map((path) => netlist.netOf(netlist.resolve(path) ?? ''));
    if (!nets.includes(netlist.hot) || !nets.includes(netlist.ground)) continue;
    return estimateOf(line.value.si, {
      sd: line.value.sd ?? INDUCTANCE_METER_RELATIVE_SD * line.value.si,
      basis: 'reading',
      restsOn: [`reading ${line.value.written}${line.atHz ? ` at ${line.atHz.written}` : ''}`],
    });
  }
  return undefined;
}

/** A bench inductance meter on a lossy coil. Common practice, no published source. */
const INDUCTANCE_METER_RELATIVE_SD = 0.02;

function measuredCapacitance({ netlist }: QuickEstimates): Estimate | undefined {
  const line = netlist.pickup.readings
    .flatMap(({ found, lines }) => (found ? [] : lines))
    .findLast(({ kind }) => kind === 'capacitance');
  if (line?.kind !== 'capacitance') return undefined;
  return estimateOf(line.value.si, {
    sd: line.value.sd ?? 0.05 * line.value.si,
    basis: 'reading',
    restsOn: [`reading ${line.value.written}`],
  });
}

/** Capacitance seen between hot and ground well below resonance: each coil's own by the square of its share of the voltage. */
function outputCapacitance(quick: QuickEstimates): Estimate | undefined {
  const live = quick.signs.filter(({ transfer }) => transfer !== undefined && Math.abs(transfer) > 0);
  const inductances = pickupMagnetics(quick).coils;
  const total = live.reduce((sum, { coil }) => sum + (inductances.get(coil)?.totalH.value ?? 0), 0);
  if (!(total > 0)) return undefined;
  const shares = live.map(({ coil, transfer = 0 }) =>
    Math.abs(transfer) > 0.999 ? (inductances.get(coil)?.totalH.value ?? 0) / total : 1,
  );
  const terms = live.map(({ coil }) => inductances.get(coil)?.capacitanceF ?? estimateOf(0, { basis: 'assumed' }));
  const own = functionOf(terms, (values) =>
    values.reduce((sum, farad, index) => sum + farad * (shares[index] ?? 0) ** 2, 0),
  );
  const cable = ownCableF(quick.netlist.pickup);
  return cable > 0 ? { ...own, value: own.value + cable } : own;
}
