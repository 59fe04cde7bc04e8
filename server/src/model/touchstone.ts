/**
 * One-port files in Touchstone form (version 1.1, EIA/IBIS Open Forum 2002): `!` comments, one option line, rows of frequency and two
 * numbers. Impedances are normalised to the reference resistance of the option line.
 */
import { type Complaint, type CurvePoint, complaint, type RowsRead } from './curve.ts';

const OPTIONS = /^#\s*([kmg]?hz)\s+([a-z])\s+(ma|db|ri)(?:\s+r\s+([\d.e+-]+))?\s*$/i;
const HERTZ: Readonly<Record<string, number>> = { hz: 1, khz: 1e3, mhz: 1e6, ghz: 1e9 };

/** `undefined` where the file is none. */
export function readTouchstone(lines: readonly string[]): RowsRead | Complaint | undefined {
  const at = lines.findIndex((line) => line.trim() !== '' && !line.trimStart().startsWith('!'));
  const options = OPTIONS.exec(lines[at]?.trim() ?? '');
  if (!options) return undefined;
  const [, unit = '', parameter = '', format = '', reference = '50'] = options;
  if (parameter.toUpperCase() !== 'Z')
    return complaint(
      at + 1,
      `it holds ${parameter.toUpperCase() === 'S' ? 'a reflection' : `parameters ${parameter.toUpperCase()}`}; of a pickup's impedance nothing is left in it. Save it as Z.`,
    );
  const points: CurvePoint[] = [];
  for (const [index, line] of lines.entries()) {
    const text = (line.split('!')[0] ?? '').trim();
    if (index <= at || text === '') continue;
    const cells = text.split(/\s+/);
    const [frequency = Number.NaN, first = Number.NaN, second = Number.NaN] = cells.map(Number);
    if (cells.length !== 3) return complaint(index + 1, `${cells.length} numbers where a one-port has 3.`);
    const bad = cells.find((cell) => !Number.isFinite(Number(cell)));
    if (bad !== undefined) return complaint(index + 1, `\`${bad.slice(0, 20)}\` is no number.`);
    points.push({
      row: index + 1,
      hz: frequency * (HERTZ[unit.toLowerCase()] ?? 1),
      ...polar(format.toLowerCase(), first, second, Number(reference)),
    });
  }
  return { quantity: 'impedance', points };
}

function polar(format: string, first: number, second: number, reference: number) {
  if (format === 'ri') return { magnitude: Math.hypot(first, second) * reference, phase: Math.atan2(second, first) };
  const magnitude = format === 'db' ? 10 ** (first / 20) : first;
  return { magnitude: magnitude * reference, phase: (second * Math.PI) / 180 };
}
