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

import { TerminalSets } from './terminal-sets.ts';

export const HOT_LEAD = 0;
export const GROUND_LEAD = 1;

export interface WantedState {
  /** Groups of lugs that the contacts close. */
  readonly closed: readonly (readonly number[])[];
  /** What sounds: hot's net, ground's, then inner ones; leads. */
  readonly nets: readonly (readonly number[])[];
  readonly dead: readonly DeadElement[];
}

export interface DeadElement {
  readonly ends: readonly [number, number];
  readonly isCoil: boolean;
}

export interface WiringProblem {
  /** How many leads there are; `HOT_LEAD` and `GROUND_LEAD` are the first of them. */
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
  const plans = [...leadPlans(problem)].sort((a, b) => a.least - b.least);
  const search = new LugSearch(problem, isOver);
  // A good answer first, so that nearly all of the rest is given up early.
  for (const most of [FIRST_LOOK, Number.POSITIVE_INFINITY])
    for (const plan of plans) {
      if (plan.least >= search.best) break;
      search.look(plan, most);
      if (search.hasEnded) break;
    }
  return { wiring: search.wiring(), isProven: !search.hasEnded };
}

/** Whether there is any wiring at all; `undefined` where the search was ended before it knew. */
export function isWireable(problem: WiringProblem, isOver: IsOver): boolean | undefined {
  const search = new LugSearch(problem, isOver);
  const hard: LeadPlan[] = [];
  for (const plan of leadPlans(problem)) {
    if (search.look(plan, FIRST_LOOK)) hard.push(plan);
    if (search.best < Number.POSITIVE_INFINITY) return true;
    if (search.hasEnded) return undefined;
  }
  for (const plan of hard) {
    search.look(plan, Number.POSITIVE_INFINITY);
    if (search.best < Number.POSITIVE_INFINITY) return true;
    if (search.hasEnded) return undefined;
  }
  return false;
}

const FIRST_LOOK = 1500;
/** More than one word of bits holds. */
export const MOST_LEADS = 28;
/** Nets of lugs alone, at most. */
const BUSES = 3;
const NOTHING = -1;

/** How the leads are joined: the class of each. */
interface LeadPlan {
  readonly classOf: readonly number[];
  readonly classes: number;
  /** No wiring with it has fewer wires. */
  readonly least: number;
  readonly states: readonly PlannedState[];
  /** Of each class: whether it can be soldered to. */
  readonly isOpen: readonly boolean[];
}

/** A wanted state with classes in the place of leads. */
interface PlannedState {
  readonly nets: readonly (readonly number[])[];
  readonly dead: readonly DeadElement[];
}

/** Every way in which leads may be joined that the second rule allows before any lug is. */
function* leadPlans(problem: WiringProblem): Generator<LeadPlan> {
  const classOf: number[] = [];
  const isSealed = (lead: number) => problem.sealed.includes(lead);
  function* grow(lead: number, classes: number): Generator<LeadPlan> {
    if (lead === problem.leads) {
      yield planOf(problem, [...classOf], classes);
      return;
    }
    for (let each = isSealed(lead) ? classes : 0; each <= classes; each++) {
      if (each < classes && isSealed(classOf.indexOf(each))) continue;
      classOf[lead] = each;
      const grown = Math.max(classes, each + 1);
      if (isAllowed(problem, classOf, lead + 1, grown)) yield* grow(lead + 1, grown);
    }
    classOf.length = lead;
  }
  yield* grow(0, 0);
}

/** The second rule for the leads so far; one that is not placed yet is by itself, numbered behind the classes. */
function isAllowed(
  { states, leads }: WiringProblem,
  classOf: readonly number[],
  placed: number,
  classes: number,
): boolean {
  const nodeOf = (lead: number) => (lead < placed ? (classOf[lead] ?? 0) : classes + lead - placed);
  return states.every(({ nets, dead }) => {
    const sets = new TerminalSets(classes + leads - placed);
    for (const net of nets) for (const lead of net) sets.join(nodeOf(net[0] ?? 0), nodeOf(lead));
    for (const { ends } of dead) sets.join(nodeOf(ends[0]), nodeOf(ends[1]));
    return areApart(nets, (lead) => sets.rootOf(nodeOf(lead)));
  });
}

/** No two nets are one, by one member of each. */
function areApart(nets: readonly (readonly number[])[], rootOf: (member: number) => number): boolean {
  let seen = 0;
  for (const net of nets) {
    const bit = 1 << rootOf(net[0] ?? 0);
    if (seen & bit) return false;
    seen |= bit;
  }
  return true;
}

function planOf(problem: WiringProblem, classOf: readonly number[], classes: number): LeadPlan {
  const at = (lead: number) => classOf[lead] ?? 0;
  const states = problem.states.map(({ nets, dead }) => ({
    nets: nets.map((net) => [...new Set(net.map(at))]),
    dead: dead.map(({ ends: [a, b], isCoil }) => ({ ends: [at(a), at(b)] as const, isCoil })),
  }));
  const least = classOf.length - classes + leastLugs(problem, states, classes);
  const isOpen = Array.from({ length: classes }, (_, each) => !problem.sealed.includes(classOf.indexOf(each)));
  return { classOf, classes, least, states, isOpen };
}

/**
 * No fewer lugs are soldered: those that classes need, those of the neediest state, and those of all states by how many each serves. A
 * joint takes a lug, each group that joins one more. What a net of lugs alone saves, its first lug, its states have to reach once more.
 */
function leastLugs(
  { states: wanted, lugs, isQuiet: counts }: WiringProblem,
  states: readonly PlannedState[],
  classes: number,
): number {
  const touched = new Set(states.flatMap(({ nets }) => nets.flatMap((net) => (net.length > 1 ? net : []))));
  const serves = Array.from({ length: lugs }, (_, lug) =>
    wanted.reduce((count, { closed }) => count + Number(closed.some((group) => group.includes(lug))), 0),
  ).sort((a, b) => b - a);
  const bare = new TerminalSets(classes);
  const needs = states.map((planned, index) => {
    const joints = missingJoints(planned, bare) + Number(counts && hangsInTheAir(planned, bare));
    const sizes = (wanted[index]?.closed ?? []).map((group) => group.length - 1);
    return joints + groupsFor(joints, sizes);
  });
  return Math.max(touched.size, ...needs, lugsFor(needs, serves, 0));
}

/** How many groups of so many further lugs each are begun for so many joints, the largest first. */
function groupsFor(joints: number, sizes: number[]): number {
  sizes.sort((a, b) => b - a);
  let groups = 0;
  for (let left = joints; left > 0 && groups < sizes.length; groups++) left -= sizes[groups] ?? 0;
  return groups;
}

/** How many lugs serve all needs, if each serves as many states as it can; `serves` from the most on, what is beyond serves one. */
function lugsFor(needs: readonly number[], serves: readonly number[], from: number): number {
  let left = 0;
  for (const need of needs) left += need;
  let count = 0;
  for (let at = from; left > 0 && at < serves.length; at++, count++) left -= serves[at] ?? 1;
  return count + Math.max(0, left);
}

/** What a state closes, its lugs parted into those that other states close too and its own. */
interface Group {
  readonly shared: readonly number[];
  readonly own: readonly number[];
}

class LugSearch {
  readonly #problem: WiringProblem;
  readonly #isOver: IsOver;
  readonly #groups: readonly (readonly Group[])[];
  /** Lugs that several states close, those of most states first. */
  readonly #shared: readonly number[];
  /** For each of them, the states that close it. */
  readonly #statesOf: readonly (readonly number[])[];
  /** For each of them, how many these are. */
  readonly #serves: readonly number[];
  /** For each of them, the one before it that is built alike. */
  readonly #before: readonly (number | undefined)[];
  best = Number.POSITIVE_INFINITY;
  hasEnded = false;
  #found: { readonly plan: LeadPlan; readonly lugAt: readonly number[] } | undefined;

  // Of the plan that is looked at.
  #plan: LeadPlan = { classOf: [], classes: 0, least: 0, states: [], isOpen: [] };
  #at: number[] = [];
  #nodes = 0;
  #asked = 0;
  #most = 0;
  #known: Map<string, { readonly own: OwnLugs | undefined; readonly below: number }>[] = [];
  #decided: boolean[] = [];
  #reached: Reached[] = [];

  constructor(problem: WiringProblem, isOver: IsOver) {
    this.#problem = problem;
    this.#isOver = isOver;
    const closedBy = Array.from({ length: problem.lugs }, (_, lug) =>
      problem.states.flatMap(({ closed }, index) => (closed.some((group) => group.includes(lug)) ? [index] : [])),
    );
    const isShared = (lug: number) => (closedBy[lug]?.length ?? 0) > 1;
    this.#groups = problem.states.map(({ closed }) =>
      closed.map((group) => ({ shared: group.filter(isShared), own: group.filter((lug) => !isShared(lug)) })),
    );
    this.#shared = closedBy
      .flatMap((_, lug) => (isShared(lug) ? [lug] : []))
      .sort((a, b) => (closedBy[b]?.length ?? 0) - (closedBy[a]?.length ?? 0) || a - b);
    this.#statesOf = this.#shared.map((lug) => closedBy[lug] ?? []);
    this.#serves = this.#statesOf.map((states) => states.length);
    this.#before = this.#shared.map((lug) => {
      const poles = problem.alike.find((commons) => commons.includes(lug));
      return poles?.[poles.indexOf(lug) - 1];
    });
  }

  /** Looks for what this plan of the leads makes of it, at so many places at most; whether that ended it early. */
  look(plan: LeadPlan, most: number): boolean {
    this.#plan = plan;
    this.#most = most;
    this.#nodes = 0;
    this.#at = Array.from({ length: this.#problem.lugs }, () => NOTHING);
    this.#known = plan.states.map(() => new Map());
    this.#decided = this.#at.map(() => false);
    this.#reached = plan.states.map(() => NOT_REACHED);
    if (!plan.states.every((_, state) => this.#reach(state))) return false;
    this.#place(0, { cost: this.#problem.leads - plan.classes, buses: 0 });
    return this.#nodes > most;
  }

  #place(index: number, { cost, buses }: { readonly cost: number; readonly buses: number }): void {
    if (this.hasEnded || this.#nodes > this.#most) return;
    this.#nodes += 1;
    if ((++this.#asked & 255) === 0 && this.#isOver()) {
      this.hasEnded = true;
      return;
    }
    if (cost + this.#stillLeast(index) >= this.best) return;
    const lug = this.#shared[index];
    if (lug === undefined) {
      this.#finish(cost);
      return;
    }
    const { classes } = this.#plan;
    const before = this.#before[index];
    const from = before === undefined ? NOTHING : (this.#at[before] ?? NOTHING);
    const last = Math.min(classes + buses, classes + BUSES - 1);
    const states = this.#statesOf[index] ?? [];
    const former = states.map((state) => this.#reached[state]);
    this.#decided[lug] = true;
    for (let node = last; node >= from; node--) {
      if (this.#plan.isOpen[node] === false) continue;
      this.#at[lug] = node;
      const isNewBus = node === classes + buses;
      if (states.every((state) => this.#reach(state)))
        this.#place(index + 1, {
          cost: cost + Number(node !== NOTHING && !isNewBus),
          buses: buses + Number(isNewBus),
        });
    }
    this.#at[lug] = NOTHING;
    this.#decided[lug] = false;
    states.forEach((state, each) => {
      const kept = former[each];
      if (kept) this.#reached[state] = kept;
    });
  }

  /** Works a state out anew; false where two wanted nets are one. */
  #reach(state: number): boolean {
    const planned = this.#plan.states[state];
    if (planned === undefined) return true;
    const sets = new TerminalSets(this.#plan.classes + BUSES);
    let open = 0;
    let openShared = 0;
    let begun = 0;
    const fresh: number[] = [];
    for (const { shared, own } of this.#groups[state] ?? []) {
      let first = NOTHING;
      let undecided = 0;
      for (const lug of shared) {
        if (!this.#decided[lug]) undecided++;
        const node = this.#at[lug] ?? NOTHING;
        if (node === NOTHING) continue;
        if (first === NOTHING) first = node;
        else sets.join(first, node);
      }
      const free = undecided + own.length;
      open += Math.max(0, free - Number(first === NOTHING));
      openShared += undecided;
      if (first !== NOTHING) begun += free;
      else if (free > 1) fresh.push(free - 1);
    }
    if (!isStillApart(planned, sets)) return false;
    const missing = missingJoints(planned, sets) + Number(this.#problem.isQuiet && hangsInTheAir(planned, sets));
    if (missing > open) return false;
    this.#reached[state] = { need: missing + groupsFor(missing - begun, fresh), openShared };
    return true;
  }

  /** No fewer lugs are still to be placed. */
  #stillLeast(index: number): number {
    let own = 0;
    let most = 0;
    let all = 0;
    for (const { need, openShared } of this.#reached) {
      own += Math.max(0, need - openShared);
      most = Math.max(most, need);
      all += need;
    }
    let count = 0;
    for (let at = index; all > 0 && at < this.#serves.length; at++, count++) all -= this.#serves[at] ?? 1;
    return Math.max(own, most, count + Math.max(0, all));
  }

  /** All that several states close is placed: each state by itself now, and none may take more than the others leave of the best so far. */
  #finish(cost: number): void {
    let others = 0;
    for (const { need } of this.#reached) others += need;
    let sum = cost;
    const chosen: OwnLugs[] = [];
    for (let state = 0; state < this.#plan.states.length; state++) {
      others -= this.#reached[state]?.need ?? 0;
      const own = this.#ownLugs(state, this.best - sum - others);
      if (own === undefined) return;
      sum += own.cost;
      chosen.push(own);
    }
    if (sum >= this.best) return;
    const lugAt = [...this.#at];
    for (const { placed } of chosen) for (const [lug, node] of placed) lugAt[lug] = node;
    this.best = sum;
    this.#found = { plan: this.#plan, lugAt };
  }

  /** The fewest, below a limit. */
  #ownLugs(state: number, limit: number): OwnLugs | undefined {
    const groups = this.#groups[state] ?? [];
    const key = groups.map(({ shared }) => shared.map((lug) => this.#at[lug]).join(' ')).join(',');
    const known = this.#known[state]?.get(key);
    if (known && (known.own || known.below >= limit))
      return known.own && known.own.cost < limit ? known.own : undefined;
    const own = this.#cheapest(state, groups, limit);
    this.#known[state]?.set(key, { own, below: limit });
    return own;
  }

  #cheapest(state: number, groups: readonly Group[], limit: number): OwnLugs | undefined {
    const planned = this.#plan.states[state];
    if (planned === undefined) return undefined;
    let best: OwnLugs | undefined;
    const lugs = groups.flatMap(({ own }, group) => own.map((lug) => ({ lug, group })));
    const nodes = this.#plan.classes + BUSES;
    const placed: [number, number][] = [];
    const members = groups.map(({ shared }) => shared.flatMap((lug) => this.#placeOf(lug)));
    const start = new TerminalSets(nodes);
    for (const group of members) for (const node of group) start.join(group[0] ?? node, node);
    const counts = this.#problem.isQuiet;
    const go = (index: number, sets: TerminalSets): void => {
      const missing = missingJoints(planned, sets) + Number(counts && hangsInTheAir(planned, sets));
      if (missing > lugs.length - index || placed.length + missing >= (best?.cost ?? limit)) return;
      if (missing === 0 && (!counts || isQuiet(planned, sets))) {
        best = { cost: placed.length, placed: [...placed] };
        return;
      }
      const next = lugs[index];
      if (next === undefined) return;
      const group = members[next.group] ?? [];
      const first = group[0];
      for (let node = 0; node < nodes; node++) {
        if (this.#plan.isOpen[node] === false) continue;
        if (first !== undefined && sets.rootOf(first) === sets.rootOf(node)) continue;
        let grown = sets;
        if (first !== undefined) {
          grown = new TerminalSets(sets);
          grown.join(first, node);
          if (!isStillApart(planned, grown)) continue;
        }
        group.push(node);
        placed.push([next.lug, node]);
        go(index + 1, grown);
        placed.pop();
        group.pop();
      }
      go(index + 1, sets);
    };
    if (isStillApart(planned, start)) go(0, start);
    return best;
  }

  #placeOf(lug: number): readonly number[] {
    const node = this.#at[lug] ?? NOTHING;
    return node === NOTHING ? [] : [node];
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

/** How far the lugs that are placed have brought a state. */
interface Reached {
  /** Lugs that it still takes: one for each joint that is missing, one more for each group that is begun for them. */
  readonly need: number;
  /** Lugs not decided on that other states close too. */
  readonly openShared: number;
}

const NOT_REACHED: Reached = { need: 0, openShared: 0 };

interface OwnLugs {
  readonly cost: number;
  readonly placed: readonly (readonly [lug: number, node: number])[];
}

/** The second rule: what is dead counts as a wire. */
function isStillApart({ nets, dead }: PlannedState, closed: TerminalSets): boolean {
  const sets = new TerminalSets(closed);
  for (const net of nets) for (const each of net) sets.join(net[0] ?? 0, each);
  for (const { ends } of dead) sets.join(ends[0], ends[1]);
  return areApart(nets, (each) => sets.rootOf(each));
}

/** The first rule: how many joints the wanted nets are short of. */
function missingJoints({ nets }: PlannedState, sets: TerminalSets): number {
  let missing = 0;
  for (const net of nets) {
    let seen = 0;
    for (const each of net) {
      const bit = 1 << sets.rootOf(each);
      if (!(seen & bit)) missing++;
      seen |= bit;
    }
    missing--;
  }
  return missing;
}

/**
 * A dead coil hangs on a live net, and its far side is one with none: whatever is joined for what sounds, it takes one joint more. What
 * hangs there once hangs there for good.
 */
function hangsInTheAir({ nets, dead }: PlannedState, closed: TerminalSets): boolean {
  let live = 0;
  let wanted = 0;
  for (const [index, net] of nets.entries())
    for (const each of net) {
      const bit = 1 << closed.rootOf(each);
      wanted |= bit;
      if (index !== GROUND_LEAD) live |= bit;
    }
  let once = 0;
  let twice = 0;
  for (const { ends } of dead)
    for (const end of ends) {
      const bit = 1 << closed.rootOf(end);
      twice |= once & bit;
      once |= bit;
    }
  const loose = once & ~twice & ~wanted;
  for (const { ends, isCoil } of dead) {
    if (!isCoil) continue;
    const one = 1 << closed.rootOf(ends[0]);
    const other = 1 << closed.rootOf(ends[1]);
    if ((live & one && loose & other) || (live & other && loose & one)) return true;
  }
  return false;
}

/** The third rule, once the first holds. */
function isQuiet({ nets, dead }: PlannedState, closed: TerminalSets): boolean {
  const coils = dead.filter(({ isCoil }) => isCoil);
  if (coils.length === 0) return true;
  const hung = new TerminalSets(closed);
  for (const { ends } of dead) hung.join(ends[0], ends[1]);
  const live = new Set(
    nets.flatMap(([first], index) => (index === 1 || first === undefined ? [] : [hung.rootOf(first)])),
  );
  return coils.every((coil) => {
    if (!live.has(hung.rootOf(coil.ends[0]))) return true;
    const others = new TerminalSets(closed);
    for (const each of dead) if (each !== coil) others.join(each.ends[0], each.ends[1]);
    return others.rootOf(coil.ends[0]) === others.rootOf(coil.ends[1]);
  });
}
