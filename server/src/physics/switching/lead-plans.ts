/**
 * How leads may be soldered to each other before any lug is: every way in which no state joins what it shall keep apart, each with the
 * fewest wires that it can come to.
 */
import { bitsOf, NodeSets, netsIn } from './node-sets.ts';
import { type Need, NOTHING, type PlannedState, StateSoFar } from './state-so-far.ts';
import { TerminalSets } from './terminal-sets.ts';
import { BUSES, type Budget, GROUND_LEAD, HOT_LEAD, type WiringProblem } from './wiring-problem.ts';

export interface LeadPlan {
  /** Of each lead. */
  readonly classOf: readonly number[];
  readonly classes: number;
  /** Classes that can be soldered to, and nets of lugs alone. */
  readonly open: number;
  /** No wiring with it has fewer wires. */
  readonly least: number;
}

export interface LugsOfStates {
  /** What each state closes, its lugs parted into those that other states close too and its own. */
  readonly groups: readonly (readonly { readonly shared: readonly number[]; readonly own: readonly number[] }[])[];
  /** Lugs that several states close, those of most states first. */
  readonly shared: readonly number[];
  /** For each of them the states that close it, and in which group. */
  readonly places: readonly (readonly { readonly state: number; readonly group: number }[])[];
  readonly poleOf: readonly number[];
  /** How many states each of them serves that are left from the n-th on, the most first. */
  readonly serves: readonly (readonly number[])[];
}

export function lugsOfStates({ lugs, states }: WiringProblem): LugsOfStates {
  const places = Array.from({ length: lugs }, (_, lug) =>
    states.flatMap(({ closed }, state) => {
      const group = closed.findIndex((each) => each.includes(lug));
      return group < 0 ? [] : [{ state, group }];
    }),
  );
  const count = (lug: number) => places[lug]?.length ?? 0;
  const isShared = (lug: number) => count(lug) > 1;
  const poleOf = polesOf({ lugs, states });
  const shared = [...places.keys()]
    .filter(isShared)
    .sort((a, b) => poleOf(a) - poleOf(b) || count(b) - count(a) || a - b);
  return {
    groups: states.map(({ closed }) =>
      closed.map((group) => ({ shared: group.filter(isShared), own: group.filter((lug) => !isShared(lug)) })),
    ),
    shared,
    places: shared.map((lug) => places[lug] ?? []),
    poleOf: shared.map(poleOf),
    serves: [...shared, NOTHING].map((_, from) =>
      shared
        .slice(from)
        .map(count)
        .sort((a, b) => b - a),
    ),
  };
}

/** Lugs that contacts ever make one are of one pole: its first lug. */
function polesOf({ lugs, states }: Pick<WiringProblem, 'lugs' | 'states'>): (lug: number) => number {
  const sets = new TerminalSets(lugs);
  for (const { closed } of states) for (const group of closed) sets.joinAll(group);
  return (lug) => sets.rootOf(lug);
}

/**
 * Never joined are leads of what sounds in no state: taken off, they are missed nowhere. `areOneJoined`: leads that belong to one net in
 * every state are joined. `undefined` between them: others may come in.
 */
export function* leadPlans(
  problem: WiringProblem,
  lugs: LugsOfStates,
  { budget, areOneJoined }: { readonly budget: Budget; readonly areOneJoined: boolean },
): Generator<LeadPlan | undefined> {
  const { leads, states, sealed } = problem;
  const nets = states.map((state) => state.nets.map(bitsOf));
  const classOf: number[] = [];
  const isSealed = new Set(sealed);
  const isSilent = new Set(silentLeads(problem));
  const partner = areOneJoined ? partners(problem) : [];
  function* grow(lead: number, classes: number, zones: readonly NodeSets[]): Generator<LeadPlan | undefined> {
    if (budget.isSpent) return;
    if (budget.take()) yield undefined;
    if (lead === leads) {
      const plan = planOf(problem, lugs, [...classOf]);
      if (plan) yield plan;
      return;
    }
    const own = partner[lead];
    for (let each = 0; each < classes && !isSealed.has(lead) && !isSilent.has(lead); each++) {
      const first = classOf.indexOf(each);
      if (isSilent.has(first) || (own !== undefined && classOf[own] !== each)) continue;
      const joined = isSealed.has(first) ? undefined : joinedApart(zones, nets, [first, lead]);
      classOf[lead] = each;
      if (joined) yield* grow(lead + 1, classes, joined);
    }
    classOf[lead] = classes;
    if (own === undefined) yield* grow(lead + 1, classes + 1, zones);
    classOf.length = lead;
  }
  const zones = states.map((state, index) => {
    const sets = new NodeSets(leads);
    for (const net of nets[index] ?? []) sets.joinAll(net);
    for (const { ends } of state.dead) sets.join(ends[0], ends[1]);
    return sets;
  });
  if (joinedApart(zones, nets, [0, 0])) yield* grow(0, 0, zones);
}

/** Leads of what sounds in no state, and hangs together with nothing that does. */
function silentLeads({ leads, states }: WiringProblem): readonly number[] {
  const sets = new TerminalSets(leads);
  const wanted = new Set([HOT_LEAD, GROUND_LEAD, ...states.flatMap(({ nets }) => nets.flat())]);
  for (const { dead } of states) for (const { ends } of dead) sets.join(ends[0], ends[1]);
  const heard = new Set([...wanted].map((lead) => sets.rootOf(lead)));
  return Array.from({ length: leads }, (_, lead) => lead).filter((lead) => !heard.has(sets.rootOf(lead)));
}

/** For each lead one before it that belongs to the same net in every state. */
function partners({ leads, states, sealed }: WiringProblem): readonly (number | undefined)[] {
  const keys = Array.from({ length: leads }, (_, lead) => {
    const nets = states.map((state) => state.nets.findIndex((net) => net.includes(lead)));
    return nets.includes(-1) || sealed.includes(lead) ? `alone ${lead}` : nets.join(' ');
  });
  return keys.map((key, lead) => (keys.indexOf(key) < lead ? keys.indexOf(key) : undefined));
}

/** Zones of all states with two leads joined; `undefined` where two nets that are wanted come to be one. */
function joinedApart(
  zones: readonly NodeSets[],
  nets: readonly (readonly number[])[],
  [a, b]: readonly [number, number],
): readonly NodeSets[] | undefined {
  for (const [state, zone] of zones.entries())
    if (netsIn(nets[state] ?? [], zone.of(a) | zone.of(b)) > 1) return undefined;
  return zones.map((zone) => {
    if (zone.of(a) === zone.of(b)) return zone;
    const sets = new NodeSets(zone);
    sets.join(a, b);
    return sets;
  });
}

/** The wanted states before any lug is soldered; `undefined` where one has too few lugs for it. */
export function statesOf(
  { states: wanted, isQuiet }: WiringProblem,
  { groups }: LugsOfStates,
  { classOf, classes }: Pick<LeadPlan, 'classOf' | 'classes'>,
): readonly StateSoFar[] | undefined {
  const at = (lead: number) => classOf[lead] ?? 0;
  const states: StateSoFar[] = [];
  for (const [index, { nets, dead }] of wanted.entries()) {
    const planned: PlannedState = {
      nets: nets.map((net) => bitsOf(net.map(at))),
      dead: dead.map(({ ends: [a, b], isCoil }) => ({ ends: [at(a), at(b)], isCoil })),
      isQuiet,
    };
    const open = (groups[index] ?? []).map((each) => ({
      shared: each.shared.length,
      own: each.own.length,
      at: NOTHING,
    }));
    const state = StateSoFar.start(planned, open, classes + BUSES);
    if (!state) return undefined;
    states.push(state);
  }
  return states;
}

function planOf(problem: WiringProblem, lugs: LugsOfStates, classOf: readonly number[]): LeadPlan | undefined {
  const classes = Math.max(...classOf) + 1;
  const states = statesOf(problem, lugs, { classOf, classes });
  if (!states) return undefined;
  const at = (lead: number) => classOf[lead] ?? 0;
  let touched = 0;
  for (const { nets } of problem.states)
    for (const net of nets) {
      const bits = bitsOf(net.map(at));
      if (bits & (bits - 1)) touched |= bits;
    }
  const least = Math.max(countOf(touched), lugsFor(states, lugs.serves[0] ?? []));
  const open = ~bitsOf(problem.sealed.map(at));
  return { classOf, classes, open, least: classOf.length - classes + least };
}

function countOf(bits: number): number {
  let count = 0;
  for (let left = bits; left !== 0; left &= left - 1) count++;
  return count;
}

/**
 * How many lugs serve the needs of all states at least, whatever number of them is shared: each state takes the rest from its own.
 * `serves`: how many states each of the shared lugs that are left serves, the most first.
 */
export function lugsFor(states: readonly { readonly need: Need }[], serves: readonly number[]): number {
  let least = Number.POSITIVE_INFINITY;
  let all = 0;
  for (const { need } of states) all += need.lugs;
  for (let shared = 0; shared <= serves.length; shared++) {
    let own = 0;
    for (const { need } of states) own += Math.max(need.own, need.lugs - Math.min(shared, need.shared));
    least = Math.min(least, shared + Math.max(own, all));
    all -= serves[shared] ?? 0;
  }
  return least;
}
