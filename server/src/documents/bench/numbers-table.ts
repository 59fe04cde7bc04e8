/** The numbers that a winder looks at first, each with its ±; of two states side by side, with what the change is known to. */

import type { Dimension } from '../../../../grammar/values/unit-table.ts';
import type { InstrumentAnalysis, PickupAnalysis, PotsAt } from '../../analysis/analysis-types.ts';
import { PHASE_NAMES } from '../../comparison/number-names.ts';
import { FULL_UP } from '../../estimates/positions.ts';
import { difference, type Estimate } from '../../quantities/estimate.ts';
import { printNumber, printParts, roundUncertainty } from '../../quantities/print.ts';
import { type LevelWords, levelWords } from '../level-words.ts';

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

/** Coils first, then the pickup as a whole. */
export function pickupNumbers(now: PickupAnalysis, before?: PickupAnalysis): NumbersTable {
  const [after, past] = [now.estimates(), before?.estimates()];
  const coils = [...after.coils].flatMap(([name, coil]) => {
    const old = past?.coils.get(name);
    const row = (what: string, key: keyof typeof coil, as: As) =>
      valueRow(what, as, coil[key], old && { value: old[key] });
    return [
      row(`${name} coil`, 'turns', 'turns'),
      row(`${name} coil, 20\u202F°C`, 'resistance20COhm', 'resistance'),
      row(`${name} coil, window filled`, 'windowFilled', 'percentage'),
      row(`${name} coil, inductance`, 'inductanceH', 'inductance'),
    ].flat();
  });
  const whole = (what: string, key: 'resistance20COhm' | 'inductanceH' | 'resonanceHz' | 'peakDb', as: As) =>
    valueRow(what, as, after[key], past && { value: past[key] });
  return {
    caption: 'Numbers',
    rows: [
      ...coils,
      ...whole('hot to ground, 20\u202F°C', 'resistance20COhm', 'resistance'),
      ...whole('inductance', 'inductanceH', 'inductance'),
      ...whole('resonance', 'resonanceHz', 'frequency'),
      ...whole('its height', 'peakDb', 'level'),
      wordRow('phase', PHASE_NAMES[after.phase], past && PHASE_NAMES[past.phase]),
      ...levelRow('string signal', after.signalDb, past && { value: past.signalDb }),
      ...levelRow('hum left', after.humDb, past && { value: past.humDb }),
    ],
  };
}

/** A selector position as the jack gives it. `undefined`: there is no such position. */
export function positionNumbers(
  now: InstrumentAnalysis,
  key: string,
  { pots = FULL_UP, before }: { readonly pots?: PotsAt; readonly before?: InstrumentAnalysis | undefined } = {},
): NumbersTable | undefined {
  const after = now.positions(pots).find((each) => each.key === key);
  if (after === undefined) return undefined;
  const past = before?.positions(pots).find((each) => each.key === key);
  const row = (what: string, field: 'resistanceOhm' | 'resonanceHz' | 'peakDb' | 'minus3DbHz', as: As) =>
    valueRow(what, as, after[field], past && { value: past[field] });
  return {
    caption: `Numbers, position ${key}`,
    rows: [
      ...row('at the jack', 'resistanceOhm', 'resistance'),
      ...row('resonance', 'resonanceHz', 'frequency'),
      ...row('its height', 'peakDb', 'level'),
      ...row('\u22123\u202FdB at', 'minus3DbHz', 'frequency'),
      wordRow('phase', PHASE_NAMES[after.phase], past && PHASE_NAMES[past.phase]),
      ...levelRow('string signal', after.signalDb, past && { value: past.signalDb }),
      ...levelRow('hum left', after.humDb, past && { value: past.humDb }),
    ],
  };
}

type As = Dimension;
type Value = Estimate | null | undefined;
/** The number of the state before; `undefined` as a whole where that state has no such part. */
type Past = { readonly value: Value } | undefined;

/** A row of one quantity in one unit. What neither state knows has no row: what settles it stands among the readings missing. */
function valueRow(what: string, dimension: As, now: Value, past: Past): readonly NumbersRow[] {
  const sized = now ?? past?.value;
  if (sized === null || sized === undefined) {
    if (now === undefined && past?.value === undefined) return [];
    return [wordRow(what, now === null ? 'open' : 'unknown', past && (past.value === null ? 'open' : 'unknown'))];
  }
  const { unit } = printParts({ value: sized.value, sd: sized.sd, dimension });
  const text = (value: Value): string => (value ? shown(value, dimension, unit) : value === null ? 'open' : 'unknown');
  const before = past && text(past.value);
  return [
    {
      name: `${what}, ${unit}`,
      now: text(now),
      ...(before === undefined
        ? {}
        : { before, change: before === text(now) ? '' : changeText(now, past?.value, dimension, unit) }),
      restsOn: now ? basisWords(now) : '',
    },
  ];
}

function shown({ value, sd }: Pick<Estimate, 'value' | 'sd'>, dimension: As, unit: string): string {
  // Nobody reads a level closer than a tenth.
  const parts = printParts({ value, sd: dimension === 'level' ? Math.max(sd, 0.1) : sd, dimension, unit });
  return parts.uncertainty === undefined ? parts.value : `${parts.value} ± ${parts.uncertainty}`;
}

function changeText(now: Value, past: Value, dimension: As, unit: string): string {
  if (!now || !past) return 'changed';
  if (dimension === 'percentage' && past.value > 1 && now.value <= 1) return 'fits';
  if (dimension === 'percentage' && past.value <= 1 && now.value > 1) return 'does not fit';
  const apart = difference(now, past);
  const text = shown(apart, dimension, unit);
  return apart.value > 0 ? `+${text}` : text;
}

function wordRow(name: string, now: string, before: string | undefined): NumbersRow {
  return {
    name,
    now,
    ...(before === undefined ? {} : { before, change: before === now ? '' : 'changed' }),
    restsOn: '',
  };
}

/** Levels against one coil, in whole decibels; what is only bounded says so. */
function levelRow(what: string, now: Estimate | undefined, past: Past): readonly NumbersRow[] {
  const old = past?.value ?? undefined;
  if (now === undefined && old === undefined) return [];
  const [words, oldWords] = [now && levelWords(now), old && levelWords(old)];
  const before = oldWords?.number ?? 'unknown';
  const after = words?.number ?? 'unknown';
  const change = before === after ? '' : words && oldWords ? levelChange(words, oldWords, now, old) : 'changed';
  return [
    {
      name: `${what} against one coil, dB`,
      now: after,
      ...(past === undefined ? {} : { before, change }),
      restsOn: now ? basisWords(now) : '',
    },
  ];
}

function levelChange(
  now: LevelWords,
  before: LevelWords,
  after: Estimate | undefined,
  past: Estimate | undefined,
): string {
  if (now.orLower && before.orLower) return 'both too low to tell';
  const step = now.shownDb - before.shownDb;
  const size = `${step > 0 ? '+' : ''}${printNumber(step, 0)}`;
  if (now.orLower || before.orLower) return `${size} or more`;
  const { sd } = after && past ? difference(after, past) : { sd: 0 };
  return sd >= 0.5 ? `${size} ± ${printNumber(roundUncertainty(sd).rounded, 0)}` : size;
}

const basisWords = ({ basis, restsOn }: Estimate): string =>
  restsOn.length === 0 ? basis : `${basis}: ${restsOn.join('; ')}`;
