/** Computed values as text, and the rows in which two states of them stand beside each other. */
import type { Estimate } from '../quantities/estimate.ts';
import { onlyBoundedAbove, printDbOrLower, printQuantity } from '../quantities/print.ts';
import type { NumberChange } from './compare-numbers.ts';
import type { Comparison } from './comparison.ts';
import { NUMBER_NAMES, type NumberName, PHASE_NAMES } from './number-names.ts';

/** `null`: there is none, and the name says how that is called. */
export function numberText(
  estimate: Pick<Estimate, 'value' | 'sd'> | null,
  { dimension, none }: Pick<NumberName, 'dimension' | 'none'>,
): string {
  if (estimate === null) return none ?? 'none';
  const { value, sd } = estimate;
  if (dimension === 'area') return withoutUnit(value, sd, '\u202Fm²');
  if (dimension === 'ratio') return withoutUnit(value, sd, '');
  if (dimension === 'level' && onlyBoundedAbove(estimate)) return printDbOrLower(value + sd);
  return printQuantity({ value, sd, dimension });
}

export interface NumberRow {
  /** `pickup hesk-neck`, `coil screw` */
  readonly path: readonly string[];
  readonly what: string;
  readonly before: string;
  readonly after: string;
  /** The change in percent, `-21 %`, where a percentage says something. */
  readonly by: string;
}

/** Numbers and phases whose printed value differs: what is smaller than that, nobody can measure. */
export function numberRows({ numbers, phases }: Pick<Comparison, 'numbers' | 'phases'>): readonly NumberRow[] {
  const rows = [
    ...phases.map(({ path, before, after }) => ({
      path,
      what: 'phase',
      before: PHASE_NAMES[before],
      after: PHASE_NAMES[after],
      by: '',
    })),
    ...numbers.map((change) => ({
      path: change.path,
      what: NUMBER_NAMES[change.key].what,
      before: sideText(change, change.before),
      after: sideText(change, change.after),
      by: percentOf(change),
    })),
  ];
  return rows.filter(({ before, after }) => before !== after);
}

const sideText = ({ key }: NumberChange, estimate: Estimate | null | undefined): string =>
  estimate === undefined ? 'not known' : numberText(estimate, NUMBER_NAMES[key]);

function percentOf({ key, before, after }: NumberChange): string {
  if (!before || !after || before.value === 0 || NUMBER_NAMES[key].dimension === 'level') return '';
  const percent = (100 * (after.value - before.value)) / Math.abs(before.value);
  if (!Number.isFinite(percent) || Math.abs(percent) < 0.05) return '';
  return `${percent > 0 ? '+' : '-'}${Math.abs(percent).toFixed(Math.abs(percent) < 10 ? 1 : 0)} %`;
}

/** A number alone is printed as turns are, which have no prefix and no scale; their unit is then left out. */
const withoutUnit = (value: number, sd: number, unit: string): string =>
  `${printQuantity({ value, sd, dimension: 'turns' }).replace(/\s*turns$/, '')}${unit}`;
