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
export const fitText = ({ windowFilled, fits }: TurnsProposal): string => {
  const filled = windowFilled === undefined ? '' : `, ${printNumber(100 * windowFilled, 0)} % of the window`;
  return `${fits ? 'fits' : 'does not fit'}${filled}`;
};

/** `120 ± 30 turns, 15.2 ± 0.4 m` */
export const woundText = ({ turns, lengthM }: WoundLength): string => `${turnsText(turns)}, ${lengthText(lengthM)}`;

const lengthText = ({ value, sd }: Estimate): string => printQuantity({ value, sd, dimension: 'length', unit: 'm' });

/** `take off 120 ± 30 turns, 15.2 ± 0.4 m`; `wind on …` where they are too few. */
export function offText({ turns, lengthM }: WoundLength): string {
  if (Math.abs(turns.value) < 0.5) return 'nothing to take off';
  const size = (each: Estimate): Estimate => ({ ...each, value: Math.abs(each.value) });
  return `${turns.value > 0 ? 'take off' : 'wind on'} ${woundText({ turns: size(turns), lengthM: size(lengthM) })}`;
}

/** `wire 690 ± 20 m, 30 ± 1.3 g; spool MG-2 has 9 g left: not enough` */
export function wireText({ lengthM, massKg, spool, enough }: WireNeed): string {
  const mass = massKg && `, ${printQuantity({ value: massKg.value, sd: massKg.sd, dimension: 'mass', unit: 'g' })}`;
  const left = spool?.left?.value;
  const judged = enough === undefined ? '' : enough ? ', enough' : ', not enough: it runs out before the last turn';
  const held = spool
    ? `; spool ${spool.name} ${left ? `has ${printQuantity({ value: left.si, dimension: 'mass' })} left${judged}` : 'is not weighed: state what is `left`'}`
    : '';
  return `wire ${lengthText(lengthM)}${mass ?? ''}${held}`;
}
