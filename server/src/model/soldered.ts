/** What the lines of a wiring make one, by terminal: each net with the places that name its terminals. */
import { JoinedNodes } from './joined-nodes.ts';
import { GROUND_TERMINAL, HOT_TERMINAL, type Wiring, type WiringLine } from './wiring.ts';

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
