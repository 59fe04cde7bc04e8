import type { Analysis, InstrumentAnalysis, PickupAnalysis, Played } from '../../analysis/analysis-types.ts';
import { pickupAnalysis, quickOf } from '../../analysis/pickup-analysis.ts';
import type { PickupEstimates, PositionEstimates } from '../../estimates/estimates.ts';
import { loadOf } from '../../estimates/pickup-estimates.ts';
import type { QuickOf } from '../../estimates/position-network.ts';
import { positionPoints } from '../../estimates/position-points.ts';
import { FULL_UP } from '../../estimates/positions.ts';
import { pickupResponseBand, positionResponseBand, type ResponseBand } from '../../estimates/response-band.ts';
import { BY_INDUCTANCE } from '../../estimates/sources.ts';
import { usualTuning } from '../../estimates/tuning.ts';
import type { Instrument } from '../../model/instrument.ts';
import { withoutSweeps } from '../../model/sweeps.ts';
import { ENGLISH, type Language } from '../../words/languages/language.ts';
import { titleOf } from '../../words/parts.ts';
import { reasonWords } from '../../words/reason-words.ts';
import { positionTitle } from '../../words/selections.ts';
import { settingWords } from '../../words/setting-words.ts';
import { filesWords, verdictWords } from '../../words/sweep-words.ts';
import { capital } from '../../words/text.ts';
import { untoldWords } from '../../words/untold.ts';
import { loadWords } from './load-words.ts';
import { levelAt, type MeasuredPicture, measuredPicture, phaseStrip, restStrip } from './measured.ts';
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

export interface ResponseWords {
  readonly t?: Language;
  readonly names?: StateNames;
}

/** A pickup under the bench's default load, or without one where its target says so. `undefined`: no response is known. */
export function pickupResponsePicture(
  state: PickupState,
  before?: PickupState,
  { t = ENGLISH, names = { before: t('before'), now: t('now') } }: ResponseWords = {},
): ResponsePicture | undefined {
  const { pickup } = state.pickup;
  const now = pickupCurve(state, before === undefined ? '' : names.now);
  if (now === undefined) return undefined;
  const measured = measuredPicture(
    state.pickup,
    quickOfBench(state.analysis)(pickup),
    now.band,
    loadOf(pickup, state.cableF),
    t,
  );
  // Beside what was measured stands what is computed, where no other state is asked for.
  if (measured && before === undefined) {
    const computed = pickupAnalysis(withoutSweeps(pickup), state.analysis.bench);
    const past = pickupCurve({ ...state, pickup: computed }, t('computed'));
    const named = { ...now, name: basisName(now, t), isBasisNamed: true };
    const picture = pictureOf(state, named, past && { ...past, isBasisNamed: true }, titleOf(pickup), t);
    return { ...picture, description: `${picture.description} ${measured.verdict}`, measured };
  }
  // Levels of a sweep alone are against its own low notes, others against a coil of 5,000 turns.
  const isAlike = before && isSweptWhole(before) === isSweptWhole(state);
  const past = isAlike ? pickupCurve(before, names.before) : undefined;
  const title = past === undefined ? titleOf(pickup) : t('{0}: before and now', titleOf(pickup));
  return { ...pictureOf(state, now, past, title, t), measured };
}

/** What a curve is called beside the computed one; what a sweep could not tell is computed in both. */
const basisName = ({ resonanceHz, peakDb }: CurvePicture, t: Language): string =>
  t([resonanceHz, peakDb].every((each) => !each || each.basis === 'reading') ? 'measured' : 'measured in part');

const isSomeTurnsOpen = ({ pickup }: PickupState): boolean =>
  [...pickup.estimates().coils.values()].some(({ turns }) => turns === undefined);

const isLoudnessOpen = ({ instrument }: PositionState, key: string, played: Played): boolean =>
  instrument.positions(played).find((each) => each.key === key)?.levelDb === undefined;

const isSweptWhole = ({ pickup }: PickupState): boolean => pickup.estimates().isSweptWhole === true;

function pictureOf(
  state: PickupState,
  now: CurvePicture,
  before: CurvePicture | undefined,
  title: string,
  t: Language,
): ResponsePicture {
  const { pickup } = state.pickup;
  const serial = pickup.serial === undefined ? '' : `${pickup.serial.value} · `;
  return {
    t,
    id: `response-${pickup.name}`,
    title,
    subtitle: `${serial}${t('response under {0}.', loadWords(loadOf(pickup, state.cableF), t))}`,
    name: t('Frequency response of {0}', titleOf(pickup)),
    description: description(now, before, t),
    now,
    before,
    strings: usualTuning(pickup.strings?.value ?? 0),
    isOfWinding: isSweptWhole(state) || isSomeTurnsOpen(state),
    notes: notesOf(now, t),
  };
}

export interface PositionOptions extends ResponseWords {
  readonly played?: Played;
  readonly before?: PositionState | undefined;
}

/** A selector position at the jack. `undefined`: no such position, or no response is known. */
export function positionResponsePicture(
  state: PositionState,
  key: string,
  { played = FULL_UP, before, t = ENGLISH, names = { before: t('before'), now: t('now') } }: PositionOptions = {},
): ResponsePicture | undefined {
  const now = positionCurve(state, key, played, before === undefined ? '' : names.now);
  if (now === undefined) return undefined;
  const past = before && positionCurve(before, key, played, names.before);
  const { instrument } = state.instrument;
  const title = titleOf(instrument);
  const position = instrument.positions.find((each) => each.key.value === key);
  const what = position === undefined ? '' : positionTitle(position, t);
  const measured = position && positionMeasured(state, position, now, played, t);
  return {
    t,
    id: `response-${instrument.name}-${key}`,
    title: `${t('{0}, position {1}: {2}', title, key, what)}${past === undefined ? '' : `, ${t('before and now')}`}`,
    subtitle: t('Response at the jack; {0}.', settingWords(instrument, played, t)),
    name: t('Frequency response of {0}, position {1}', title, key),
    description: [description(now, past, t), ...(measured ? [measured.verdict] : [])].join(' '),
    now,
    before: past,
    measured,
    strings: usualTuning(instrument.strings?.value.count ?? 0),
    isOfWinding: isLoudnessOpen(state, key, played),
    notes: notesOf(now, t),
  };
}

/** Points of the pickups that sound there, where all of them were swept. */
function positionMeasured(
  { analysis, instrument: { instrument } }: PositionState,
  { selection }: Instrument['positions'][number],
  { band }: CurvePicture,
  played: Played,
  t: Language,
): MeasuredPicture | undefined {
  const points = selection && positionPoints(instrument, selection, quickOfBench(analysis), played);
  if (!points) return undefined;
  const { hz, offDb, sdDb, offDegrees, sdDegrees, swept } = points;
  const files = new Set(swept.map(filesWords));
  return {
    points: { hz, levelDb: hz.map((each, index) => levelAt(band, each) + (offDb[index] ?? 0)) },
    strips: [
      restStrip({ hz, off: offDb, offSd: sdDb }, t),
      ...(offDegrees ? [phaseStrip({ hz, off: offDegrees, offSd: sdDegrees }, t)] : []),
    ],
    verdict: [
      t('Points: as measured ({0}), brought to what hangs on them here.', [...files].join(', ')),
      ...new Set(swept.map((each) => `${files.size > 1 ? `${filesWords(each)}: ` : ''}${verdictWords(each, t)}`)),
    ].join(' '),
    legend: [
      offDegrees
        ? t(
            'Rest in decibels at the jack, below it of the phase in degrees, each in a band of two deviations of the points.',
          )
        : t('Rest in decibels at the jack, in a band of two deviations of the points. A sweep holds no phase.'),
    ],
  };
}

/** Remembered with the analysis: a sweep asks for the same pickup many times. */
export const quickOfBench = ({ bench }: Analysis): QuickOf => quickOf(bench);

function pickupCurve({ analysis, pickup, cableF }: PickupState, name: string): CurvePicture | undefined {
  const estimates = pickup.estimates(cableF);
  // Without these the coils' inductances are not known, and a curve would be a guess.
  if (estimates.inductanceH === undefined) return undefined;
  const load = loadOf(pickup.pickup, cableF);
  const quick = quickOfBench(analysis)(pickup.pickup);
  const band = pickupResponseBand(quick, load);
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
  if (estimates.phase === 'silent') return undefined;
  const band = positionResponseBand(instrument.instrument, position.selection, quickOfBench(analysis), played);
  if (band === undefined || isSilent(band)) return undefined;
  const { resonanceHz, peakDb, minus3DbHz } = estimates;
  return { name, band, resonanceHz: resonanceHz ?? undefined, peakDb, minus3DbHz };
}

/** Why there is no picture of a response: nobody knows it, or it is known to be silence. */
export function noResponseWords(known: PositionEstimates | PickupEstimates | undefined, t = ENGLISH): string {
  if (known && 'untold' in known && known.untold)
    return t('There is no response to draw. {0}', untoldWords(known.untold, t));
  return t(
    (known && 'response' in known ? known.response : known?.inductanceH) === undefined
      ? 'There is no response to draw: a coil lacks its turns, its bobbin or its wire.'
      : 'Silent: there is no response to draw. Nothing of the coils reaches the output, because a joint is open, hot and ground are joined, the coils cancel or the volume is down.',
  );
}

/**
 * Coils that cancel, a volume turned down: what is left of every note by rounding and stray capacitance is no response, though the
 * strays of coils that cancel leave more at the top.
 */
const SILENT_DB = -60;
const NOTES_UP_TO_HZ = 1000;

const isSilent = ({ frequencyHz, levelDb }: ResponseBand): boolean =>
  levelDb.every((level, index) => (frequencyHz[index] ?? 0) > NOTES_UP_TO_HZ || !(level > SILENT_DB));

/** Where nobody knows how loud its coils are beside each other. */
const notesOf = ({ resonanceHz, minus3DbHz }: CurvePicture, t: Language): readonly string[] =>
  [resonanceHz, minus3DbHz].some((each) => each?.restsOn.includes(BY_INDUCTANCE))
    ? [`${capital(reasonWords(BY_INDUCTANCE, t))}.`]
    : [];

function description(now: CurvePicture, before: CurvePicture | undefined, t: Language): string {
  if (before === undefined)
    return t(
      'One curve from 20 hertz to 20 kilohertz. Resonance: {0}.',
      resonanceWords({ ...now, isBasisNamed: false }, t),
    );
  const named = [before, now].map((each) => `${each.name}: ${resonanceWords(each, t)}.`);
  return [t('Two curves from 20 hertz to 20 kilohertz.'), ...named].join(' ');
}
