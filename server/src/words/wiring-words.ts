/** A planned wiring in the words of the language, and what is said where there is none. */
import type { Impossible, WiringPlan } from '../estimates/wiring-plan.ts';
import { printQuantity } from '../quantities/print.ts';
import { list } from './text.ts';

/** The lines of a `wiring` block. */
export const wiringLines = ({ lines, parts }: WiringPlan): readonly string[] => [
  ...lines.map(({ kind, terminals }) => [kind, ...terminals].join(' ')),
  ...parts.map(({ alike, ends: [from, to] }) => {
    const [kind = '', si = ''] = alike.split(' ');
    const value = printQuantity({
      value: Number(si),
      dimension: kind === 'capacitor' ? 'capacitance' : 'resistance',
      style: 'plain',
    });
    return `${kind} ${value} ${from} to ${to}`;
  }),
];

export const wiresWords = ({ wires, isProven }: Pick<WiringPlan, 'wires' | 'isProven'>): string =>
  `${wires} ${wires === 1 ? 'wire' : 'wires'}, ${isProven ? 'and none has fewer' : 'not proven to be the fewest'}`;

/** `positions 1, 2 and 4 clash, and so do 2, 4 and 5`. */
export function clashWords({ clashes, polesNeeded }: Impossible): string {
  const keys = clashes.map((positions) => positions.map(({ key }) => key.value));
  const [first = [], ...others] = keys;
  const clash =
    first.length === 1
      ? `position ${list(keys.map(([key = '']) => key))} cannot be made at all`
      : `it cannot do positions ${list(first)} together${others.map((each) => `, nor ${list(each)}`).join('')}`;
  return polesNeeded === undefined
    ? clash
    : `${clash}; all positions take ${polesNeeded} ${polesNeeded === 1 ? 'pole' : 'poles'} of one throw each`;
}
