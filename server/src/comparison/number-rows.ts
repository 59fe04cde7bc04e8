/** Rows in which two states of the computed numbers stand beside each other. */
import type { Estimate } from '../quantities/estimate.ts';
import { onlyBoundedAbove } from '../quantities/print.ts';
import { isToldApart, numberText, TOO_SMALL } from '../words/number-text.ts';
import { phaseWords } from '../words/phases.ts';
import type { NumberChange } from './compare-numbers.ts';
import type { Comparison } from './comparison.ts';

export interface NumberRow {
  /** `pickup hesk-neck`, `coil screw` */
  readonly path: readonly string[];
  readonly what: string;
  readonly before: string;
  readonly after: string;
  /** The change in percent, `-21 %`, where a percentage says something; that its own ± may hide it. */
  readonly by: string;
}

/** Numbers and phases whose printed value differs: what is smaller than that, nobody can measure. */
export function numberRows({ numbers, phases }: Pick<Comparison, 'numbers' | 'phases'>): readonly NumberRow[] {
  const differing = numbers.filter((each) => sideText(each, each.before) !== sideText(each, each.after));
  const rows = [
    ...phases.map(({ path, before, after }) => ({
      path,
      what: 'phase',
      before: phaseWords(before),
      after: phaseWords(after),
      by: '',
    })),
    ...differing.map((change) => ({
      path: change.path,
      what: change.name.what,
      before: sideText(change, change.before) + markOf(change.before),
      after: sideText(change, change.after) + markOf(change.after),
      by: [percentOf(change), ...hidden(change)].filter((part) => part !== '').join(', '),
    })),
  ];
  return rows.filter(({ before, after }) => before !== after);
}

const sideText = ({ name }: NumberChange, estimate: Estimate | null | undefined): string =>
  estimate === undefined ? 'not known' : numberText(estimate, name);

/** What a meter showed is told from what is computed. */
const markOf = (estimate: Estimate | null | undefined): string => (estimate?.basis === 'reading' ? ', as read' : '');

/** A level that is only known to lie below something is no number to take another from. */
function hidden({ name, before, after, difference }: NumberChange): readonly string[] {
  if (!before || !after || difference === undefined || isToldApart(difference)) return [];
  return name.dimension === 'level' && [before, after].some(onlyBoundedAbove) ? [] : [TOO_SMALL];
}

function percentOf({ name, before, after }: NumberChange): string {
  if (!before || !after || before.value === 0 || name.dimension === 'level') return '';
  const percent = (100 * (after.value - before.value)) / Math.abs(before.value);
  if (!Number.isFinite(percent) || Math.abs(percent) < 0.05) return '';
  return `${percent > 0 ? '+' : '-'}${Math.abs(percent).toFixed(Math.abs(percent) < 10 ? 1 : 0)} %`;
}
