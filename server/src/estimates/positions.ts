/** Every selector position of an instrument, pots anywhere: resistance at the jack, phase, hum, signal and response. */

import { given } from '../../../grammar/values/present.ts';
import { type Bench, benchMainsHz, benchRoomC } from '../model/bench.ts';
import type { Sign } from '../model/coil.ts';
import type { Instrument, Position, Selection, Slot } from '../model/instrument.ts';
import { partsOf, slotsOf } from '../model/selection.ts';
import { ground } from '../physics/circuit/circuit.ts';
import { resistanceBetween } from '../physics/circuit/dc.ts';
import { audioFrequencies, type Drives, responseOf } from '../physics/circuit/response.ts';
import { cancelledDb, isSilentDb } from '../physics/circuit/silence.ts';
import { transfers } from '../physics/circuit/solve.ts';
import { type Basis, type Estimate, estimateOf, functionOf } from '../quantities/estimate.ts';
import { printCelsius } from '../quantities/print.ts';
import { USUAL_SCALE_M } from './common-practice.ts';
import { NO_SCALING, scalingOf, UNSCREENED } from './electric.ts';
import type { FrequencyResponse, PhaseVerdict, PositionEstimates, UntoldPosition } from './estimates.ts';
import { type Contribution, leavesByPlaces, levelInPlace, levelWithBound } from './level-in-place.ts';
import { CAPACITORS_CAUSE, cableCause, controlsAcross, tracksCause } from './load-causes.ts';
import { areCoilsKnown, pickupMagnetics } from './magnetics.ts';
import { positionBasis } from './measured-basis.ts';
import { farads } from './own-cable.ts';
import { humDb as combinedHumDb, type HumVerdict, humVerdict, phaseOf, type Sounding, stringShare } from './phase.ts';
import {
  AS_PLAYED,
  AT_THE_METER,
  BLEND_MIDDLE,
  blendsLeftOut,
  type PlacedSegment,
  type Played,
  type PositionNetwork,
  positionNetwork,
  type QuickOf,
  type Setting,
} from './position-network.ts';
import type { QuickEstimates } from './quick.ts';
import { because } from './reasons.ts';
import { responseEstimates } from './response-estimates.ts';
import { resistanceCauseOf, scalingCauses } from './scaling-causes.ts';
import { areaShareOf, turnsShareOf } from './segment-shares.ts';
import { times } from './sign-system.ts';
import { contributionsOf, loudnessReasons, REFERENCE_LEVEL_DB, stringDrives } from './sources.ts';
import { quickAsSwept, sweptWhole } from './swept-whole.ts';

/** A coil as it stands in a position. */
export interface SoundingCoil extends Sounding {
  /** Of all its turns, those that sound: less than 1 where a tap leaves some out. */
  readonly turnsShare: number;
  readonly slot: Slot;
  readonly placed: PlacedSegment;
}

export const FULL_UP: Played = { volume: 10, tone: 10 };

export function positionEstimates(
  instrument: Instrument,
  position: Position,
  quickOf: QuickOf,
  bench: Bench | undefined,
  played: Played = FULL_UP,
): PositionEstimates {
  const { selection } = position;
  const base = { key: position.key.value, title: position.title };
  const complete = selection && slotsOf(selection).every(({ pickup }) => pickup !== undefined);
  if (!selection || !complete) return { ...base, ...NOTHING_KNOWN };
  const resistanceOhm = jackResistance({ instrument, quickOf, bench }, selection, { played });
  const settings: Setting = { ...AS_PLAYED, ...played };
  const sounding = coilsHeard(positionNetwork(instrument, selection, quickOf, AT_THE_METER), selection);
  const phase = phaseAmong(sounding, pickupsOf(selection, quickOf));
  const asSwept = quickAsSwept(selection, quickOf);
  const quick = pickupsOf(selection, asSwept);
  if (!isResponseKnown(quick))
    return { ...base, ...NOTHING_KNOWN, resistanceOhm, phase, untold: untoldPosition(selection, asSwept) };
  // As it is soldered nothing reaches the jack: what strays carry there has no resonance worth telling.
  if (selection.kind === 'nets' && sounding.length === 0)
    return { ...base, ...NOTHING_KNOWN, resistanceOhm, phase, levelDb: null, resonanceHz: null, response: silence() };

  const driven = (factors: readonly number[]) =>
    positionNetwork(instrument, selection, asSwept, { ...settings, scaling: scalingOf(factors) });
  const full = driven([]);
  const string = stringDrives(full);
  const response = responseEstimates(positionCauses(instrument, selection, quick, played), (values) => {
    const position = driven(values);
    return { network: position.network, output: position.output, sources: stringDrives(position) };
  });
  // Where nothing is connected, what strays carry is no sound; how loud it is follows from turns.
  const isHeard = sounding.length > 0 && quick.every(fullyKnown);
  const contributions = isHeard ? contributionsOf(full, 'string', STRING_HZ, stringPlaces(instrument)) : undefined;
  const restsOn = [
    ...new Set(
      quick.flatMap((each) => {
        const { inductanceH, capacitanceF, eddies } = pickupMagnetics(each);
        return [...(inductanceH?.restsOn ?? []), ...(capacitanceF?.restsOn ?? []), ...eddies().losses.restsOn];
      }),
    ),
    loadWords(instrument, played),
    ...loudnessReasons(quick),
    ...(contributions && leavesByPlaces(contributions) ? [TWO_PLACES] : []),
    ...blendsLeftOut(instrument, selection).map(({ forSlot, other }) =>
      because('the blend of {0} and {1} left out, they are in series here', forSlot.value, other.value),
    ),
  ];
  const resting = (value: Estimate | undefined, basis?: Basis) => value && { ...value, restsOn, ...given({ basis }) };
  const basis = positionBasis(selection, asSwept);
  return {
    ...base,
    resistanceOhm,
    phase,
    resonanceHz: response?.resonanceHz === null ? null : resting(response?.resonanceHz, basis.frequency),
    peakDb: resting(response?.peakDb, basis.height),
    minus3DbHz: resting(response?.minus3DbHz, basis.frequency),
    levelDb:
      response && quick.every(fullyKnown)
        ? levelOrSilence(
            response.figures.lowFrequencyLevelDb - REFERENCE_LEVEL_DB,
            contributions && levelWithBound(contributions),
            [...restsOn, MAGNETS_LEFT_OUT],
          )
        : undefined,
    signalDb: contributions && resting(levelInPlace(contributions)),
    humDb: isHeard ? humLevel({ instrument, quickOf, bench }, selection, settings) : undefined,
    response: responseAt(full, string),
  };
}

const silence = (frequencies: ArrayLike<number> = audioFrequencies()): FrequencyResponse => ({
  frequencyHz: Array.from(frequencies),
  levelDb: Array.from(frequencies, () => cancelledDb),
});

/** Where every pickup has its hookup and yet nothing drives the output, no kick settles anything: it is silent. */
const phaseAmong = (sounding: readonly SoundingCoil[], quick: readonly QuickEstimates[]): PhaseVerdict =>
  sounding.length === 0 && quick.every(({ netlist: { hot, ground } }) => hot !== undefined && ground !== undefined)
    ? 'silent'
    : phaseOf(sounding);

/** `null`: silence. */
const TWO_PLACES = because(
  'of a string heard at two places only what it sounds alike there cancels, over all its harmonics and held at the octave',
);

/** Coils that cancel wholly are no silence where each is known to its ± only, or where a string is heard at two places. */
function levelOrSilence(
  db: number,
  string: ReturnType<typeof levelWithBound> | undefined,
  restsOn: readonly string[],
): Estimate | null {
  const value = Math.max(db, cancelledDb);
  const { db: own = db, boundDb = db } = string ?? {};
  const bound = isSilentDb(db) ? boundDb - REFERENCE_LEVEL_DB : value + (boundDb - own);
  return isSilentDb(bound) ? null : estimateOf(value, { sd: Math.max(0, bound - value), basis: 'computed', restsOn });
}

/**
 * Where the strings run over a pickup, as an angle. A string held at the octave swings with half its length; there two places differ more
 * than on the open string.
 */
function stringPlaces({ scale }: Instrument): (slot: Slot) => number | undefined {
  const swingingM = (scale?.value.si ?? USUAL_SCALE_M) / 2;
  return ({ distance }) =>
    distance && distance.si > 0 && distance.si < swingingM ? (Math.PI * distance.si) / swingingM : undefined;
}

/** The response of a position at these frequencies, each solved for itself; `undefined` where it is not known. */
export function positionResponse(
  instrument: Instrument,
  { selection }: Position,
  quickOf: QuickOf,
  frequencyHz: readonly number[],
  played: Played = FULL_UP,
): FrequencyResponse | undefined {
  if (!selection || slotsOf(selection).some(({ pickup }) => pickup === undefined)) return undefined;
  const asSwept = quickAsSwept(selection, quickOf);
  if (!isResponseKnown(pickupsOf(selection, asSwept))) return undefined;
  const sounding = coilsHeard(positionNetwork(instrument, selection, quickOf, AT_THE_METER), selection);
  if (selection.kind === 'nets' && sounding.length === 0) return silence(frequencyHz);
  const full = positionNetwork(instrument, selection, asSwept, { ...AS_PLAYED, ...played });
  return responseAt(full, stringDrives(full), Float64Array.from(frequencyHz));
}

const MAGNETS_LEFT_OUT = because('magnets alike: what a stronger or weaker one changes is left out');

const STRING_HZ = 100;

const humLevel = (
  { instrument, quickOf, bench }: InstrumentAtBench,
  selection: Selection,
  settings: Setting,
): Estimate | undefined =>
  levelOf(
    contributionsOf(
      positionNetwork(instrument, selection, quickOf, { ...settings, scaling: UNSCREENED }),
      'hum',
      benchMainsHz(bench),
    ),
  );

/** Of a position as it is played; `undefined` where the size of a coil is not known. */
export const positionHum = (at: InstrumentAtBench, selection: Selection): Estimate | undefined =>
  pickupsOf(selection, at.quickOf).every(fullyKnown) ? humLevel(at, selection, AS_PLAYED) : undefined;

export type PositionLevels = Pick<PositionEstimates, 'key' | 'title' | 'phase' | 'signalDb' | 'humDb'> & {
  /** Of coils counted alike where nobody knows their sizes; `undefined` for one coil, or where a sign is open. */
  readonly hum: HumVerdict | undefined;
};

/** Phase and levels alone, without the response that takes most of the time. */
export function positionLevels(at: InstrumentAtBench, { key, title, selection }: Position): PositionLevels {
  const unknown = { phase: NOTHING_KNOWN.phase, hum: undefined, signalDb: undefined, humDb: undefined };
  const base = { key: key.value, title, ...unknown };
  const { instrument, quickOf } = at;
  if (!selection || slotsOf(selection).some(({ pickup }) => pickup === undefined)) return base;
  const coils = coilsHeard(positionNetwork(instrument, selection, quickOf, AT_THE_METER), selection);
  const phase = phaseAmong(coils, pickupsOf(selection, quickOf));
  const alikeDb = combinedHumDb(coils);
  const verdict = (db: number | undefined) => (db === undefined ? undefined : humVerdict(db));
  if (coils.length === 0 || pickupsOf(selection, quickOf).some((each) => !fullyKnown(each)))
    return { ...base, phase, hum: verdict(alikeDb) };
  const full = positionNetwork(instrument, selection, quickOf, AS_PLAYED);
  const humDb = positionHum(at, selection);
  const signalDb = levelOf(contributionsOf(full, 'string', STRING_HZ, stringPlaces(instrument)));
  return { ...base, phase, hum: alikeDb === undefined ? undefined : verdict(humDb?.value), signalDb, humDb };
}

/** What is known of a position's pickups, of its controls and of the cable: factors in the order that `scalingOf` takes. */
export function positionCauses(
  instrument: Instrument,
  selection: Selection,
  quick: readonly QuickEstimates[],
  played: Played,
): readonly Estimate[] {
  const pots = controlsIn(instrument, selection).filter(({ kind }) => kind !== 'bleed');
  return [...scalingCauses(quick), tracksCause(pots.length), CAPACITORS_CAUSE, cableCause(instrument, played)];
}

const controlsIn = (instrument: Instrument, selection: Selection) =>
  controlsAcross(
    instrument,
    slotsOf(selection).map(({ name }) => name),
  );

/** Volumes that a meter at the jack reads beside the pickups of a position. */
export const volumesIn = (instrument: Instrument, selection: Selection): number =>
  controlsIn(instrument, selection).filter(({ kind }) => kind === 'volume').length;

const levelOf = (contributions: readonly Contribution[] | undefined): Estimate | undefined =>
  contributions && {
    ...levelInPlace(contributions),
    restsOn: [because('uniform field; the steel of the poles is left out')],
  };

const NOTHING_KNOWN = {
  resistanceOhm: undefined,
  resonanceHz: undefined,
  peakDb: undefined,
  minus3DbHz: undefined,
  levelDb: undefined,
  phase: 'unproven' as PhaseVerdict,
  signalDb: undefined,
  humDb: undefined,
  response: undefined,
};

const loadWords = (instrument: Instrument, played: Played): string => {
  const { cable, input } = instrument;
  return because(
    'cable {0}, input {1}, volume {2}, tone {3}',
    cableWords(cable, played),
    input ? input.value.written : because('{0}, assumed', '1\u202FMΩ'),
    played.volume,
    toneWords(instrument, played),
  );
};

/** `volume 10, tone 5`, `volume 10, tone 10, neck at volume 7 and tone 10, blend 5` */
export const potWords = (instrument: Instrument, played: Played): string =>
  `volume ${played.volume}, tone ${toneWords(instrument, played)}`;

/** Where the tone stands, and what else is told behind it. */
function toneWords({ controls }: Instrument, { volume, tone, blend, apart = {} }: Played): string {
  const single = Object.entries(apart).reduce(
    (words, [slot, knobs]) =>
      because('{0}, {1} at volume {2} and tone {3}', words, slot, knobs.volume ?? volume, knobs.tone ?? tone),
    String(tone),
  );
  const hasBlend = controls.some(({ kind }) => kind === 'blend');
  return hasBlend ? because('{0}, blend {1}', single, blend ?? BLEND_MIDDLE) : single;
}

export function cableWords(cable: Instrument['cable'], { cableF }: Played = FULL_UP): string {
  if (cableF !== undefined) return because('{0}, as chosen', farads(cableF));
  return cable
    ? because('{0} of {1}', cable.value.length.written, cable.value.capacitancePerLength.written)
    : because('{0}, assumed', '450\u202FpF');
}

const pickupsOf = (selection: Selection, quickOf: QuickOf): readonly QuickEstimates[] =>
  slotsOf(selection).flatMap(({ pickup }) => (pickup ? [quickOf(pickup)] : []));

const fullyKnown = (quick: QuickEstimates): boolean =>
  [...quick.windings.values()].every(({ turns, buildM, resistance20COhm }) => turns && buildM && resistance20COhm);

/** Of every coil what a circuit asks for, measured or computed. */
const isResponseKnown = (quick: readonly QuickEstimates[]): boolean =>
  quick.every((each) => fullyKnown(each) || areCoilsKnown(each));

/** What is to be said where a sweep leaves a response open. */
function untoldPosition(selection: Selection, quickOf: QuickOf): UntoldPosition | undefined {
  const parts = partsOf(selection);
  for (const part of parts) {
    const { pickup } = part.slot;
    const quick = pickup && quickOf(pickup);
    if (!quick || areCoilsKnown(quick) || !sweptWhole(quick)) continue;
    const asked = parts.flatMap((each) => (each.slot === part.slot && each.kind === 'coil' ? [each.coil] : []));
    const coils = asked.length > 0 ? [...new Set(asked)] : pickup.coils.map(({ name }) => name);
    return {
      because: 'swept whole',
      pickup: part.slot.name,
      sweep: coils.map((name) => [`${name}.start`, `${name}.finish`] as const),
    };
  }
  return undefined;
}

/** An instrument with the pickups as they are computed, and the bench it lies on. */
export interface InstrumentAtBench {
  readonly instrument: Instrument;
  readonly quickOf: QuickOf;
  readonly bench: Bench | undefined;
}

/** What a meter on the jack reads in the bench's room, nothing plugged in, pots where they are. */
export function jackResistance(
  { instrument, quickOf, bench }: InstrumentAtBench,
  selection: Selection,
  {
    played = FULL_UP,
    temperatureC = benchRoomC(bench),
  }: { readonly played?: Played; readonly temperatureC?: number } = {},
): Estimate | null | undefined {
  const asSwept = quickAsSwept(selection, quickOf);
  const quick = pickupsOf(selection, asSwept);
  const resistances = quick.flatMap((each) =>
    [...each.windings.values()].map(({ resistance20COhm }) => resistance20COhm),
  );
  if (resistances.some((each) => each === undefined)) return undefined;
  const at = (resistance: number, tracks: number) => {
    const setting = { ...AT_THE_METER, ...played, scaling: { ...NO_SCALING, temperatureC, resistance, tracks } };
    const { network, output } = positionNetwork(instrument, selection, asSwept, setting);
    return resistanceBetween(network, output, ground);
  };
  const best = at(1, 1);
  if (best === null) return null;
  // Their relative errors with equal weights: they are alike where the wire is, and the pots change little.
  const cause = resistanceCauseOf(partsOf(selection), asSwept);
  const restsOn = [
    ...new Set(resistances.flatMap((each) => each?.restsOn ?? [])),
    because('at {0}', printCelsius(temperatureC)),
  ];
  return functionOf(
    [{ ...cause, restsOn }, tracksCause(volumesIn(instrument, selection))],
    ([coils, tracks]) => at(coils, tracks) ?? Number.NaN,
  );
}

/**
 * Coils that drive the output of a position, at 0 Hz: directions and joints alone decide. What all signal comes through a capacitor of the
 * wiring for is asked where that lets it pass.
 */
export function coilsHeard(built: PositionNetwork, selection: Selection): readonly SoundingCoil[] {
  const direct = soundingCoils(built, 0);
  const isByCapacitor = direct.length === 0 && selection.kind === 'nets' && selection.parts.length > 0;
  return isByCapacitor ? soundingCoils(built, PASSING_HZ) : direct;
}

const PASSING_HZ = 1000;

/** Coils of the position that drive the output, at 0 Hz where only directions are asked for. The parts of a tapped coil are one. */
export function soundingCoils(
  { network, output, segments }: PositionNetwork,
  frequencyHz: number,
): readonly SoundingCoil[] {
  const shares = transfers(network, output, frequencyHz);
  if (typeof shares === 'string') return [];
  const coils: { readonly placed: PlacedSegment; transfer: number; humTransfer: number; turnsShare: number }[] = [];
  for (const placed of segments) {
    const { segment, quick, part } = placed;
    const winding = quick.windings.get(segment.coil);
    const share = shares[network.sources.indexOf(segment.source)]?.re ?? 0;
    const turns = turnsShareOf(segment, winding);
    const [transfer, humTransfer] = [share * turns, share * areaShareOf(segment, winding)];
    const turnsShare = Math.abs(share) > 1e-9 ? turns : 0;
    const before = coils.find((each) => each.placed.part === part && each.placed.segment.coil === segment.coil);
    if (before) {
      before.transfer += transfer;
      before.humTransfer += humTransfer;
      before.turnsShare += turnsShare;
    } else coils.push({ placed, transfer, humTransfer, turnsShare });
  }
  const strongest = Math.max(0, ...coils.map(({ transfer }) => Math.abs(transfer)));
  if (strongest < 1e-9) return [];
  return coils.filter(({ transfer }) => Math.abs(transfer) > 1e-3 * strongest).map(withSigns);
}

function withSigns(coil: Pick<SoundingCoil, 'placed' | 'transfer' | 'humTransfer' | 'turnsShare'>): SoundingCoil {
  const { quick, segment, slot } = coil.placed;
  const signs = quick.signs.find((each) => each.coil === segment.coil);
  const winding = quick.windings.get(segment.coil);
  const turns = winding?.turns?.value;
  const way = (transfer: number): Sign => (transfer > 0 ? 1 : -1);
  return {
    ...coil,
    coil: segment.coil,
    slot,
    string: signs?.windPole && times(way(coil.transfer), signs.windPole.sign),
    hum: signs?.wind && times(way(coil.humTransfer), signs.wind.sign),
    stringTurns: turns === undefined ? undefined : turns * stringShare(segment.coil),
    turnAreaM2: winding?.turnAreaM2?.value,
  };
}

/** Both coils of a pickup that the position takes as its hookup joins it. */
export const insideOnePickup = (a: SoundingCoil, b: SoundingCoil): boolean => a.placed.part === b.placed.part;

function responseAt(
  position: PositionNetwork,
  sources: Drives,
  frequencies = audioFrequencies(),
): FrequencyResponse | undefined {
  const response = responseOf(position.network, position.output, sources, frequencies);
  if (typeof response === 'string') return undefined;
  return {
    frequencyHz: [...response.frequencyHz],
    levelDb: [...response.levelDb].map((level) => level - REFERENCE_LEVEL_DB),
  };
}
