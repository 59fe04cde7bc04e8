import type { Analysis, InstrumentAnalysis, Played } from '../analysis/analysis-types.ts';
import type { PositionEstimates } from '../estimates/estimates.ts';
import { FULL_UP } from '../estimates/positions.ts';
import { benchRoomC } from '../model/bench.ts';
import type { Position } from '../model/instrument.ts';
import { onlyBoundedAbove, printNumber, printParts } from '../quantities/print.ts';
import { ENGLISH, type Language } from '../words/languages/language.ts';
import { numberParts } from '../words/number-text.ts';
import { POSITION_NUMBERS, SILENT } from '../words/numbers.ts';
import { titleOf } from '../words/parts.ts';
import { positionTitle, selectionWords } from '../words/selections.ts';
import { settingWords } from '../words/setting-words.ts';
import type { SheetWords } from './drawing-sheet.ts';
import { type PositionVerdict, positionVerdict } from './position-verdict.ts';

export interface PositionRow {
  readonly key: string;
  readonly title: string;
  /** How it joins the pickups, where the title does not say it. */
  readonly joined: string | undefined;
  readonly live: boolean;
  readonly estimates: PositionEstimates;
  /** Level at the jack against the loudest position; where coils cancel, how high it may be. */
  readonly string: { readonly db: number; readonly orLower: boolean } | undefined;
  readonly verdict: PositionVerdict;
}

export interface PositionsPicture extends SheetWords {
  readonly rows: readonly PositionRow[];
  /** Key of the loudest position. */
  readonly loudest: string | undefined;
  /** What is to be said of a position beyond its row. */
  readonly notes: readonly string[];
}

export interface PositionsOptions {
  readonly played?: Played;
  /** Key of the position that is emphasised. */
  readonly live?: string | undefined;
  readonly t?: Language;
}

/** What the sheet shows of an analysed instrument; `undefined` where it has no position. */
export function positionsPicture(
  analysis: Analysis,
  analysed: InstrumentAnalysis,
  { played = FULL_UP, live, t = ENGLISH }: PositionsOptions = {},
): PositionsPicture | undefined {
  const { instrument } = analysed;
  if (instrument.positions.length === 0) return undefined;
  const all = analysed.positions(played);
  const levels = all.flatMap(({ levelDb }) => levelDb?.value ?? []);
  const loudest = all.find(({ levelDb }) => levelDb && levelDb.value === Math.max(...levels));
  const rows = instrument.positions.flatMap((position): readonly PositionRow[] => {
    const estimates = all.find(({ key }) => key === position.key.value);
    return estimates === undefined ? [] : [rowOf(position, estimates, { loudestDb: loudest?.levelDb?.value, live, t })];
  });
  const title = titleOf(instrument);
  const findings = [...analysed.findings, ...analysed.lateFindings()];
  const notes = rows.flatMap(({ key }) =>
    findings.filter(({ subject }) => subject.position === key).map(({ message }) => message),
  );
  const room = printNumber(benchRoomC(analysis.bench), 0);
  return {
    t,
    id: `positions-${instrument.name}`,
    title: `${title}: ${rows.length === 1 ? t('its position') : t('its {0} positions', countWords(rows.length, t))}`,
    subtitle: `${settingWords(instrument, played, t)}, ${room}\u202F°C; ${t('± is one standard deviation')}`,
    name: t('Positions of {0}', title),
    description: rows.map((row) => rowWords(row, t)).join(' '),
    rows,
    loudest: loudest?.key,
    notes: [...new Set(notes)],
  };
}

function rowOf(
  position: Position,
  estimates: PositionEstimates,
  {
    loudestDb,
    live,
    t,
  }: { readonly loudestDb: number | undefined; readonly live: string | undefined; readonly t: Language },
): PositionRow {
  const joined = position.selection === undefined ? undefined : selectionWords(position.selection, t);
  const title = positionTitle(position, t);
  const level = estimates.levelDb?.value;
  return {
    key: position.key.value,
    title,
    joined: joined === title ? undefined : joined,
    live: position.key.value === live,
    estimates,
    string: level === undefined || loudestDb === undefined ? undefined : stringLevel(level - loudestDb, estimates),
    verdict: positionVerdict(estimates, position.onPurpose !== undefined, t),
  };
}

/** Where coils cancel, what is left rests on how equal they are. */
function stringLevel(db: number, { signalDb }: PositionEstimates): { readonly db: number; readonly orLower: boolean } {
  const unbounded = signalDb !== undefined && onlyBoundedAbove(signalDb);
  return unbounded ? { db: Math.ceil(db + signalDb.sd), orLower: true } : { db, orLower: false };
}

const COUNTS = [
  'no',
  'one',
  'two',
  'three',
  'four',
  'five',
  'six',
  'seven',
  'eight',
  'nine',
  'ten',
  'eleven',
  'twelve',
] as const;

const countWords = (count: number, t: Language): string => {
  const word = COUNTS[count];
  return word === undefined ? String(count) : t(word);
};

export function rowWords({ key, title, estimates, verdict }: PositionRow, t: Language): string {
  const { value, hasUnit } = resistanceParts(estimates, t);
  const resistance = hasUnit ? t('{0} kilohm', value) : value;
  const row = t('Position {0}, {1}: {2}.', key, title, resistance);
  const { resonanceHz } = estimates;
  const measured = resonanceHz?.basis === 'reading' ? [t('Resonance as measured.')] : [];
  return [row, ...measured, ...verdict.sentences.map(({ text }) => text)].join(' ');
}

export function resistanceParts(
  { resistanceOhm }: PositionEstimates,
  t: Language,
): {
  readonly value: string;
  readonly uncertainty?: string;
  /** Of a number in kΩ. */
  readonly hasUnit: boolean;
} {
  if (!resistanceOhm) return { value: t(resistanceOhm === null ? 'open' : 'unknown'), hasUnit: false };
  const { value, sd } = resistanceOhm;
  return { ...printParts({ value, sd, dimension: 'resistance', unit: 'kohm', style: t.numbers }), hasUnit: true };
}

export function stringText({ string, estimates }: PositionRow, t: Language): string {
  if (estimates.levelDb === null) return t(SILENT);
  if (string === undefined) return t('unknown');
  const level = printNumber(string.db, 0);
  return string.orLower ? t('{0} or lower', level) : level;
}

/** Against the strongest coil of the position. */
export function humText({ estimates: { humDb, levelDb } }: PositionRow, t: Language): string {
  if (humDb !== undefined) return numberParts(humDb, POSITION_NUMBERS.humDb, undefined, t).number;
  return t(levelDb === null ? SILENT : 'unknown');
}
