/** The report for people: pickups with their coils, instruments with their positions. */
import type { InstrumentAnalysis, PickupAnalysis } from '../analysis-types.ts';
import type { CoilEstimates, PhaseVerdict, PickupEstimates, PositionEstimates } from '../estimates/estimates.ts';
import { type FigureRow, figureLines, Notes, padded, valueText, widest } from './figures-text.ts';
import { type PickupData, type PositionData, pickupData, positionData } from './report-data.ts';
import type { Styles } from './styles.ts';
import { visible } from './visible.ts';

export function pickupText(analysis: PickupAnalysis, styles: Styles): string {
  const { pickup } = analysis;
  const data = pickupData(analysis);
  const notes = new Notes();
  const lines = [
    heading('pickup', pickup.name, pickup.title, pickup.serial?.value, styles),
    ...figureLines(rowsOf(data, PICKUP_ROWS), notes, styles),
    `  ${PHASE[data.phase]}`,
  ];
  for (const [name, coil] of Object.entries(data.coils)) {
    lines.push('', `  coil ${visible(name)}`, ...figureLines(rowsOf(coil, COIL_ROWS), notes, styles, '    '));
  }
  if (data.leadReadings.length > 0) lines.push('', '  what a meter should read', ...readingLines(data, notes, styles));
  return [...lines, ...restsOn(notes)].join('\n');
}

export function instrumentText(
  analysis: InstrumentAnalysis,
  estimates: readonly PositionEstimates[],
  styles: Styles,
): string {
  const { instrument } = analysis;
  const notes = new Notes();
  const lines = [heading('instrument', instrument.name, instrument.title, undefined, styles)];
  for (const position of estimates.map(positionData)) {
    const title = position.title === undefined ? '' : `, "${visible(position.title)}"`;
    lines.push(
      '',
      `  position ${visible(position.key)}${title}: ${PHASE[position.phase]}`,
      ...figureLines(rowsOf(position, POSITION_ROWS), notes, styles, '    '),
    );
  }
  return [...lines, ...restsOn(notes)].join('\n');
}

/** Levels at the frequencies that were asked for, one row a frequency, one column a position. */
export function responseText(positions: readonly PositionData[], frequenciesHz: readonly number[]): string {
  const columns = positions.map(({ key, response }) => {
    const cells = frequenciesHz.map((frequency) => {
      const level = response?.levelDb[response.frequencyHz.indexOf(frequency)];
      return level === undefined || !Number.isFinite(level) ? '-' : `${level.toFixed(1)} dB`;
    });
    return [`position ${visible(key)}`, ...cells];
  });
  const table = [['frequency', ...frequenciesHz.map((each) => `${each} Hz`)], ...columns];
  const widths = table.map(widest);
  const rows = Array.from({ length: frequenciesHz.length + 1 }, (_, row) =>
    table.map((column, index) => padded(column[row] ?? '', widths[index] ?? 0)).join('  '),
  );
  return [
    '  level at the jack; 0 dB: one coil of 5000 turns, unloaded',
    ...rows.map((row) => `    ${row.trimEnd()}`),
  ].join('\n');
}

export const PHASE: Readonly<Record<PhaseVerdict, string>> = {
  in: 'in phase',
  out: 'out of phase',
  single: 'one coil sounds',
  unproven: 'phase unproven: a sign is neither stated nor measured',
};

type Row<K extends string> = readonly [key: K, what: string, dimension: FigureRow['dimension'], none?: string];

const PICKUP_ROWS: readonly Row<Exclude<keyof PickupEstimates, 'coils' | 'phase' | 'leadReadings'>>[] = [
  ['resistance20COhm', 'hot to ground, 20 °C', 'resistance', 'open'],
  ['inductanceH', 'inductance', 'inductance'],
  ['capacitanceF', 'capacitance', 'capacitance'],
  ['resonanceHz', 'resonance', 'frequency'],
  ['peakDb', 'peak', 'level'],
  ['signalDb', 'string signal against one coil', 'level'],
  ['humDb', 'hum against one coil', 'level'],
];

const COIL_ROWS: readonly Row<keyof CoilEstimates>[] = [
  ['turns', 'turns', 'turns'],
  ['resistance20COhm', 'resistance, 20 °C', 'resistance', 'open'],
  ['ohmPerM20C', 'wire, 20 °C', 'resistance per length'],
  ['wireLengthM', 'wire length', 'length'],
  ['wireMassKg', 'wire mass', 'mass'],
  ['meanTurnM', 'mean turn', 'length'],
  ['turnAreaM2', 'mean turn area', 'area'],
  ['layers', 'layers', 'ratio'],
  ['buildM', 'build', 'length'],
  ['windowFilled', 'window filled', 'percentage'],
  ['packing', 'packing', 'ratio'],
  ['inductanceAirH', 'inductance in air', 'inductance'],
  ['inductanceH', 'inductance', 'inductance'],
  ['capacitanceF', 'capacitance', 'capacitance'],
];

const POSITION_ROWS: readonly Row<Exclude<keyof PositionEstimates, 'key' | 'title' | 'phase' | 'response'>>[] = [
  ['resistanceOhm', 'at the jack', 'resistance', 'open'],
  ['resonanceHz', 'resonance', 'frequency'],
  ['peakDb', 'peak', 'level'],
  ['minus3DbHz', '-3 dB at', 'frequency'],
  ['levelDb', 'level', 'level'],
  ['signalDb', 'string signal against one coil', 'level'],
  ['humDb', 'hum against one coil', 'level'],
];

function rowsOf<K extends string>(
  figures: { readonly [key in K]?: FigureRow['figure'] },
  rows: readonly Row<K>[],
): readonly FigureRow[] {
  return rows.flatMap(([key, what, dimension, none]) => {
    const figure = figures[key];
    return figure === undefined ? [] : [{ what, figure, dimension, ...(none === undefined ? {} : { none }) }];
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
