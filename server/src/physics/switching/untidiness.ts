/** What makes one of two wirings with as many wires the worse one to solder and to read. Common practice, no published source. */
import type { PlannedNet, Untidiness } from './least-wiring.ts';
import { GROUND_LEAD, HOT_LEAD } from './wiring-problem.ts';

export interface Layout {
  readonly lugs: readonly LugPlace[];
  /** Of each lead: the pickup that it belongs to; `undefined` for hot, ground and parts. */
  readonly owners: readonly (string | undefined)[];
}

/** Where a lug lies, seen from the soldering side. */
export interface LugPlace {
  readonly switch: number;
  readonly row: number;
  readonly column: number;
  /** Of the switch. */
  readonly pole: number;
  readonly isCommon: boolean;
}

/** Commons on neither hot nor ground; length of jumpers; pickups by the poles that they are on; leads that share a lug. */
export const untidinessIn =
  ({ lugs, owners }: Layout): Untidiness =>
  (nets) => {
    let commons = 0;
    let jumpers = 0;
    let crowded = 0;
    const poles = new Set<string>();
    for (const net of nets) {
      const places = net.lugs.flatMap((lug) => lugs[lug] ?? []);
      jumpers += lengthThrough(places);
      if (isOutlet(net)) continue;
      commons += places.filter(({ isCommon }) => isCommon).length;
      if (places.length > 0) crowded += Math.max(0, net.leads.length - places.length);
      for (const lead of net.leads)
        for (const place of owners[lead] === undefined ? [] : places)
          poles.add(`${place.switch} ${place.pole} ${owners[lead]}`);
    }
    return [commons, jumpers, poles.size, crowded];
  };

const isOutlet = ({ leads }: PlannedNet): boolean => leads.includes(HOT_LEAD) || leads.includes(GROUND_LEAD);

/** The least length of wire from lug to lug, a step to a neighbour being one, by joining the nearest one first. */
function lengthThrough([first, ...rest]: readonly LugPlace[]): number {
  if (first === undefined) return 0;
  const far = rest.map((place) => ({ place, steps: steps(first, place) }));
  let sum = 0;
  while (far.length > 0) {
    const nearest = far.reduce((best, each) => (each.steps < best.steps ? each : best));
    sum += nearest.steps;
    far.splice(far.indexOf(nearest), 1);
    for (const each of far) each.steps = Math.min(each.steps, steps(nearest.place, each.place));
  }
  return sum;
}

/** From switch to switch a wire is longer than any on one. */
const steps = (a: LugPlace, b: LugPlace): number =>
  a.switch === b.switch ? Math.abs(a.row - b.row) + Math.abs(a.column - b.column) : ELSEWHERE;

const ELSEWHERE = 20;
