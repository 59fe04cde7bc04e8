/**
 * The wiring with the fewest wires that makes every state of some switches do what is wanted of it, or the proof that there is none.
 * Terminals are leads (hot and ground among them) and lugs, by number. Unknown is which of them are soldered together: a net of n
 * terminals takes n - 1 wires. In each wanted state, with the contacts closed,
 * 1. the leads of each wanted net are one;
 * 2. no two wanted nets are one, even if everything that shall be dead were a wire: so nothing of it sounds;
 * 3. unless it is left out, a dead coil that hangs on hot or on an inner net has both its ends there: no antenna.
 *
 * The search is exact but for one bound: at most three nets hold lugs alone. First how the leads are joined, by a lower bound of what
 * follows; then the lugs that several states close; then, state by state, those that one state closes, since states are independent now.
 */
import { type LeadPlan, type LugsOfStates, leadPlans, lugsFor, lugsOfStates, statesOf } from './lead-plans.ts';
import { NOTHING, type StateSoFar } from './state-so-far.ts';
import type { Steps } from './steps.ts';
import { BUSES, type Budget, type WiringProblem } from './wiring-problem.ts';

/** What is soldered together. */
export interface PlannedNet {
  readonly leads: readonly number[];
  readonly lugs: readonly number[];
}

export interface LeastWiring {
  readonly nets: readonly PlannedNet[];
  readonly wires: number;
}

export interface SearchResult {
  readonly wiring: LeastWiring | undefined;
  /** The search came to its end: there is none with fewer wires, or none at all. */
  readonly isProven: boolean;
}

/** What is bad about a wiring beside its wires, the worst first; of all with the fewest wires the one that has the least of it is taken. */
export type Untidiness = (nets: readonly PlannedNet[]) => readonly number[];

export function* leastWiring(problem: WiringProblem, budget: Budget, untidiness?: Untidiness): Steps<SearchResult> {
  const search = new LugSearch(problem, budget);
  let plans: LeadPlan[] = [];
  let isAll = true;
  for (const areOneJoined of mayJoinOnes(search.lugs) ? [true] : [true, false]) {
    plans = [];
    for (const plan of leadPlans(problem, search.lugs, { budget, areOneJoined })) {
      if (plan) plans.push(plan);
      else yield;
      isAll = plans.length < MOST_PLANS;
      if (!isAll) break;
    }
    plans.sort((a, b) => a.least - b.least);
    yield* search.lookAtAll(plans);
  }
  const isProven = isAll && !budget.isSpent;
  if (isProven && untidiness) yield* search.lookForTidier(plans, untidiness);
  return { wiring: search.wiring(), isProven };
}

/** Whether there is any wiring at all; `undefined` where the search was ended before it knew. */
export function* isWireable(problem: WiringProblem, budget: Budget): Steps<boolean | undefined> {
  const search = new LugSearch(problem, budget);
  const hard: LeadPlan[] = [];
  for (const plan of leadPlans(problem, search.lugs, { budget, areOneJoined: mayJoinOnes(search.lugs) })) {
    if (plan === undefined) yield;
    else if ((yield* search.look(plan, { most: FIRST_LOOK })) && hard.push(plan) >= MOST_PLANS) return undefined;
    if (search.best < Number.POSITIVE_INFINITY) return true;
  }
  for (const plan of hard) {
    yield* search.look(plan, {});
    if (search.best < Number.POSITIVE_INFINITY) return true;
  }
  return budget.isSpent ? undefined : false;
}

/**
 * Whether leads that belong to one net in every state may be taken as joined. Where two lugs that are closed onto each other are never both
 * shared, it takes no more wires: joined, they make a ring in each state, and some lug of the ring, which serves that state alone, comes off.
 */
const mayJoinOnes = ({ groups }: LugsOfStates): boolean => groups.flat().every(({ shared }) => shared.length < 2);

/** More would take too much memory. */
const MOST_PLANS = 30_000;
const FIRST_LOOK = 60;
/** So many wires more than there may be at least are looked for one by one. */
const MANY = 7;

/** So many places are looked at in some hundredths of a second. */
const SHORT = 5000;

/** A state's own lugs: what they are soldered to, and what comes of it. */
interface OwnLugs {
  readonly state: StateSoFar;
  readonly placed: readonly (readonly [lug: number, node: number])[];
}

class LugSearch {
  readonly lugs: LugsOfStates;
  best = Number.POSITIVE_INFINITY;
  readonly #problem: WiringProblem;
  readonly #budget: Budget;
  /** For each shared lug, the one before it that is built alike. */
  readonly #before: readonly (number | undefined)[];
  #nets: readonly PlannedNet[] | undefined;
  /** Where tidier ones are looked for: how it is measured, and how far the one that was found is from it. */
  #tidying: { readonly untidiness: Untidiness; least: readonly number[] | undefined } | undefined;

  // Of the plan that is looked at.
  #places = 0;
  #most = 0;
  #below = 0;
  #at: number[] = [];
  #known: Map<string, { readonly ways: readonly OwnLugs[]; readonly below: number }>[] = [];

  constructor(problem: WiringProblem, budget: Budget) {
    this.#problem = problem;
    this.#budget = budget;
    this.lugs = lugsOfStates(problem);
    this.#before = this.lugs.shared.map((lug) => {
      const poles = problem.alike.find((commons) => commons.includes(lug));
      return poles?.[poles.indexOf(lug) - 1];
    });
  }

  /** Some answer first, for whoever has no more time; then as few wires as there may be, one more, and so on. */
  *lookAtAll(plans: readonly LeadPlan[]): Steps<void> {
    const fewest = plans[0]?.least ?? Number.POSITIVE_INFINITY;
    yield* this.#lookAt(plans, Number.POSITIVE_INFINITY, FIRST_LOOK);
    for (let more = 1; more < MANY && fewest + more <= this.best; more++) yield* this.#lookAt(plans, fewest + more);
    yield* this.#lookAt(plans, Number.POSITIVE_INFINITY);
  }

  *#lookAt(plans: readonly LeadPlan[], below: number, most = Number.POSITIVE_INFINITY): Steps<void> {
    for (const plan of plans) {
      if (plan.least >= Math.min(below, this.best)) break;
      yield* this.look(plan, { below, most });
    }
  }

  /** Looks for what this plan of the leads makes of it with fewer wires than so many, at so many places at most; whether that ended it. */
  *look(
    plan: LeadPlan,
    {
      below = Number.POSITIVE_INFINITY,
      most = Number.POSITIVE_INFINITY,
    }: { readonly below?: number; readonly most?: number },
  ): Steps<boolean> {
    this.#below = Math.min(this.best, below);
    this.#most = most;
    this.#places = 0;
    this.#at = Array.from({ length: this.#problem.lugs }, () => NOTHING);
    const states = statesOf(this.#problem, this.lugs, plan) ?? [];
    this.#known = states.map(() => new Map());
    yield* this.#place(plan, states, { index: 0, cost: this.#problem.leads - plan.classes, buses: 0 });
    return this.#places > most;
  }

  /** Goes through all that have as few wires as the best, for as long again as it took to find it. */
  *lookForTidier(plans: readonly LeadPlan[], untidiness: Untidiness): Steps<void> {
    const { best } = this;
    this.#tidying = { untidiness, least: undefined };
    this.#budget.limit(this.#budget.spent + SHORT);
    this.best = best + 1;
    for (const plan of plans) if (plan.least <= best) yield* this.look(plan, {});
    this.best = best;
  }

  *#place(
    plan: LeadPlan,
    states: readonly StateSoFar[],
    { index, cost, buses }: { readonly index: number; readonly cost: number; readonly buses: number },
  ): Steps<void> {
    if (this.#budget.isSpent || ++this.#places > this.#most) return;
    if (this.#budget.take()) yield;
    const lug = this.lugs.shared[index];
    if (lug === undefined) {
      yield* this.#finish(plan, states, cost);
      return;
    }
    const newBus = plan.classes + buses;
    const ways = [];
    for (const node of this.#nodesFor(index, plan, newBus)) {
      const grown = this.#withLug(states, index, node);
      if (!grown) continue;
      const soldered = cost + Number(node !== NOTHING && node !== newBus);
      const least = soldered + lugsFor(grown, this.lugs.serves[index + 1] ?? []);
      ways.push({ node, grown, soldered, least });
    }
    ways.sort((a, b) => a.least - b.least);
    for (const { node, grown, soldered, least } of ways) {
      if (least >= this.#below) break;
      this.#at[lug] = node;
      if (this.#isNeedless(index)) continue;
      yield* this.#place(plan, grown, { index: index + 1, cost: soldered, buses: buses + Number(node === newBus) });
    }
    this.#at[lug] = NOTHING;
  }

  /** Nothing comes last; poles that are built alike are in the order of their nodes. */
  #nodesFor(index: number, { open, classes }: LeadPlan, newBus: number): readonly number[] {
    const before = this.#before[index];
    const from = before === undefined ? 0 : (this.#at[before] ?? 0);
    if (from === NOTHING) return [NOTHING];
    const nodes = [];
    for (let node = from; node <= newBus && node < classes + BUSES; node++) if (open & (1 << node)) nodes.push(node);
    return [...nodes, NOTHING];
  }

  #withLug(states: readonly StateSoFar[], index: number, node: number): readonly StateSoFar[] | undefined {
    const grown = states.slice();
    for (const { state, group } of this.lugs.places[index] ?? []) {
      const next = states[state]?.with(group, 'shared', node);
      if (!next) return undefined;
      grown[state] = next;
    }
    return grown;
  }

  /**
   * There is a wiring no worse without what the pole has up to here: a lug of it joins nothing in any state, whatever follows; or, of two
   * that are all that it has, the other way round is looked at too.
   */
  #isNeedless(last: number): boolean {
    const { shared, places, groups, poleOf } = this.lugs;
    const soldered: number[] = [];
    let hasOwn = false;
    for (let index = last; index >= 0 && poleOf[index] === poleOf[last]; index--) {
      const node = this.#at[shared[index] ?? 0] ?? NOTHING;
      if (node === NOTHING) continue;
      soldered.push(node);
      const isUsed = (places[index] ?? []).some(({ state, group }) => {
        const own = groups[state]?.[group];
        hasOwn ||= own === undefined || own.own.length > 0;
        const isJoined = own?.shared.some((other) => {
          const at = this.#at[other];
          return at !== node && (at !== NOTHING || shared.indexOf(other) > last);
        });
        return hasOwn || isJoined;
      });
      if (!isUsed) return true;
    }
    const [second = 0, first = 0] = soldered;
    const isWhole = !hasOwn && poleOf[last + 1] !== poleOf[last];
    return isWhole && soldered.length === 2 && first > second && !this.#tidying;
  }

  /** All that several states close is placed: each state by itself now, and none may take more than the others leave of the best so far. */
  *#finish(plan: LeadPlan, states: readonly StateSoFar[], cost: number): Steps<void> {
    let others = 0;
    for (const { need } of states) others += need.lugs;
    let sum = cost;
    const waysOf: (readonly OwnLugs[])[] = [];
    for (const [index, state] of states.entries()) {
      others -= state.need.lugs;
      const ways = this.#ownLugs(plan, index, { state, limit: this.#below - sum - others });
      const [first] = ways;
      if (first === undefined) return;
      sum += first.placed.length;
      waysOf.push(ways);
    }
    if (this.#tidying) {
      yield* this.#choose(plan, waysOf);
      return;
    }
    this.best = sum;
    this.#below = sum;
    this.#nets = this.#netsOf(
      plan,
      waysOf.flatMap(([first]) => first ?? []),
    );
  }

  /** The tidiest of all ways in which the states may take their own lugs. */
  *#choose(plan: LeadPlan, waysOf: readonly (readonly OwnLugs[])[], chosen: readonly OwnLugs[] = []): Steps<void> {
    const [ways, ...rest] = waysOf;
    if (ways) {
      for (const way of ways) yield* this.#choose(plan, rest, [...chosen, way]);
      return;
    }
    if (!this.#tidying || this.#budget.isSpent) return;
    if (this.#budget.take()) yield;
    const nets = this.#netsOf(plan, chosen);
    const floating = chosen.reduce((sum, { state }) => sum + state.floating, 0);
    const found = [floating, ...this.#tidying.untidiness(nets)];
    if (this.#tidying.least && !isLess(found, this.#tidying.least)) return;
    this.#tidying.least = found;
    this.#nets = nets;
  }

  /** The fewest, below a limit: one way, or all where tidier ones are looked for. */
  #ownLugs(
    plan: LeadPlan,
    index: number,
    { state, limit }: { readonly state: StateSoFar; readonly limit: number },
  ): readonly OwnLugs[] {
    const groups = this.lugs.groups[index] ?? [];
    const key = groups.map(({ shared }) => shared.map((lug) => this.#at[lug]).join(' ')).join(',');
    const known = this.#known[index]?.get(key);
    if (known && (known.ways.length > 0 || known.below >= limit))
      return known.ways.filter(({ placed }) => placed.length < limit);
    const lugs = groups.flatMap(({ own }, group) => own.map((lug) => ({ lug, group })));
    const ways = fewestOwn(state, plan, { lugs, limit, isAll: this.#tidying !== undefined });
    this.#known[index]?.set(key, { ways, below: limit });
    return ways;
  }

  #netsOf({ classes, classOf }: LeadPlan, chosen: readonly OwnLugs[]): readonly PlannedNet[] {
    const lugAt = [...this.#at];
    for (const { placed } of chosen) for (const [lug, node] of placed) lugAt[lug] = node;
    return Array.from(
      { length: classes + BUSES },
      (_, node): PlannedNet => ({
        leads: classOf.flatMap((each, lead) => (each === node ? [lead] : [])),
        lugs: lugAt.flatMap((each, lug) => (each === node ? [lug] : [])),
      }),
    ).filter(({ leads, lugs }) => leads.length + lugs.length > 1);
  }

  wiring(): LeastWiring | undefined {
    const nets = this.#nets;
    return nets && { nets, wires: nets.reduce((sum, { leads, lugs }) => sum + leads.length + lugs.length - 1, 0) };
  }
}

function isLess(some: readonly number[], others: readonly number[]): boolean {
  const at = some.findIndex((each, index) => each !== others[index]);
  return at >= 0 && (some[at] ?? 0) < (others[at] ?? 0);
}

/** How a state's own lugs are soldered so that they are the fewest: the first way that is found, or all. */
function fewestOwn(
  start: StateSoFar,
  { open, classes }: LeadPlan,
  {
    lugs,
    limit,
    isAll,
  }: {
    readonly lugs: readonly { readonly lug: number; readonly group: number }[];
    readonly limit: number;
    readonly isAll: boolean;
  },
): readonly OwnLugs[] {
  let fewest = limit - 1;
  let ways: OwnLugs[] = [];
  const nodes = start.helpful & open;
  const placed: [number, number][] = [];
  const go = (index: number, state: StateSoFar): void => {
    if (placed.length + state.need.lugs > fewest - Number(ways.length > 0 && !isAll)) return;
    if (state.isDone) {
      if (placed.length < fewest) ways = [];
      fewest = placed.length;
      ways.push({ state, placed: [...placed] });
      return;
    }
    const next = lugs[index];
    if (next === undefined) return;
    for (let node = 0; node < classes + BUSES; node++) {
      const grown = nodes & (1 << node) ? state.with(next.group, 'own', node) : undefined;
      if (!grown) continue;
      placed.push([next.lug, node]);
      go(index + 1, grown);
      placed.pop();
    }
    const without = state.with(next.group, 'own', NOTHING);
    if (without) go(index + 1, without);
  };
  go(0, start);
  return ways;
}
