/** The report for people: pickups with their coils, instruments with their positions. */

import type { InstrumentAnalysis, PickupAnalysis } from '../analysis/analysis-types.ts';
import { pickupNumbers } from '../comparison/numbers-table.ts';
import type { Rework } from '../comparison/reworks.ts';
import type { PositionEstimates } from '../estimates/estimates.ts';
import type { Mismatch } from '../estimates/mismatch.ts';
import { type AimRow, aimRows } from '../features/aim-rows.ts';
import { mismatchHeading, mismatchWords } from '../features/mismatch-rows.ts';
import type { NextMeasurement } from '../proposal/measure-next.ts';
import type { NextInInstrument } from '../proposal/measure-next-instrument.ts';
import { measurementWords } from '../proposal/measurement-words.ts';
import type { Figure } from '../quantities/figure.ts';
import { ENGLISH } from '../words/languages/language.ts';
import {
  COIL_NUMBERS,
  FIELD_RATIO,
  keysOf,
  type NumberName,
  OUTPUT_CHANGE,
  PICKUP_NUMBERS,
  POSITION_NUMBERS,
  PULL_RATIO,
  SILENT,
} from '../words/numbers.ts';
import { phaseExplained } from '../words/phases.ts';
import { COIL_UNTOLD, untoldWords } from '../words/untold.ts';
import { type FigureRow, figureLines, Notes, padded, plainSpaces, valueText, widest } from './figures-text.ts';
import { type PickupData, type PositionData, pickupData, positionData, type ReportOptions } from './report-data.ts';
import type { Styles } from './styles.ts';
import { visible } from './visible.ts';

export function pickupText(analysis: PickupAnalysis, options: ReportOptions, styles: Styles): string {
  const { pickup } = analysis;
  const data = pickupData(analysis, options);
  const notes = new Notes();
  const lines = [
    heading('pickup', pickup.name, pickup.title, pickup.serial?.value, styles),
    `  ${phaseExplained(data.phase)}`,
    ...figureLines(rowsOf(data, PICKUP_NUMBERS), notes, styles),
  ];
  for (const [name, coil] of Object.entries(data.coils)) {
    const rows = figureLines(rowsOf(coil, COIL_NUMBERS), notes, styles, '    ');
    lines.push(
      '',
      `  coil ${visible(name)}`,
      ...(rows.length > 0 ? rows : [`    ${data.isSweptWhole ? COIL_UNTOLD : 'not known by itself'}`]),
    );
  }
  if (data.leadReadings.length > 0) lines.push('', '  what a meter should read', ...readingLines(data, notes, styles));
  const aims = aimRows(analysis);
  if (aims.length > 0) lines.push('', '  target', ...aimLines(aims));
  const next = options.next?.(analysis);
  if (next) lines.push('', ...nextLines(next));
  const rework = options.rework?.(analysis);
  if (rework) lines.push('', ...reworkLines(rework));
  const unequal = analysis.mismatch(options.cableF);
  if (unequal) lines.push('', ...mismatchLines(unequal));
  if (data.magnets) lines.push('', '  another magnet instead', ...exchangeLines(data.magnets, notes, styles));
  return [...lines, ...restsOn(notes)].join('\n');
}

/** What is wanted, what it comes to, and in three words whether that is reached. */
export const aimLines = (rows: readonly AimRow[]): readonly string[] =>
  columnLines(rows.map(({ name, value, verdict }) => [visible(name), value, verdict].map(plainSpaces)));

/** The one reading that settles most, how it is taken, and the line to write. */
function nextLines(next: NextMeasurement): readonly string[] {
  const { settles, how, handling, line } = measurementWords(next);
  return [
    '  measure next',
    ...[`for ${settles}, ${handling}`, how, `write: ${line}`].map((each) => `    ${plainSpaces(visible(each))}`),
  ];
}

/** What the work changed of the numbers, with what each difference is known to. */
function reworkLines({ before, after, label }: Rework): readonly string[] {
  const [former, now] = [before.pickups[0], after.pickups[0]];
  const rows = former && now ? pickupNumbers(now, former).rows : [];
  const table = [
    ['', 'before', 'now', 'change'],
    ...rows.flatMap(({ name, before: was = '', now: is, change = '' }) =>
      change === '' ? [] : [[name, was, is, change].map(plainSpaces)],
    ),
  ];
  const heading = `  what the work did, beside ${visible(label(ENGLISH))}`;
  return table.length === 1 ? [`${heading}: no number that can be told`] : [heading, ...columnLines(table)];
}

/** Three columns: as built, matched, the first less the second. */
function mismatchLines(unequal: Mismatch): readonly string[] {
  const heading = plainSpaces(mismatchHeading(unequal));
  const rows = mismatchWords(unequal).map(({ name, built, matched, difference }) =>
    [name, built, matched, difference].map(plainSpaces),
  );
  const table = [['', 'as built', 'matched', 'difference'], ...rows];
  return [`  ${visible(heading.charAt(0).toLowerCase() + heading.slice(1))}`, ...columnLines(table)];
}

function columnLines(table: readonly (readonly string[])[]): readonly string[] {
  const widths = table[0]?.map((_, column) => widest(table.map((row) => row[column] ?? ''))) ?? [];
  return table.map((row) => `    ${row.map((cell, column) => padded(cell, widths[column] ?? 0)).join('  ')}`.trimEnd());
}

function exchangeLines(magnets: NonNullable<PickupData['magnets']>, notes: Notes, styles: Styles): readonly string[] {
  return columnLines(
    Object.entries(magnets).map(([name, { fieldRatio, outputDb, pullRatio }]) => [
      visible(name),
      `${OUTPUT_CHANGE.what} ${valueText({ figure: outputDb, ...OUTPUT_CHANGE })}`,
      `${FIELD_RATIO.what} x ${valueText({ figure: fieldRatio, ...FIELD_RATIO })}`,
      `${PULL_RATIO.what} x ${valueText({ figure: pullRatio, ...PULL_RATIO })}`,
      styles.faint(`[${notes.numbers(outputDb.restsOn)}]`),
    ]),
  );
}

export function instrumentText(
  analysis: InstrumentAnalysis,
  estimates: readonly PositionEstimates[],
  next: NextInInstrument | undefined,
  styles: Styles,
): string {
  const { instrument } = analysis;
  const notes = new Notes();
  const lines = [heading('instrument', instrument.name, instrument.title, undefined, styles)];
  for (const position of estimates.map(positionData)) {
    const title = position.title === undefined ? '' : `, "${visible(position.title)}"`;
    lines.push(
      '',
      `  position ${visible(position.key)}${title}: ${phaseExplained(position.phase)}`,
      ...figureLines(rowsOf(position, POSITION_NUMBERS), notes, styles, '    '),
      ...(position.untold ? [`    ${visible(untoldWords(position.untold))}`] : []),
    );
  }
  if (next) lines.push('', ...nextLines(next));
  return [...lines, ...restsOn(notes)].join('\n');
}

/** Levels at the frequencies that were asked for, one row a frequency, one column a position. */
export function responseText(positions: readonly PositionData[], frequenciesHz: readonly number[]): string {
  const columns = positions.map(({ key, response }) => {
    const cells = frequenciesHz.map((frequency) => {
      const level = response?.levelDb[response.frequencyHz.indexOf(frequency)];
      if (level === null) return SILENT;
      return level === undefined || !Number.isFinite(level) ? 'not known' : `${level.toFixed(1)} dB`;
    });
    return [`position ${visible(key)}`, ...cells];
  });
  const table = [['frequency', ...frequenciesHz.map((each) => `${each} Hz`)], ...columns];
  const rows = Array.from({ length: frequenciesHz.length + 1 }, (_, row) => table.map((column) => column[row] ?? ''));
  return ['  level at the jack; 0 dB: one coil of 5000 turns, unloaded', ...columnLines(rows)].join('\n');
}

function rowsOf<K extends string>(
  figures: { readonly [key in K]?: Figure | null },
  names: Readonly<Record<K, NumberName>>,
): readonly FigureRow[] {
  return keysOf(names).flatMap((key) => {
    const figure = figures[key];
    return figure === undefined ? [] : [{ ...names[key], figure }];
  });
}

function readingLines({ leadReadings }: PickupData, notes: Notes, styles: Styles): readonly string[] {
  const rows = leadReadings.map(({ leads, resistanceOhm, toleranceOhm, temperatureC }) => ({
    what: `${leads[0]} to ${leads[1]}, ${Number(temperatureC.toFixed(1))} °C`,
    figure: resistanceOhm,
    toleranceOhm,
  }));
  const width = widest(rows.map(({ what }) => visible(what)));
  return rows.map(({ what, figure, toleranceOhm }) => {
    // A meter shows one number; what it may differ by is the tolerance, not the spread of the estimate.
    const value = valueText({
      figure: figure === null ? null : { ...figure, uncertainty: toleranceOhm },
      dimension: 'resistance',
      none: 'open',
    });
    const rests = figure === null ? '' : `  ${styles.faint(`[${notes.numbers(figure.restsOn)}]`)}`;
    return `    ${padded(visible(what), width)}  ${value}${rests}`;
  });
}

function restsOn(notes: Notes): readonly string[] {
  const lines = notes.lines();
  return lines.length === 0 ? [''] : ['', '  rests on', ...lines, ''];
}

function heading(
  kind: string,
  name: string,
  title: string | undefined,
  serial: string | undefined,
  styles: Styles,
): string {
  const parts = [`${kind} ${styles.strong(visible(name))}`];
  if (title !== undefined) parts.push(`"${visible(title)}"`);
  if (serial !== undefined) parts.push(`serial ${visible(serial)}`);
  return parts.join(', ');
}
