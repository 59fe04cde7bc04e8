/** Two sweeps of a pickup under one load, before and after some work: both curves with their points, and what lies between them. */
import type { Load } from '../../estimates/pickup-estimates.ts';
import type { ResponseBand } from '../../estimates/response-band.ts';
import { changesOf, lossToldOf, type SweptPair } from '../../estimates/sweep-comparison.ts';
import type { SweptCoil } from '../../estimates/sweeps-measured.ts';
import {
  aboveLow,
  levelEstimate,
  peakChange,
  type SweptLevels,
  sweptPeak,
  sweptPoints,
} from '../../estimates/swept-levels.ts';
import { usualTuning } from '../../estimates/tuning.ts';
import type { Pickup } from '../../model/pickup.ts';
import { logFrequencies } from '../../physics/circuit/response.ts';
import { changeOf } from '../../physics/sweep/shared-set-up.ts';
import type { Estimate } from '../../quantities/estimate.ts';
import { printNumber, printQuantity } from '../../quantities/print.ts';
import { ENGLISH, type Language } from '../../words/languages/language.ts';
import { differenceText, isToldApart, numberText } from '../../words/number-text.ts';
import { keysOf, PICKUP_NUMBERS } from '../../words/numbers.ts';
import { titleOf } from '../../words/parts.ts';
import { CHANGED_NUMBERS, changeWords, SWEPT_NUMBERS } from '../../words/sweep-words.ts';
import { loadWords } from './load-words.ts';
import { levelBetween, type NumberRow } from './measured.ts';
import { type CurvePicture, type ResponsePicture, resonanceWords } from './response-plot.ts';

/**
 * Levels are of what the winding passes on, against its low notes: what turns give and what metal takes of the strings' field no sweep
 * through the leads tells. Between both the errors that they share (resistor, recorder, meter) have cancelled.
 */
export function beforeAfterPicture(
  pair: SweptPair,
  pickup: Pickup,
  load: Load,
  t: Language = ENGLISH,
  names = { before: blockWords(pair.swept.before, t('before')), now: blockWords(pair.swept.after, t('after')) },
): ResponsePicture {
  const [before, now] = [
    sweptCurve(pair.swept.before, load, names.before),
    sweptCurve(pair.swept.after, load, names.now),
  ];
  const [pointsBefore, points] = [sweptPoints(pair.swept.before, load), sweptPoints(pair.swept.after, load)];
  const change = changeOver(pair, load, points, pointsBefore);
  const verdict = [changeWords(pair, t), apartWords(change, t)].join(' ');
  const title = titleOf(pickup);
  return {
    t,
    id: `sweeps-${pickup.name}`,
    title: t('{0}: before and after, as measured', title),
    subtitle: t('Two sweeps, brought to {0}; nothing computed is in them.', loadWords(load, t)),
    name: t('{0}: before and after, as measured', title),
    description: [
      t('Two curves from 20 hertz to 20 kilohertz.'),
      ...[before, now].map((each) => `${each.name}: ${resonanceWords(each, t)}.`),
      verdict,
    ].join(' '),
    now,
    before,
    strings: usualTuning(pickup.strings?.value ?? 0),
    isOfWinding: true,
    measured: {
      points,
      pointsBefore,
      strips: [
        {
          word: 'Δ',
          title: t('Change, after less before'),
          unit: 'dB',
          hz: change.hz,
          off: change.db,
          offSd: change.sdDb,
          isChange: true,
        },
      ],
      verdict,
      legend: [
        t('Points: as measured, before as diamonds, after as rings.'),
        t(
          'Change in decibels, each against its own low notes, in a band of two deviations; what resistor, recorder and meter do to both alike is taken out.',
        ),
      ],
      numbers: {
        isChange: true,
        heads: [t('from the sweeps'), t('before'), t('after'), t('change')],
        rows: numberRows(pair, load, before, now, t),
      },
    },
  };
}

/** What its readings are called: `as wound`. */
const blockWords = ({ group: { block } }: SweptCoil, otherwise: string): string =>
  block.title ?? block.date ?? otherwise;

const SHOWN_HZ = logFrequencies(20, 20_000, 181);

/** From its sweep alone, of what the winding passes on. */
function sweptCurve(swept: SweptCoil, load: Load, name: string): CurvePicture {
  const levels = Array.from(SHOWN_HZ, (hz) => levelEstimate(swept, load, hz));
  const levelDb = levels.map(({ value }) => value);
  const levelSdDb = levels.map(({ sd }) => sd);
  const band: ResponseBand = {
    frequencyHz: Array.from(SHOWN_HZ),
    levelDb,
    levelSdDb,
    lowDb: levelDb.map((level, index) => level - (levelSdDb[index] ?? 0)),
    highDb: levelDb.map((level, index) => level + (levelSdDb[index] ?? 0)),
  };
  const peak = sweptPeak(swept, load);
  return { name, isBasisNamed: true, band, resonanceHz: peak?.hz, peakDb: peak?.db };
}

interface Change {
  readonly hz: readonly number[];
  readonly db: readonly number[];
  readonly sdDb: readonly number[];
}

/** At the points of after, between those of before; each against its own low notes. */
function changeOver(pair: SweptPair, load: Load, points: SweptLevels, pointsBefore: SweptLevels): Change {
  const [first = 20, last = 20_000] = [pointsBefore.hz[0], pointsBefore.hz.at(-1)];
  const at = points.hz.flatMap((hz, index) =>
    hz >= first && hz <= last ? [{ hz, off: points.offDb[index] ?? 0 }] : [],
  );
  // Between its points the curve before bends as its fit does: what they lie off that is nearly straight.
  const changes = at.map(({ hz, off }) => {
    const fitted = changeOf(pair, (values, fit) => aboveLow(fit, values, load, hz));
    return { ...fitted, value: fitted.value + off - levelBetween(pointsBefore.hz, pointsBefore.offDb, hz) };
  });
  return {
    hz: at.map(({ hz }) => hz),
    db: changes.map(({ value }) => value),
    sdDb: changes.map(({ sd }) => sd),
  };
}

/** Where both differ most, and whether that is beyond what is known. */
function apartWords({ hz, db, sdDb }: Change, t: Language): string {
  const heard = hz.flatMap((each, index) => (each <= HEARD_HZ ? [index] : []));
  const most = heard.reduce((best, index) => (Math.abs(db[index] ?? 0) > Math.abs(db[best] ?? 0) ? index : best), 0);
  const change = { value: db[most] ?? 0, sd: sdDb[most] ?? 0 };
  const at = printQuantity({ value: hz[most] ?? 0, dimension: 'frequency', digits: 2, style: t.numbers });
  if (!isToldApart(change))
    return t(
      'Under this load both agree within what is known, {0} dB at most.',
      printNumber(Math.abs(change.value), 2, t.numbers),
    );
  return t(
    'Under this load they differ by up to {0}, at {1}.',
    differenceText(change, { dimension: 'level', decimals: 2 }, t),
    at,
  );
}

/** Up to here a note of a string is heard. */
const HEARD_HZ = 10_000;

function numberRows(
  pair: SweptPair,
  load: Load,
  before: CurvePicture,
  now: CurvePicture,
  t: Language,
): readonly NumberRow[] {
  const { before: was, after: is } = pair.swept;
  const changes: Partial<Record<keyof typeof TOLD, Estimate>> = changesOf(pair);
  const cell = (change: Pick<Estimate, 'value' | 'sd'> | undefined, name: Parameters<typeof differenceText>[1]) =>
    change ? differenceText(change, name, t) : '';
  const own = keysOf(TOLD).map((key): NumberRow => {
    const of = (swept: SweptCoil) => numberText(key === 'lossAt3kHz' ? lossToldOf(swept) : swept[key], TOLD[key], t);
    return [t(TOLD[key].what), of(was), of(is), cell(changes[key], TOLD[key])];
  });
  const [peakBefore, peakNow, moved] = [before.resonanceHz, now.resonanceHz, peakChange(pair, load)];
  if (!peakBefore || !peakNow || !moved) return own;
  const name = PICKUP_NUMBERS.resonanceHz;
  return [...own, [t(name.what), numberText(peakBefore, name, t), numberText(peakNow, name, t), cell(moved, name)]];
}

const TOLD = { ...SWEPT_NUMBERS, ...CHANGED_NUMBERS };
