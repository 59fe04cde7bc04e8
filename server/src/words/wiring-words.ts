/** A planned wiring in the words of the language, and what is said where there is none. */
import type { Impossible, WiringPlan } from '../estimates/wiring-plan.ts';
import { printQuantity } from '../quantities/print.ts';
import { ENGLISH, type Text } from './languages/language.ts';
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

export function wiresWords({ wires, isProven }: Pick<WiringPlan, 'wires' | 'isProven'>, t = ENGLISH): string {
  if (wires === 1) return t(isProven ? '1 wire, and none has fewer' : '1 wire, not proven to be the fewest');
  return t(isProven ? '{0} wires, and none has fewer' : '{0} wires, not proven to be the fewest', String(wires));
}

/** `it cannot do positions 1, 2 and 4 together, nor 2, 4 and 5; all positions take 3 poles of one throw each` */
export function clashWords({ clashes, polesNeeded }: Impossible, t = ENGLISH): string {
  const keys = clashes.map((positions) => positions.map(({ key }) => key.value));
  const and = t('and');
  const [first = [], ...others] = keys;
  const [only = ''] = first;
  const alone = keys.map(([key = '']) => key);
  const clash =
    first.length === 1
      ? alone.length === 1
        ? t('position {0} cannot be made at all', only)
        : t('positions {0} cannot be made at all', list(alone, and))
      : [
          t('it cannot do positions {0} together', list(first, and)),
          ...others.map((each) => t('nor {0}', list(each, and))),
        ].join(', ');
  if (polesNeeded === undefined) return clash;
  return polesNeeded === 1
    ? t('{0}; all positions take one pole of one throw each', clash)
    : t('{0}; all positions take {1} poles of one throw each', clash, String(polesNeeded));
}

/** A switch of the shelf that does what the own one cannot. */
export const otherWords = (
  {
    part,
    slot,
    wires,
  }: { readonly part: { readonly name: string }; readonly slot: string | undefined; readonly wires: number },
  t = ENGLISH,
): string =>
  slot === undefined
    ? t('from the shelf {0} does it with {1} wires', part.name, String(wires))
    : t('in the place of {0}, {1} from the shelf does it with {2} wires', slot, part.name, String(wires));

export const takenWords = ({ name }: { readonly name: string }, t = ENGLISH): string =>
  t('on {0}, the smallest of the shelf that does it', name);

export const SEARCH_ENDED = 'the search was ended before it found a wiring or proved that there is none' satisfies Text;
