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
import { BUSES, type LeadPlan, type LugsOfStates, leadPlans, lugsFor, lugsOfStates } from './lead-plans.ts';
import { MOST_NODES } from './node-sets.ts';
import { type DeadElement, NOTHING, type StateSoFar } from './state-so-far.ts';

export const HOT_LEAD = 0;
export const GROUND_LEAD = 1;
export const MOST_LEADS = MOST_NODES - BUSES;

export interface WantedState {
  /** Groups of lugs that the contacts close. */
  readonly closed: readonly (readonly number[])[];
  /** What sounds: hot's net, ground's, then inner ones; leads. */
  readonly nets: readonly (readonly number[])[];
  /** By leads. */
  readonly dead: readonly DeadElement[];
}

export interface WiringProblem {
  /** How many leads there are, `MOST_LEADS` at most; `HOT_LEAD` and `GROUND_LEAD` are the first of them. */
  readonly leads: number;
  readonly lugs: number;
  readonly states: readonly WantedState[];
  /** Leads that nobody can solder to: joints inside a pickup that are not brought out. */
  readonly sealed: readonly number[];
  /** Whether the third rule counts. */
  readonly isQuiet: boolean;
  /** Commons of poles that are built alike, so that exchanging them changes nothing. */
  readonly alike: readonly (readonly number[])[];
}

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

/** Asked now and then: no more time. */
export type IsOver = () => boolean;

export function leastWiring(problem: WiringProblem, isOver: IsOver): SearchResult {
  const search = new LugSearch(problem, isOver);
  const plans = [...leadPlans(problem, search.lugs, search.isOver)].sort((a, b) => a.least - b.least);
  const lookAt = (most: number, below: number) => {
    for (const plan of plans) {
      if (plan.least >= Math.min(below, search.best) || search.hasEnded) break;
      search.look(plan, most, below);
    }
  };
  // Some answer first, for whoever has no more time; then the fewest wires that there may be, one more, and so on.
  lookAt(FIRST_LOOK, Number.POSITIVE_INFINITY);
  const [lowest] = plans;
  for (let more = 1; lowest && lowest.least + more <= search.best && !search.hasEnded; more = more < MANY ? more + 1 : Number.POSITIVE_INFINITY) {
    lookAt(Number.POSITIVE_INFINITY, lowest.least + more);
    if (more === Number.POSITIVE_INFINITY) break;
  }
  return { wiring: search.wiring(), isProven: !search.hasEnded };
}

/** Whether there is any wiring at all; `undefined` where the search was ended before it knew. */
export function isWireable(problem: WiringProblem, isOver: IsOver): boolean | undefined {
  const { wiring, isProven } = leastWiring(problem, isOver);
  return wiring ? true : isProven ? false : undefined;
}

const FIRST_LOOK = 60;
/** So many wires more than the least that there may be are looked for one by one. */
const MANY = 6;

interface OwnLugs {
  readonly cost: number;
  readonly placed: readonly (readonly [lug: number, node: number])[];
}

class LugSearch {
  readonly lugs: LugsOfStates;
  best = Number.POSITIVE_INFINITY;
  hasEnded = false;
  readonly #problem: WiringProblem;
  readonly #isOver: IsOver;
  /** For each shared lug, the one before it that is built alike. */
  readonly #before: readonly (number | undefined)[];
  #asked = 0;
  #found: { readonly plan: LeadPlan; readonly lugAt: readonly number[] } | undefined;

  // Of the plan that is looked at.
  #nodes = 0;
  #most = 0;
  #below = 0;
  #at: number[] = [];
  #known: Map<string, { readonly own: OwnLugs | undefined; readonly below: number }>[] = [];

  constructor(problem: WiringProblem, isOver: IsOver) {
    this.#problem = problem;
    this.#isOver = isOver;
    this.lugs = lugsOfStates(problem);
    this.#before = this.lugs.shared.map((lug) => {
      const poles = problem.alike.find((commons) => commons.includes(lug));
      return poles?.[poles.indexOf(lug) - 1];
    });
  }

  readonly isOver = (): boolean => {
    if (!this.hasEnded && (++this.#asked & 63) === 0 && this.#isOver()) this.hasEnded = true;
    return this.hasEnded;
  };

  /** Looks for what this plan of the leads makes of it with fewer wires than so many, at so many places at most. */
  look(plan: LeadPlan, most: number, below: number): void {
    this.#below = Math.min(this.best, below);
    this.#most = most;
    this.#nodes = 0;
    this.#at = Array.from({ length: this.#problem.lugs }, () => NOTHING);
    this.#known = plan.states.map(() => new Map());
    this.#place(plan, plan.states, { index: 0, cost: this.#problem.leads - plan.classes, buses: 0 });
  }

  #place(
    plan: LeadPlan,
    states: readonly StateSoFar[],
    { index, cost, buses }: { readonly index: number; readonly cost: number; readonly buses: number },
  ): void {
    if (this.isOver() || ++this.#nodes > this.#most) return;
    const lug = this.lugs.shared[index];
    if (lug === undefined) {
      this.#finish(plan, states, cost);
      return;
    }
    const before = this.#before[index];
    const from = before === undefined ? NOTHING : (this.#at[before] ?? NOTHING);
    const newBus = plan.classes + buses;
    const ways = [];
    for (let node = from; node <= newBus && buses + node - newBus < BUSES; node++) {
      if (node !== NOTHING && !(plan.open & (1 << node))) continue;
      const grown = this.#withLug(states, index, node);
      if (!grown) continue;
      const soldered = cost + Number(node !== NOTHING && node !== newBus);
      const least = soldered + lugsFor(grown, this.lugs.serves[index + 1] ?? []);
      ways.push({ node, grown, soldered, least });
    }
    ways.sort((a, b) => a.least - b.least || Number(a.node === NOTHING) - Number(b.node === NOTHING));
    for (const { node, grown, soldered, least } of ways) {
      if (least >= this.#below) break;
      this.#at[lug] = node;
      if (this.#isNeedless(index)) continue;
      this.#place(plan, grown, { index: index + 1, cost: soldered, buses: buses + Number(node === newBus) });
    }
    this.#at[lug] = NOTHING;
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
        if (own === undefined || own.own.length > 0) {
          hasOwn = true;
          return true;
        }
        return own.shared.some((other) => {
          const at = this.#at[other];
          return at !== node && (at !== NOTHING || shared.indexOf(other) > last);
        });
      });
      if (!isUsed) return true;
    }
    const [second = 0, first = 0] = soldered;
    return !hasOwn && soldered.length === 2 && poleOf[last + 1] !== poleOf[last] && first > second;
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

  /** All that several states close is placed: each state by itself now, and none may take more than the others leave of the best so far. */
  #finish(plan: LeadPlan, states: readonly StateSoFar[], cost: number): void {
    let others = 0;
    for (const { need } of states) others += need.lugs;
    let sum = cost;
    const chosen: OwnLugs[] = [];
    for (const [index, state] of states.entries()) {
      others -= state.need.lugs;
      const own = this.#ownLugs(plan, index, { state, limit: this.#below - sum - others });
      if (own === undefined) return;
      sum += own.cost;
      chosen.push(own);
    }
    if (sum >= this.#below) return;
    const lugAt = [...this.#at];
    for (const { placed } of chosen) for (const [lug, node] of placed) lugAt[lug] = node;
    this.best = sum;
    this.#below = sum;
    this.#found = { plan, lugAt };
  }

  /** The fewest, below a limit. */
  #ownLugs(
    plan: LeadPlan,
    index: number,
    { state, limit }: { readonly state: StateSoFar; readonly limit: number },
  ): OwnLugs | undefined {
    const groups = this.lugs.groups[index] ?? [];
    const key = groups.map(({ shared }) => shared.map((lug) => this.#at[lug]).join(' ')).join(',');
    const known = this.#known[index]?.get(key);
    if (known && (known.own || known.below >= limit))
      return known.own && known.own.cost < limit ? known.own : undefined;
    const lugs = groups.flatMap(({ own }, group) => own.map((lug) => ({ lug, group })));
    const own = fewestOwn(state, plan, { lugs, limit });
    this.#known[index]?.set(key, { own, below: limit });
    return own;
  }

  wiring(): LeastWiring | undefined {
    if (this.#found === undefined) return undefined;
    const { plan, lugAt } = this.#found;
    const nets = Array.from(
      { length: plan.classes + BUSES },
      (_, node): PlannedNet => ({
        leads: plan.classOf.flatMap((each, lead) => (each === node ? [lead] : [])),
        lugs: lugAt.flatMap((each, lug) => (each === node ? [lug] : [])),
      }),
    ).filter(({ leads, lugs }) => leads.length + lugs.length > 1);
    const wires = nets.reduce((sum, { leads, lugs }) => sum + leads.length + lugs.length - 1, 0);
    return { nets, wires };
  }
}

/** A state's own lugs: which of them are soldered to what, so that there are the fewest. */
function fewestOwn(
  start: StateSoFar,
  { open, classes }: LeadPlan,
  {
    lugs,
    limit,
  }: { readonly lugs: readonly { readonly lug: number; readonly group: number }[]; readonly limit: number },
): OwnLugs | undefined {
  let best: OwnLugs | undefined;
  const nodes = start.helpful & open;
  const placed: [number, number][] = [];
  const go = (index: number, state: StateSoFar): void => {
    if (placed.length + state.need.lugs >= (best?.cost ?? limit)) return;
    if (state.isDone) {
      best = { cost: placed.length, placed: [...placed] };
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
  return best;
}
