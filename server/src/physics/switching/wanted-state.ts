/** What shall sound as nets of leads, as the search for a wiring asks for it. */
import type { Folded } from './folded.ts';
import type { RigElement } from './rig.ts';
import { GROUND_LEAD, HOT_LEAD, type WantedState } from './wiring-problem.ts';

/** The nets of what shall sound, from hot to ground, and what shall not; `undefined`: nothing shall sound. `leadOf`: an element's end. */
export function wantedNets(
  network: Folded | undefined,
  elements: readonly RigElement[],
  leadOf: (end: string) => number,
): Pick<WantedState, 'nets' | 'dead'> {
  const nets: number[][] = [[HOT_LEAD], [GROUND_LEAD]];
  const sounding = new Set<string>();
  const place = (folded: Folded, from: number, to: number): void => {
    if (folded.kind === 'parallel') {
      for (const each of folded.of) place(each, from, to);
      return;
    }
    if (folded.kind === 'series') {
      let at = from;
      folded.of.forEach((each, index) => {
        const next = index === folded.of.length - 1 ? to : nets.push([]) - 1;
        place(each, at, next);
        at = next;
      });
      return;
    }
    const element = elements.find(({ name }) => name === folded.name);
    if (!element) return;
    sounding.add(element.name);
    const [high, low] = element.ends;
    nets[from]?.push(leadOf(folded.turned ? low : high));
    nets[to]?.push(leadOf(folded.turned ? high : low));
  };
  if (network) place(network, 0, 1);
  const dead = elements
    .filter(({ name }) => !sounding.has(name))
    .map(({ ends: [a, b], isCoil }) => ({ ends: [leadOf(a), leadOf(b)] as const, isCoil }));
  return { nets: nets.map((net) => [...new Set(net)]), dead };
}
