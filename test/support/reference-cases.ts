import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';

/** One row of a file in test/physics/reference/: numbers that were made or published outside this project. */
export interface ReferenceCase {
  id: string;
  kind?: string;
  inputs: Record<string, unknown>;
  expected: Record<string, unknown>;
  relativeUncertainty: number | Record<string, number>;
}

/** One comparison: our number beside the reference, and how far apart they may be. */
export interface Comparison {
  id: string;
  quantity: string;
  reference: number;
  ours: number;
  /** Relative to the reference, or in the quantity's own unit. */
  tolerance: { relative: number } | { absolute: number };
}

/** The cases of `test/physics/reference/<file>.json` whose id begins with one of `prefixes`; none found is an error. */
export function referenceCases(file: string, ...prefixes: string[]): ReferenceCase[] {
  const path = new URL(`../physics/reference/${file}.json`, import.meta.url);
  const { cases } = JSON.parse(readFileSync(path, 'utf8')) as { cases: ReferenceCase[] };
  const chosen = cases.filter(({ id }) => prefixes.length === 0 || prefixes.some((prefix) => id.startsWith(prefix)));
  assert.ok(chosen.length > 0, `${file}.json holds no case ${prefixes.join(', ')}`);
  return chosen;
}

/** A number of a case by its key; a missing one is a fault of the test, not a number. */
export function numberAt(record: Record<string, unknown>, key: string): number {
  const value = record[key];
  if (typeof value !== 'number') throw new TypeError(`no number "${key}" in ${Object.keys(record).join(', ')}`);
  return value;
}

/** A list of numbers of a case by its key. */
export function numbersAt(record: Record<string, unknown>, key: string): number[] {
  const value = record[key];
  if (!Array.isArray(value) || !value.every((entry) => typeof entry === 'number'))
    throw new TypeError(`no numbers "${key}"`);
  return value;
}

/** A nested record of a case by its key. */
export function recordAt(record: Record<string, unknown>, key: string): Record<string, unknown> {
  const value = record[key];
  if (typeof value !== 'object' || value === null || Array.isArray(value)) throw new TypeError(`no record "${key}"`);
  return value as Record<string, unknown>;
}

/** The reference's own relative uncertainty of one of its numbers. */
export function uncertaintyOf({ relativeUncertainty }: ReferenceCase, key: string): number {
  if (typeof relativeUncertainty === 'number') return relativeUncertainty;
  return relativeUncertainty[key] ?? relativeUncertainty.default ?? 0;
}

/** One test for each comparison; with REFERENCE_TABLE=1 the table is printed as well. */
export function testAgainstReference(title: string, compare: () => Comparison[]): void {
  describe(title, () => {
    const rows = compare();
    for (const row of rows) {
      it(`${row.id} ${row.quantity}`, () => {
        assert.ok(Number.isFinite(row.ours), `ours is ${row.ours}`);
        const { difference, allowed } = judged(row);
        assert.ok(difference <= allowed, describeRow(row));
      });
    }
    if (process.env.REFERENCE_TABLE !== undefined) after(() => console.log(rows.map(describeRow).join('\n')));
  });
}

function judged({ reference, ours, tolerance }: Comparison): { difference: number; allowed: number } {
  const difference = Math.abs(ours - reference);
  // Ten bits of rounding: an exact reference and a chain of a few operations on doubles.
  const rounding = 2 ** -43 * Math.abs(reference);
  return {
    difference,
    allowed: rounding + ('absolute' in tolerance ? tolerance.absolute : tolerance.relative * Math.abs(reference)),
  };
}

function describeRow(row: Comparison): string {
  const relative = (row.ours - row.reference) / row.reference;
  const tolerance =
    'absolute' in row.tolerance ? `± ${row.tolerance.absolute}` : `± ${row.tolerance.relative.toExponential(1)} rel`;
  return [
    row.id.padEnd(22),
    row.quantity.padEnd(36),
    `reference ${row.reference.toPrecision(8)}`,
    `ours ${row.ours.toPrecision(8)}`,
    `difference ${relative.toExponential(1)} rel`,
    `tolerance ${tolerance}`,
  ].join('  ');
}
