/** The numbers that a winder looks at first, each with its ±; of two states side by side, with what the change is known to. */

import type { InstrumentAnalysis, PickupAnalysis, Played } from '../analysis/analysis-types.ts';
import type { PhaseVerdict } from '../estimates/estimates.ts';
import { FULL_UP } from '../estimates/positions.ts';
import { difference, type Estimate } from '../quantities/estimate.ts';
import { inUnit, onlyBoundedAbove } from '../quantities/print.ts';
import { ENGLISH, type Language } from '../words/languages/language.ts';
import { basisWords, differenceCell, differenceParts, marked, numberParts, shownLevel } from '../words/number-text.ts';
import { COIL_NUMBERS, keysOf, type NumberName, PICKUP_NUMBERS, POSITION_NUMBERS } from '../words/numbers.ts';
import { phaseWords } from '../words/phases.ts';
import { COIL_UNTOLD, untoldWords } from '../words/untold.ts';
import { comparableKeys } from './compare-numbers.ts';
import { outputChanges } from './output-changes.ts';

export interface NumbersTable {
  readonly caption: string;
  readonly rows: readonly NumbersRow[];
}

export interface NumbersRow {
  /** With its unit: `slug coil, kΩ`. */
  readonly name: string;
  readonly now: string;
  /** Only where two states are compared and both have the number. */
  readonly before?: string;
  /** After less before; what both share has cancelled. Empty where nothing that can be seen has changed. */
  readonly change?: string;
  /** What the value now rests on, in words. */
  readonly restsOn: string;
}

/** Of a coil: the rest stands in hover and report. */
const COIL_ROWS = ['turns', 'resistance20COhm', 'windowFilled', 'inductanceH'] as const;

/** Coils first, then the pickup as a whole. */
export function pickupNumbers(now: PickupAnalysis, before?: PickupAnalysis, t = ENGLISH): NumbersTable {
  const [after, past] = [now.estimates(), before?.estimates()];
  const coils = [...after.coils].flatMap(([name, coil]) => {
    const old = past?.coils.get(name);
    const rows = COIL_ROWS.flatMap((key) =>
      valueRow(COIL_NUMBERS[key], { now: coil[key], past: old && { value: old[key] }, coil: name }, t),
    );
    const isTold = coil.inductanceH !== undefined || !after.isSweptWhole;
    return isTold
      ? rows
      : [...rows, wordRow(t('{0} coil, {1}', name, t(COIL_NUMBERS.inductanceH.what)), t(COIL_UNTOLD), undefined, t)];
  });
  return { caption: t('Numbers'), rows: [...coils, ...wholePickupNumbers(now, before, t)] };
}

/** Of the pickup as a whole. */
export function wholePickupNumbers(now: PickupAnalysis, before?: PickupAnalysis, t = ENGLISH): readonly NumbersRow[] {
  const [after, past] = [now.estimates(), before?.estimates()];
  // What is computed of capacitance says little by itself; what was measured is what the next sweep is held against.
  const isMeasured = [after, past].some((each) => each?.capacitanceF?.basis === 'reading');
  const all = keysOf(PICKUP_NUMBERS).filter((key) => key !== 'capacitanceF' || isMeasured);
  const keys = past ? comparableKeys(all, past, after) : all;
  return [
    phaseRow(after.phase, past?.phase, t),
    ...keys.flatMap((key) => valueRow(PICKUP_NUMBERS[key], { now: after[key], past: past && { value: past[key] } }, t)),
    ...(before ? outputChanges(before, now) : []).flatMap(({ name, ...row }) =>
      valueRow(name, { now: row.after, past: { value: row.before }, change: row.difference }, t),
    ),
  ];
}

/** A selector position as the jack gives it. `undefined`: there is no such position. */
export function positionNumbers(
  now: InstrumentAnalysis,
  key: string,
  { played = FULL_UP, before }: { readonly played?: Played; readonly before?: InstrumentAnalysis | undefined } = {},
  t = ENGLISH,
): NumbersTable | undefined {
  const after = now.positions(played).find((each) => each.key === key);
  if (after === undefined) return undefined;
  const past = before?.positions(played).find((each) => each.key === key);
  // Levels are told against one coil, unless there is none.
  const isSilent = after.levelDb === null || past?.levelDb === null;
  const all = keysOf(POSITION_NUMBERS).filter((each) => each !== 'levelDb' || isSilent);
  const shown = past ? comparableKeys(all, past, after) : all;
  return {
    caption: t('Numbers, position {0}', key),
    rows: [
      phaseRow(after.phase, past?.phase, t),
      ...shown.flatMap((each) =>
        valueRow(POSITION_NUMBERS[each], { now: after[each], past: past && { value: past[each] } }, t),
      ),
      ...(after.untold
        ? [wordRow(t(POSITION_NUMBERS.resonanceHz.what), untoldWords(after.untold, t), undefined, t)]
        : []),
    ],
  };
}

type Value = Estimate | null | undefined;
/** The number of the state before; `undefined` as a whole where that state has no such part. */
type Past = { readonly value: Value } | undefined;

interface RowValues {
  readonly now: Value;
  readonly past: Past;
  readonly change?: Estimate | undefined;
  /** Named before the number, where it is one coil's. */
  readonly coil?: string;
}

/** A row of one quantity in one unit. What neither state knows has no row: what settles it stands among the readings missing. */
function valueRow(name: NumberName, { now, past, change, coil }: RowValues, t: Language): readonly NumbersRow[] {
  const what = coil === undefined ? t(name.what) : t('{0} coil, {1}', coil, t(name.what));
  const sized = now ?? past?.value;
  const none = (value: Value): string => t(value === null ? (name.none ?? 'none') : 'unknown');
  if (sized === null || sized === undefined) {
    if (now === undefined && past?.value === undefined) return [];
    return [wordRow(what, none(now), past && none(past.value), t)];
  }
  const { unit } = numberParts(sized, name, undefined, t);
  // In any language the unit is found again by its symbol.
  const symbol = numberParts(sized, name).unit;
  const text = (value: Value): string => (value ? numberParts(value, name, symbol, t).number : none(value));
  const before = past && text(past.value);
  return [
    {
      name: rowName(name, unit, symbol, what),
      now: marked(text(now), now, t),
      ...(before === undefined
        ? {}
        : {
            before: marked(before, past?.value, t),
            change: before === text(now) ? '' : changeText({ now, past, change }, name, symbol, t),
          }),
      restsOn: now ? basisWords(now, t) : '',
    },
  ];
}

/** A count says its unit by its name. */
const rowName = ({ what }: NumberName, unit: string, symbol: string, told: string): string =>
  unit === '' || what.endsWith(symbol) ? told : `${told}, ${unit}`;

/** A number of a table in the unit of its row, beside how the row is called and how fine it is told. */
export interface RowFigure {
  readonly row: string;
  readonly value: number;
  readonly decimals: number;
  /** What its row says. */
  readonly text: string;
}

/** A number of the pickup as a whole as its row of the table tells it. */
export function rowFigure(now: Estimate, name: NumberName, t = ENGLISH): RowFigure {
  const symbol = numberParts(now, name).unit;
  const { number, unit } = numberParts(now, name, symbol, t);
  const [, decimals = ''] = /^[^\d]*\d[\d\u202F]*[.,]?(\d*)/.exec(number) ?? [];
  return {
    row: rowName(name, unit, symbol, t(name.what)),
    value: inUnit(now.value, symbol),
    decimals: decimals.length,
    text: marked(number, now, t),
  };
}

function changeText({ now, past: old, change }: RowValues, name: NumberName, unit: string, t: Language): string {
  const past = old?.value;
  // Of what one state does not know, nobody knows whether it has changed.
  if (now === undefined || past === undefined) return '';
  if (!now || !past) return t('changed');
  if (name.dimension === 'percentage' && past.value > 1 && now.value <= 1) return t('fits');
  if (name.dimension === 'percentage' && past.value <= 1 && now.value > 1) return t('does not fit');
  const bounded = name.dimension === 'level' ? [now, past].filter(onlyBoundedAbove).length : 0;
  if (bounded === 2) return t('both too low to tell');
  if (bounded === 1) {
    const step = shownLevel(now).db - shownLevel(past).db;
    return t('{0} or more', differenceParts({ value: Math.round(step), sd: 0 }, name, unit, t).number);
  }
  return differenceCell(change ?? difference(now, past), name, unit, t);
}

function phaseRow(now: PhaseVerdict, past: PhaseVerdict | undefined, t: Language): NumbersRow {
  const row = wordRow(t('phase'), phaseWords(now, t), past && phaseWords(past, t), t);
  return row.change !== undefined && (now === 'unproven' || past === 'unproven') ? { ...row, change: '' } : row;
}

function wordRow(name: string, now: string, before: string | undefined, t: Language): NumbersRow {
  return {
    name,
    now,
    ...(before === undefined ? {} : { before, change: before === now ? '' : t('changed') }),
    restsOn: '',
  };
}
