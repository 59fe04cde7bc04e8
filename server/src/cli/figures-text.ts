/** Computed values as lines for people: what, how much, where from, and notes that say what it rests on. */

import type { Figure } from '../quantities/figure.ts';
import { numberText } from '../words/number-text.ts';
import type { NumberName } from '../words/numbers.ts';
import type { Styles } from './styles.ts';
import { displayWidth, visible } from './visible.ts';

export interface FigureRow extends NumberName {
  /** `null`: there is none. */
  readonly figure: Figure | null;
}

/** What numbers rest on, each reason once, told by its number. */
export class Notes {
  readonly #reasons: string[] = [];

  numbers(reasons: readonly string[]): string {
    return reasons
      .map((reason) => {
        const known = this.#reasons.indexOf(reason);
        return known === -1 ? this.#reasons.push(reason) : known + 1;
      })
      .sort((a, b) => a - b)
      .join(' ');
  }

  lines(): readonly string[] {
    return this.#reasons.map((reason, index) => `${String(index + 1).padStart(5)}  ${visible(reason)}`);
  }
}

export function figureLines(
  rows: readonly FigureRow[],
  notes: Notes,
  styles: Styles,
  indent = '  ',
): readonly string[] {
  const cells = rows.map((row) => ({
    what: visible(plainSpaces(row.what)),
    value: valueText(row),
    basis: row.figure?.basis ?? '',
    rests: row.figure === null ? '' : notes.numbers(row.figure.restsOn),
  }));
  const widths = { what: widest(cells.map(({ what }) => what)), value: widest(cells.map(({ value }) => value)) };
  return cells.map(({ what, value, basis, rests }) => {
    const origin = [basis.padEnd(8), rests === '' ? '' : `[${rests}]`].join('  ').trimEnd();
    return `${indent}${padded(what, widths.what)}  ${padded(value, widths.value)}  ${styles.faint(origin)}`.trimEnd();
  });
}

export function valueText({ figure, ...name }: Pick<FigureRow, 'figure' | 'dimension' | 'decimals' | 'none'>): string {
  const estimate = figure && { value: figure.value, sd: figure.uncertainty ?? Number.POSITIVE_INFINITY };
  return plainSpaces(numberText(estimate, name));
}

export const padded = (text: string, width: number): string =>
  text + ' '.repeat(Math.max(0, width - displayWidth(text)));

export const widest = (texts: readonly string[]): number => Math.max(0, ...texts.map(displayWidth));

/** Narrow spaces are for typesetting; in a terminal they hinder searching and copying. */
export const plainSpaces = (text: string): string => text.replaceAll('\u202F', ' ');
