/** Wirings that do what they should, with one end moved or two exchanged by chance, and whether the search for the fault leads back. */
import { type Change, changed, rightingChanges, type Wanted, wrongAmong } from '../../../server/src/physics/switching/changes.ts';
import { meaningIn, numberedRig } from '../../../server/src/physics/switching/meaning.ts';
import { type Nets, type Rig, statesOf } from '../../../server/src/physics/switching/rig.ts';
import { uniform } from '../../support/chance.ts';
import { type AnalysisCase, analysisCases, movableIn, rigOf } from './switching-cases.ts';

export interface SoughtFault {
  readonly id: string;
  readonly fault: string;
  readonly terminals: number;
  /** Of processor time. */
  readonly milliseconds: number;
  /** Some change that is told undoes the fault: afterwards the same is soldered together as before it, or what is told moves its ends. */
  readonly isFound: boolean;
}

/** So many faults that some position notices. */
export function soughtFaults(count: number, seed: number): readonly SoughtFault[] {
  const next = uniform(seed);
  const right = analysisCases.filter(({ given }) => given.injectedFault === undefined && given.links.length > 0);
  const sought: SoughtFault[] = [];
  while (sought.length < count) {
    const each = right[Math.floor(next() * right.length)];
    const found = each && oneFault(each, next);
    if (found) sought.push(found);
  }
  return sought;
}

function oneFault(each: AnalysisCase, next: () => number): SoughtFault | undefined {
  const rig = rigOf(each);
  const numbered = numberedRig(rig);
  const wanted = statesOf(rig).map((state): Wanted => ({ state, texts: new Set([meaningIn(numbered, state).text]) }));
  const soldered = rig.links.flat();
  const pick = <T>(of: readonly T[]): T | undefined => of[Math.floor(next() * of.length)];
  const [a, b] = [pick(soldered), pick(soldered)];
  if (a === undefined || b === undefined || a === b) return undefined;
  const net = rig.links.find((links) => links.includes(b)) ?? [];
  const kinds: readonly Change[] = [
    { kind: 'swap', terminals: [a, b] },
    { kind: 'move', terminal: a, to: net },
    { kind: 'move', terminal: a, to: 'nothing' },
  ];
  const fault = pick(kinds);
  if (!fault || (fault.kind === 'move' && net.includes(a) && fault.to !== 'nothing')) return undefined;
  const links = changed(rig.links, fault);
  const faulty: Rig = { ...rig, links };
  if (wrongAmong(numberedRig(faulty), wanted).length === 0) return undefined;
  const before = process.cpuUsage();
  const changes = rightingChanges(faulty, wanted, movableIn(faulty));
  const { user, system } = process.cpuUsage(before);
  const ends = fault.kind === 'swap' ? fault.terminals : [fault.terminal];
  return {
    id: each.id,
    fault: JSON.stringify(fault),
    terminals: numbered.terminals.length,
    milliseconds: (user + system) / 1000,
    isFound: changes.some((change) => sameNets(changed(links, change), rig.links) || endsOf(change).some((end) => ends.includes(end))),
  };
}

const endsOf = (change: Change): readonly string[] => (change.kind === 'swap' ? change.terminals : [change.terminal]);

const sameNets = (some: Nets, others: Nets): boolean => textOf(some) === textOf(others);
const textOf = (nets: Nets): string =>
  nets
    .flatMap((net) => (net.length > 1 ? [[...net].sort().join(' ')] : []))
    .sort()
    .join(', ');
