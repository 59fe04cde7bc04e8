/** Rows in which two states of the computed numbers stand beside each other. */
import type { Estimate } from '../quantities/estimate.ts';
import { onlyBoundedAbove, printNumber } from '../quantities/print.ts';
import { ENGLISH, type Language, type PlainText } from '../words/languages/language.ts';
import { isToldApart, marked, numberText, TOO_SMALL } from '../words/number-text.ts';
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
export function numberRows(
  { numbers, phases }: Pick<Comparison, 'numbers' | 'phases'>,
  t = ENGLISH,
): readonly NumberRow[] {
  const differing = numbers.filter((each) => sideText(each, each.before, t) !== sideText(each, each.after, t));
  const rows = [
    ...phases.map(({ path, before, after }) => ({
      path,
      what: t('phase'),
      before: phaseWords(before, t),
      after: phaseWords(after, t),
      by: '',
    })),
    ...differing.map((change) => ({
      path: change.path,
      what: t(change.name.what),
      before: marked(sideText(change, change.before, t), change.before, t),
      after: marked(sideText(change, change.after, t), change.after, t),
      by: [percentOf(change, t), ...hidden(change).map((each) => t(each))].filter((part) => part !== '').join(', '),
    })),
  ];
  return rows.filter(({ before, after }) => before !== after);
}

const sideText = ({ name }: NumberChange, estimate: Estimate | null | undefined, t: Language): string =>
  estimate === undefined ? t('not known') : numberText(estimate, name, t);

/** A level that is only known to lie below something is no number to take another from. */
function hidden({ name, before, after, difference }: NumberChange): readonly PlainText[] {
  if (!before || !after || difference === undefined || isToldApart(difference)) return [];
  return name.dimension === 'level' && [before, after].some(onlyBoundedAbove) ? [] : [TOO_SMALL];
}

function percentOf({ name, before, after }: NumberChange, t: Language): string {
  if (!before || !after || before.value === 0 || name.dimension === 'level') return '';
  const percent = (100 * (after.value - before.value)) / Math.abs(before.value);
  if (!Number.isFinite(percent) || Math.abs(percent) < 0.05) return '';
  const size = Math.abs(percent);
  return `${percent > 0 ? '+' : '\u2212'}${printNumber(size, size < 10 ? 1 : 0, t.numbers)}\u202F%`;
}
