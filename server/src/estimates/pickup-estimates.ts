/** A pickup's numbers as features, documents and reports read them. */

import { given } from '../../../grammar/values/present.ts';
import { type Bench, benchMainsHz } from '../model/bench.ts';
import { isGrounded } from '../model/netlist.ts';
import type { Pickup } from '../model/pickup.ts';
import { ground } from '../physics/circuit/circuit.ts';
import { capacitor, resistor, wire } from '../physics/circuit/components.ts';
import { type Network, networkOf } from '../physics/circuit/network.ts';
import { audioFrequencies, responseFigures, responseOf } from '../physics/circuit/response.ts';
import { add, type Complex, divide, zero } from '../physics/complex.ts';
import { type Basis, type Estimate, estimateOf, restingOn, sum } from '../quantities/estimate.ts';
import { causes, pieceName } from './causes.ts';
import { told } from './coil-winding.ts';
import {
  BARE_STACK_PEAK_SD_DB,
  DEFAULT_CABLE_F,
  DEFAULT_INPUT_OHM,
  DEFAULT_POTS_OHM,
  DEFAULT_TONE_F,
} from './common-practice.ts';
import { NO_SCALING, type Scaling, scalingOf, UNSCREENED, windingComponents } from './electric.ts';
import type { CoilEstimates, FrequencyResponse, PickupEstimates } from './estimates.ts';
import { leadReadings } from './lead-readings.ts';
import { type Contribution, levelInPlace } from './level-in-place.ts';
import { CAPACITORS_CAUSE, tracksCause } from './load-causes.ts';
import { areCoilsKnown, pickupMagnetics } from './magnetics.ts';
import { responseBasis } from './measured-basis.ts';
import { farads } from './own-cable.ts';
import { segmentsOf } from './pickup-circuit.ts';
import type { QuickEstimates } from './quick.ts';
import { because } from './reasons.ts';
import { responseEstimates } from './response-estimates.ts';
import { scalingCauses } from './scaling-causes.ts';
import {
  contributionsOf,
  type Drive,
  loudnessReasons,
  REFERENCE_LEVEL_DB,
  type Source,
  stringDrives,
} from './sources.ts';
import { asSwept } from './swept-whole.ts';
import { wholeAsRead } from './whole-as-read.ts';

/** What is known without any inductance. */
export function quickPickupEstimates(quick: QuickEstimates): PickupEstimates {
  const coils = new Map<string, CoilEstimates>();
  for (const [coil, winding] of quick.windings)
    coils.set(coil.name, {
      ...told(winding),
      inductanceAirH: undefined,
      inductanceH: undefined,
      capacitanceF: undefined,
    });
  return {
    coils,
    resistance20COhm: quick.resistance20COhm,
    inductanceH: undefined,
    capacitanceF: undefined,
    resonanceHz: undefined,
    minus3DbHz: undefined,
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

/** The bench's default load, or that with another cable. */
export const loadWithCable = (cableF: number): Load => ({
  volumeOhm: DEFAULT_POTS_OHM,
  toneOhm: DEFAULT_POTS_OHM,
  toneF: DEFAULT_TONE_F,
  cableF,
  inputOhm: DEFAULT_INPUT_OHM,
  words: because('load: 500\u202FkΩ volume and tone at 10, 22\u202FnF, {0} of cable, 1\u202FMΩ', farads(cableF)),
});

export const DEFAULT_LOAD: Load = loadWithCable(DEFAULT_CABLE_F);

export const NO_LOAD: Load = {
  volumeOhm: undefined,
  toneOhm: undefined,
  toneF: 0,
  cableF: 0,
  inputOhm: undefined,
  words: because('without a load'),
};

/** What a pickup's own numbers are computed with: nothing where its target says so, else the default load, its cable as chosen. */
export function loadOf({ target }: Pickup, cableF?: number): Load {
  if (target?.resonance?.value.load === 'unloaded') return NO_LOAD;
  return cableF === undefined ? DEFAULT_LOAD : loadWithCable(cableF);
}

/** What lies across the leads at a frequency, siemens. */
export function loadAdmittance({ volumeOhm, toneOhm, toneF, cableF, inputOhm }: Load, hz: number): Complex {
  const omega = 2 * Math.PI * hz;
  const tone =
    toneOhm === undefined ? zero : divide({ re: 0, im: omega * toneF }, { re: 1, im: omega * toneF * toneOhm });
  const plain = (volumeOhm === undefined ? 0 : 1 / volumeOhm) + (inputOhm === undefined ? 0 : 1 / inputOhm);
  return add(tone, { re: plain, im: omega * cableF });
}

/** All numbers, inductances and resonance included. */
export function pickupEstimates(
  quick: QuickEstimates,
  bench: Bench | undefined,
  load: Load = loadOf(quick.netlist.pickup),
): PickupEstimates {
  const base = quickPickupEstimates(quick);
  const { pickup } = quick.netlist;
  const magnetics = pickupMagnetics(quick);
  const readings = leadReadings(quick, bench);
  const coils = new Map<string, CoilEstimates>();
  for (const [coil, winding] of quick.windings) {
    const magnetic = magnetics.coils.get(coil);
    coils.set(coil.name, {
      ...told(winding),
      inductanceAirH: magnetic?.airH,
      inductanceH: magnetic?.totalH,
      capacitanceF: magnetic?.capacitances.windingF,
    });
  }
  const seen = asSwept(quick);
  if (!areCoilsKnown(seen) || quick.netlist.hot === undefined || quick.netlist.ground === undefined)
    return { ...base, ...wholeAsRead(quick), coils, leadReadings: readings };

  const { inductanceH, capacitanceF, eddies } = pickupMagnetics(seen);
  const response = responseEstimates(responseCauses(quick, load), (factors) => {
    const loaded = loadedNetwork(quick, load, scalingOf(factors));
    return { ...loaded, sources: stringDrives(loaded) };
  });
  const reasons = [
    ...(inductanceH?.restsOn ?? []),
    ...(capacitanceF?.restsOn ?? []),
    ...eddies().losses.restsOn,
    load.words,
    ...loudnessReasons([seen]),
  ];
  const basis = responseBasis(seen);
  const resting = (estimate: Estimate, by: Basis): Estimate => ({ ...restingOn(estimate, ...reasons), basis: by });
  const levels = levelsInPlace(quick, benchMainsHz(bench));
  return {
    ...base,
    coils,
    ...given({ isSweptWhole: seen.coilsSweptWhole === undefined ? undefined : (true as const) }),
    resistance20COhm: seen.resistance20COhm,
    inductanceH,
    capacitanceF,
    resonanceHz: response?.resonanceHz && resting(response.resonanceHz, basis.frequency),
    minus3DbHz:
      response?.resonanceHz === null && response.minus3DbHz ? resting(response.minus3DbHz, basis.frequency) : undefined,
    peakDb: response?.peakDb && resting(sum(response.peakDb, unlikeCoils(pickup, load)), basis.height),
    signalDb: levels.signalDb ?? base.signalDb,
    humDb: base.humDb && (levels.humDb ?? base.humDb),
    leadReadings: readings,
  };
}

/**
 * Bare, the two coils of a stack also ring against each other, by what their capacitances and their coupling differ in: nothing that one
 * factor of all of them tells. A cable hides it.
 */
const unlikeCoils = (pickup: Pickup, { cableF }: Load): Estimate =>
  estimateOf(0, {
    sd: cableF === 0 && pickup.coils.some(({ below }) => below) ? BARE_STACK_PEAK_SD_DB : 0,
    basis: 'assumed',
    source: causes.unlikeCoils(pieceName(pickup)),
  });

/** Factors of all resistances, inductances, capacitances and losses with what is known of them, and of the pots and capacitors that load. */
export const responseCauses = (quick: QuickEstimates, load: Load): readonly Estimate[] => [
  ...scalingCauses([asSwept(quick)]),
  ...loadCausesOf(load).map(({ cause }) => cause),
];

/** What is not known of the pots and capacitors of a load, and the load with each moved by one deviation. */
export function loadCausesOf(load: Load): readonly { readonly cause: Estimate; readonly moved: Load }[] {
  const { toneOhm, volumeOhm, toneF } = load;
  const pots = [toneOhm, volumeOhm].filter((ohm) => ohm !== undefined).length;
  if (pots === 0) return [];
  const tracks = tracksCause(pots);
  const wider = (ohm: number | undefined) => ohm && ohm * (1 + tracks.sd);
  return [
    { cause: tracks, moved: { ...load, toneOhm: wider(toneOhm), volumeOhm: wider(volumeOhm) } },
    { cause: CAPACITORS_CAUSE, moved: { ...load, toneF: toneF * (1 + CAPACITORS_CAUSE.sd) } },
  ];
}

/** Response under a load, 0 dB the unloaded string signal of one coil of 5,000 turns. */
export function pickupResponse(
  quick: QuickEstimates,
  load: Load = DEFAULT_LOAD,
  scaling: Scaling = NO_SCALING,
): FrequencyResponse | undefined {
  const loaded = loadedNetwork(quick, load, scaling);
  const response = responseOf(loaded.network, OUTPUT, stringDrives(loaded), audioFrequencies());
  if (typeof response === 'string') return undefined;
  return {
    frequencyHz: [...response.frequencyHz],
    levelDb: [...response.levelDb].map((level) => level - REFERENCE_LEVEL_DB),
  };
}

const OUTPUT = 'output';

/** Resonance and its height with values that differ from their best estimates. */
export function scaledResonance(
  quick: QuickEstimates,
  load: Load,
  scaling: Scaling,
): { readonly hz: number; readonly db: number } | undefined {
  const loaded = loadedNetwork(quick, load, scaling);
  const figures = responseFigures(loaded.network, OUTPUT, stringDrives(loaded));
  if (typeof figures === 'string' || figures.peakHz === null || figures.peakDb === null) return undefined;
  return { hz: figures.peakHz, db: figures.peakDb };
}

interface LoadedPickup {
  readonly network: Network;
  readonly output: string;
  readonly segments: readonly Source[];
  readonly loudness: number;
}

function loadedNetwork(built: QuickEstimates, load: Load, scaling: Scaling): LoadedPickup {
  const quick = asSwept(built);
  const { netlist } = quick;
  const nodeOf = (net: number) => (isGrounded(netlist, net) ? ground : net === netlist.hot ? OUTPUT : `net ${net}`);
  const segments = segmentsOf(netlist, nodeOf);
  const magnetics = pickupMagnetics(quick);
  const { components } = windingComponents(segments, quick, magnetics, scaling, ground);
  const across = [
    ...(load.volumeOhm === undefined
      ? []
      : [resistor({ name: 'volume', from: OUTPUT, to: ground, ohm: load.volumeOhm * scaling.tracks })]),
    ...(load.toneOhm === undefined
      ? []
      : [
          resistor({ name: 'tone', from: OUTPUT, to: 'tone capacitor', ohm: load.toneOhm * scaling.tracks }),
          capacitor({
            name: 'tone capacitor',
            from: 'tone capacitor',
            to: ground,
            farad: load.toneF * scaling.capacitors,
          }),
        ]),
    ...(load.inputOhm === undefined ? [] : [resistor({ name: 'input', from: OUTPUT, to: ground, ohm: load.inputOhm })]),
    capacitor({ name: 'cable', from: OUTPUT, to: ground, farad: load.cableF + magnetics.leadF * scaling.capacitance }),
    wire({ name: 'hot', from: OUTPUT, to: OUTPUT }),
  ];
  return {
    network: networkOf({ components: [...components, ...across] }),
    output: OUTPUT,
    segments: segments.map((segment) => ({ segment, quick })),
    loudness: scaling.loudness,
  };
}

/** String signal at 100 Hz and hum at the unloaded output against the strongest coil in place, inductances and couplings included. */
function levelsInPlace(
  quick: QuickEstimates,
  mainsHz: number,
): { readonly signalDb: Estimate | undefined; readonly humDb: Estimate | undefined } {
  const signal = pickupContributions(quick, NO_LOAD, 'string', 100);
  const hum = pickupContributions(quick, NO_LOAD, 'hum', mainsHz);
  return {
    signalDb: signal && levelInPlace(signal),
    humDb: hum && restingOn(levelInPlace(hum), UNIFORM_FIELD),
  };
}

/**
 * What each coil of a pickup gives to its output at a frequency: of a string by its turns, of hum in a uniform field by its
 * turn-area. `undefined` where a sign is not known, or nothing connects hot to ground.
 */
export function pickupContributions(
  quick: QuickEstimates,
  load: Load,
  what: Drive,
  frequencyHz: number,
): readonly Contribution[] | undefined {
  const connected = quick.signs.filter(({ transfer }) => transfer !== undefined);
  if (!connected.every(({ wind, windPole }) => (what === 'string' ? windPole : wind))) return undefined;
  return contributionsOf(loadedNetwork(quick, load, what === 'hum' ? UNSCREENED : NO_SCALING), what, frequencyHz);
}

export const UNIFORM_FIELD = because('uniform field; the steel of the poles is left out');
