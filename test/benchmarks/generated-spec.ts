/**
 * Specs of any length for measuring, as a shop writes them: parts, one real mistake, and as many two-coil pickups as the length allows,
 * each with its readings and in an instrument.
 */
import { readFileSync } from 'node:fs';
import path from 'node:path';

const TEMPLATE = readFileSync(path.join(import.meta.dirname, 'realistic.tpl'), 'utf8');
const [PARTS = '', PICKUP = ''] = TEMPLATE.split('%%\n');

export interface GeneratedSpec {
  readonly text: string;
  /** Offsets in the pickup in the middle: behind a digit of its turns, in a fact's word. */
  readonly digit: number;
  readonly word: number;
}

export function generatedSpec(lines: number): GeneratedSpec {
  const count = Math.max(1, Math.round((lines - PARTS.split('\n').length) / (PICKUP.split('\n').length - 1)));
  const pickups = Array.from({ length: count }, (_, index) => PICKUP.replaceAll('{{i}}', String(index)));
  const text = PARTS + pickups.join('');
  const middle = text.indexOf(`pickup p${count >> 1} `);
  const behind = (piece: string): number => {
    const at = text.indexOf(piece, middle);
    // An edit anywhere else, in a part that all pickups share, say, would measure something else.
    if (middle < 0 || at < 0) throw new Error(`the template no longer holds "${piece}"`);
    return at + piece.length;
  };
  return { text, digit: behind('turns 4_9'), word: behind('pack') };
}
