import type { Dimension } from '../../../../grammar/values/unit-table.ts';
import type { Analysis, InstrumentAnalysis, PickupAnalysis, Played } from '../../analysis/analysis-types.ts';
import { quickOf } from '../../analysis/pickup-analysis.ts';
import type { PickupEstimates, PositionEstimates } from '../../estimates/estimates.ts';
import { type Load, loadOf } from '../../estimates/pickup-estimates.ts';
import type { QuickOf } from '../../estimates/position-network.ts';
import { FULL_UP, potWordsInShort } from '../../estimates/positions.ts';
import { pickupResponseBand, positionResponseBand, type ResponseBand } from '../../estimates/response-band.ts';
import { usualTuning } from '../../estimates/tuning.ts';
import type { Instrument } from '../../model/instrument.ts';
import { printValue } from '../../quantities/print.ts';
import { titleOf } from '../../words/parts.ts';
import { positionTitle } from '../../words/selections.ts';
import { type CurvePicture, type ResponsePicture, resonanceWords } from './response-plot.ts';

/** A state of a pickup to compare with. */
export interface PickupState {
  readonly analysis: Analysis;
  readonly pickup: PickupAnalysis;
  /** Farad of cable instead of the default load's. */
  readonly cableF?: number | undefined;
}

export interface PositionState {
  readonly analysis: Analysis;
  readonly instrument: InstrumentAnalysis;
}

/** Names of two states that are compared: `rev 4, before` and `now`. */
export interface StateNames {
  readonly before: string;
  readonly now: string;
}

/** A pickup under the bench's default load, or without one where its target says so. `undefined`: no response is known. */
export function pickupResponsePicture(
  state: PickupState,
  before?: PickupState,
  names: StateNames = { before: 'before', now: 'now' },
): ResponsePicture | undefined {
  const { pickup } = state.pickup;
  const now = pickupCurve(state, before === undefined ? '' : names.now);
  if (now === undefined) return undefined;
  const past = before && pickupCurve(before, names.before);
  const title = titleOf(pickup);
  const serial = pickup.serial === undefined ? '' : `${pickup.serial.value} · `;
  return {
    id: `response-${pickup.name}`,
    title: past === undefined ? title : `${title}: before and now`,
    subtitle: `${serial}response under ${loadWords(loadOf(pickup, state.cableF))}.`,
    name: `Frequency response of ${title}`,
    description: description(now, past),
    now,
    before: past,
    strings: usualTuning(pickup.strings?.value ?? 0),
  };
}

export interface PositionOptions {
  readonly played?: Played;
  readonly before?: PositionState | undefined;
  readonly names?: StateNames;
}

/** A selector position at the jack. `undefined`: no such position, or no response is known. */
export function positionResponsePicture(
  state: PositionState,
  key: string,
  { played = FULL_UP, before, names = { before: 'before', now: 'now' } }: PositionOptions = {},
): ResponsePicture | undefined {
  const now = positionCurve(state, key, played, before === undefined ? '' : names.now);
  if (now === undefined) return undefined;
  const past = before && positionCurve(before, key, played, names.before);
  const { instrument } = state.instrument;
  const title = titleOf(instrument);
  const position = instrument.positions.find((each) => each.key.value === key);
  const what = position === undefined ? '' : positionTitle(position);
  return {
    id: `response-${instrument.name}-${key}`,
    title: `${title}, position ${key}: ${what}${past === undefined ? '' : ', before and now'}`,
    subtitle: `Response at the jack; ${settingWords(instrument, played)}.`,
    name: `Frequency response of ${title}, position ${key}`,
    description: description(now, past),
    now,
    before: past,
    strings: usualTuning(instrument.strings?.value.count ?? 0),
  };
}

/** Cable, input and pots in words. */
export function settingWords(instrument: Instrument, played: Played): string {
  const { cable, input } = instrument;
  const shown = (value: number, dimension: Dimension) => printValue({ value, dimension });
  const cableWords =
    played.cableF !== undefined
      ? `${shown(played.cableF, 'capacitance')} of cable`
      : cable === undefined
        ? `450\u202FpF of cable, assumed`
        : `${shown(cable.value.length.si, 'length')} cable`;
  const inputWords = input === undefined ? '1\u202FMΩ input, assumed' : `${shown(input.value.si, 'resistance')} input`;
  return `${cableWords}, ${inputWords}, ${potWordsInShort(instrument, played)}`;
}

/** Remembered with the analysis: a sweep asks for the same pickup many times. */
export const quickOfBench = ({ bench }: Analysis): QuickOf => quickOf(bench);

function pickupCurve({ analysis, pickup, cableF }: PickupState, name: string): CurvePicture | undefined {
  const estimates = pickup.estimates(cableF);
  // Without these the coils' inductances are not known, and a curve would be a guess.
  if (estimates.inductanceH === undefined) return undefined;
  const load = loadOf(pickup.pickup, cableF);
  const band = pickupResponseBand(quickOfBench(analysis)(pickup.pickup), load);
  if (band === undefined || isSilent(band)) return undefined;
  const { resonanceHz, peakDb, minus3DbHz } = estimates;
  return { name, band, resonanceHz: resonanceHz ?? undefined, peakDb, minus3DbHz };
}

function positionCurve(
  { analysis, instrument }: PositionState,
  key: string,
  played: Played,
  name: string,
): CurvePicture | undefined {
  const position = instrument.instrument.positions.find((each) => each.key.value === key);
  const estimates: PositionEstimates | undefined = instrument.positions(played).find((each) => each.key === key);
  if (position?.selection === undefined || estimates?.response === undefined) return undefined;
  const band = positionResponseBand(instrument.instrument, position.selection, quickOfBench(analysis), played);
  if (band === undefined || isSilent(band)) return undefined;
  const { resonanceHz, peakDb, minus3DbHz } = estimates;
  return { name, band, resonanceHz: resonanceHz ?? undefined, peakDb, minus3DbHz };
}

/** Why there is no picture of a response: nobody knows it, or it is known to be silence. */
export const noResponseWords = (known: PositionEstimates | PickupEstimates | undefined): string =>
  (known && 'response' in known ? known.response : known?.inductanceH) === undefined
    ? 'There is no response to draw: a coil lacks its turns, its bobbin or its wire.'
    : 'Silent: there is no response to draw. Nothing of the coils reaches the output, because a joint is open, hot and ground are joined, the coils cancel or the volume is down.';

/**
 * Coils that cancel, a volume turned down: what is left of every note by rounding and stray capacitance is no response, though the
 * strays of coils that cancel leave more at the top.
 */
const SILENT_DB = -60;
const NOTES_UP_TO_HZ = 1000;

const isSilent = ({ frequencyHz, levelDb }: ResponseBand): boolean =>
  levelDb.every((level, index) => (frequencyHz[index] ?? 0) > NOTES_UP_TO_HZ || !(level > SILENT_DB));

function loadWords({ volumeOhm, toneOhm, toneF, cableF, inputOhm }: Load): string {
  const shown = (value: number, dimension: Dimension) => printValue({ value, dimension });
  if (volumeOhm === undefined && inputOhm === undefined) return 'no load';
  const pot = (what: string, ohm: number | undefined) =>
    ohm === undefined ? [] : [`${shown(ohm, 'resistance')} ${what}`];
  const pots =
    volumeOhm === toneOhm
      ? pot('volume and tone at 10', volumeOhm)
      : [...pot('volume at 10', volumeOhm), ...pot('tone at 10', toneOhm)];
  return [
    ...pots,
    ...(toneF > 0 ? [shown(toneF, 'capacitance')] : []),
    `${shown(cableF, 'capacitance')} of cable`,
    ...(inputOhm === undefined ? [] : [`${shown(inputOhm, 'resistance')} input`]),
  ].join(', ');
}

function description(now: CurvePicture, before: CurvePicture | undefined): string {
  const range = 'from 20 hertz to 20 kilohertz';
  if (before === undefined) return `One curve ${range}. Resonance: ${resonanceWords(now)}.`;
  return `Two curves ${range}. ${before.name}: ${resonanceWords(before)}. ${now.name}: ${resonanceWords(now)}.`;
}
