/** How turns that were worked out, and the wire that they take, are told. */
import type { TurnsProposal, WireNeed, WoundLength } from '../estimates/turns-plan.ts';
import type { Estimate } from '../quantities/estimate.ts';
import { printCount, printNumber, printQuantity, roundUncertainty } from '../quantities/print.ts';
import { ENGLISH } from './languages/language.ts';

/** `8 820 ± 390 turns` */
export const turnsText = ({ value, sd }: Pick<Estimate, 'value' | 'sd'>, t = ENGLISH): string =>
  sd < 0.5
    ? t('{0} turns', printCount(value, t.numbers))
    : printQuantity({ value, sd: Math.max(1, sd), dimension: 'turns', decimals: 0, style: t.numbers });

/** The count that a plan states: in tens where it is not known to tens. */
export const plannedTurns = ({ turns: { value, sd } }: TurnsProposal): number =>
  sd > 0 && roundUncertainty(sd).place >= 1 ? 10 * Math.round(value / 10) : Math.round(value);

/** `does not fit, 118 % of the window` */
export const fitText = ({ windowFilled, fits }: TurnsProposal, t = ENGLISH): string =>
  [
    t(fits ? 'fits' : 'does not fit'),
    ...(windowFilled === undefined
      ? []
      : [t('{0} of the window', `${printNumber(100 * windowFilled, 0, t.numbers)}\u202F%`)]),
  ].join(', ');

/** `120 ± 30 turns, 15.2 ± 0.4 m` */
export const woundText = ({ turns, lengthM }: WoundLength): string => `${turnsText(turns)}, ${lengthText(lengthM)}`;

const lengthText = ({ value, sd }: Estimate, t = ENGLISH): string =>
  printQuantity({ value, sd, dimension: 'length', unit: 'm', style: t.numbers });

/** `take off 120 ± 30 turns, 15.2 ± 0.4 m`; `wind on …` where they are too few. */
export function offText({ turns, lengthM }: WoundLength): string {
  if (Math.abs(turns.value) < 0.5) return 'nothing to take off';
  const size = (each: Estimate): Estimate => ({ ...each, value: Math.abs(each.value) });
  return `${turns.value > 0 ? 'take off' : 'wind on'} ${woundText({ turns: size(turns), lengthM: size(lengthM) })}`;
}

/** `wire 690 ± 20 m, 30 ± 1.3 g; spool MG-2 has 9 g left: not enough` */
export function wireText({ lengthM, massKg, spool, enough }: WireNeed, t = ENGLISH): string {
  const style = t.numbers;
  const mass = massKg && printQuantity({ value: massKg.value, sd: massKg.sd, dimension: 'mass', unit: 'g', style });
  const needed = t('wire {0}', [lengthText(lengthM, t), ...(mass ? [mass] : [])].join(', '));
  if (!spool) return needed;
  const left = spool.left && printQuantity({ value: spool.left.value.si, dimension: 'mass', style });
  if (!left) return t('{0}; spool {1} is not weighed: state what is `left`', needed, spool.name);
  if (enough === undefined) return t('{0}; spool {1} has {2} left', needed, spool.name, left);
  return enough
    ? t('{0}; spool {1} has {2} left, enough', needed, spool.name, left)
    : t('{0}; spool {1} has {2} left, not enough: it runs out before the last turn', needed, spool.name, left);
}
