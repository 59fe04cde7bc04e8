import type { Analysis, InstrumentAnalysis, Played } from '../analysis/analysis-types.ts';
import type { PositionEstimates } from '../estimates/estimates.ts';
import { FULL_UP } from '../estimates/positions.ts';
import { benchRoomC } from '../model/bench.ts';
import type { Position } from '../model/instrument.ts';
import { onlyBoundedAbove, printNumber, printParts } from '../quantities/print.ts';
import { numberParts } from '../words/number-text.ts';
import { POSITION_NUMBERS, SILENT } from '../words/numbers.ts';
import { titleOf } from '../words/parts.ts';
import { positionTitle, selectionWords } from '../words/selections.ts';
import type { SheetWords } from './drawing-sheet.ts';
import { type PositionVerdict, positionVerdict } from './position-verdict.ts';
import { settingWords } from './response-plot/from-model.ts';

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
}

/** What the sheet shows of an analysed instrument; `undefined` where it has no position. */
export function positionsPicture(
  analysis: Analysis,
  analysed: InstrumentAnalysis,
  { played = FULL_UP, live }: PositionsOptions = {},
): PositionsPicture | undefined {
  const { instrument } = analysed;
  if (instrument.positions.length === 0) return undefined;
  const all = analysed.positions(played);
  const levels = all.flatMap(({ levelDb }) => levelDb?.value ?? []);
  const loudest = all.find(({ levelDb }) => levelDb && levelDb.value === Math.max(...levels));
  const rows = instrument.positions.flatMap((position): readonly PositionRow[] => {
    const estimates = all.find(({ key }) => key === position.key.value);
    return estimates === undefined ? [] : [rowOf(position, estimates, loudest?.levelDb?.value, live)];
  });
  const title = titleOf(instrument);
  const findings = [...analysed.findings, ...analysed.lateFindings()];
  const notes = rows.flatMap(({ key }) =>
    findings.filter(({ subject }) => subject.position === key).map(({ message }) => message),
  );
  const room = printNumber(benchRoomC(analysis.bench), 0);
  return {
    id: `positions-${instrument.name}`,
    title: `${title}: ${rows.length === 1 ? 'its position' : `its ${COUNTS[rows.length] ?? rows.length} positions`}`,
    subtitle: `${settingWords(instrument, played)}, ${room}\u202F°C; ± is one standard deviation`,
    name: `Positions of ${title}`,
    description: rows.map(rowWords).join(' '),
    rows,
    loudest: loudest?.key,
    notes: [...new Set(notes)],
  };
}

function rowOf(
  position: Position,
  estimates: PositionEstimates,
  loudestDb: number | undefined,
  live: string | undefined,
): PositionRow {
  const joined = position.selection === undefined ? undefined : selectionWords(position.selection);
  const title = positionTitle(position);
  const level = estimates.levelDb?.value;
  return {
    key: position.key.value,
    title,
    joined: joined === title ? undefined : joined,
    live: position.key.value === live,
    estimates,
    string: level === undefined || loudestDb === undefined ? undefined : stringLevel(level - loudestDb, estimates),
    verdict: positionVerdict(estimates, position.onPurpose !== undefined),
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
];

export function rowWords({ key, title, estimates, verdict }: PositionRow): string {
  const ohm = resistanceParts(estimates);
  const resistance = ohm.value === 'unknown' || ohm.value === 'open' ? ohm.value : `${ohm.value} kilohm`;
  return `Position ${key}, ${title}: ${resistance}. ${verdict.sentences.map(({ text }) => text).join(' ')}`;
}

export function resistanceParts({ resistanceOhm }: PositionEstimates): {
  readonly value: string;
  readonly uncertainty?: string;
} {
  if (resistanceOhm === null) return { value: 'open' };
  if (resistanceOhm === undefined) return { value: 'unknown' };
  return printParts({ value: resistanceOhm.value, sd: resistanceOhm.sd, dimension: 'resistance', unit: 'kohm' });
}

export function stringText({ string, estimates }: PositionRow): string {
  if (estimates.levelDb === null) return SILENT;
  if (string === undefined) return 'unknown';
  return `${printNumber(string.db, 0)}${string.orLower ? ' or lower' : ''}`;
}

/** Against the strongest coil of the position. */
export function humText({ estimates: { humDb, levelDb } }: PositionRow): string {
  if (humDb !== undefined) return numberParts(humDb, POSITION_NUMBERS.humDb).number;
  return levelDb === null ? SILENT : 'unknown';
}
