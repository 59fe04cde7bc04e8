/** What the lines of a wiring make one, by terminal: each net with the places that name its terminals. */

import type { Control, Instrument } from './instrument.ts';
import { JoinedNodes } from './joined-nodes.ts';
import { GROUND_TERMINAL, HOT_TERMINAL, JACK_TERMINAL, type Wiring, type WiringLine } from './wiring.ts';

/** The terminals of a line, the one that its word says included. */
export const terminalsOfLine = ({ kind, terminals }: WiringLine): readonly string[] => [
  ...(kind === 'hot' ? [HOT_TERMINAL] : kind === 'ground' ? [GROUND_TERMINAL] : []),
  ...terminals.map(({ name }) => name),
];

/** Nets of two terminals and more; lines that share a terminal are one. */
export function solderedNets({ lines }: Wiring): readonly (readonly string[])[] {
  const joined = new JoinedNodes();
  for (const line of lines) {
    if (line.kind === 'free') continue;
    const [first, ...rest] = terminalsOfLine(line);
    if (first === undefined) continue;
    joined.add(first);
    for (const terminal of rest) joined.unite(first, terminal);
  }
  return joined.number().members.filter((net) => net.length > 1);
}

/** Every terminal that a line or a part of the wiring names. */
export const namedTerminals = ({ lines, parts }: Wiring): ReadonlySet<string> =>
  new Set(
    [...lines.flatMap(({ terminals }) => terminals), ...parts.flatMap(({ ends }) => ends)].map(({ name }) => name),
  );

/** True where the wiring says where lugs of a control lie: it then stands there, and nowhere else. */
export const isPlaced = ({ name }: Control, wiring: Wiring | undefined): boolean =>
  name !== undefined &&
  wiring !== undefined &&
  [...namedTerminals(wiring)].some((terminal) => terminal.startsWith(`${name}.`));

/** True where the wiring goes on to the jack by itself: no volume is left to lie between hot and the jack. */
export const leavesByWire = ({ wiring, controls }: Pick<Instrument, 'wiring' | 'controls'>): boolean =>
  wiring !== undefined &&
  namedTerminals(wiring).has(JACK_TERMINAL) &&
  !controls.some((each) => each.kind === 'volume' && each.forSlot === undefined && !isPlaced(each, wiring));
