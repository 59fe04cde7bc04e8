/**
 * A wanted state while lugs are soldered one after the other: what its contacts make one, whether that may be, and how many lugs it takes
 * at least from here. Its nodes are classes of leads, then nets of lugs alone.
 */
import { NodeSets, netsIn } from './node-sets.ts';

/** What is wanted of a state, by nodes. */
export interface PlannedState {
  /** The nodes of each net, as bits: hot's, ground's, then inner ones. */
  readonly nets: readonly number[];
  readonly dead: readonly DeadElement[];
  /** No dead coil may hang on what sounds by one end. */
  readonly isQuiet: boolean;
}

export interface DeadElement {
  readonly ends: readonly [number, number];
  readonly isCoil: boolean;
}

/** How many lugs of a group are left: those that other states close too, and its own; and a node that it is soldered to already. */
export interface OpenGroup {
  readonly shared: number;
  readonly own: number;
  readonly at: number;
}

/** In the place of a node. */
export const NOTHING = -1;
const GROUND_NET = 1;

/** Lugs that a state takes: one for each joint that is missing, one more for each group that is begun for them. */
export interface Need {
  readonly lugs: number;
  /** Of these at least so many of its own, and at most so many that other states close too. */
  readonly own: number;
  readonly shared: number;
}

export class StateSoFar {
  readonly need: Need;
  readonly #planned: PlannedState;
  /** What is one by contacts. */
  readonly #closed: NodeSets;
  /** What is one if besides each wanted net were one already, and all that shall be dead were a wire. */
  readonly #zones: NodeSets;
  readonly #groups: readonly OpenGroup[];

  private constructor(
    planned: PlannedState,
    { closed, zones }: { readonly closed: NodeSets; readonly zones: NodeSets },
    { groups, need }: { readonly groups: readonly OpenGroup[]; readonly need: Need },
  ) {
    this.#planned = planned;
    this.#closed = closed;
    this.#zones = zones;
    this.#groups = groups;
    this.need = need;
  }

  /** Before any lug is soldered; `undefined` where that cannot end well. */
  static start(planned: PlannedState, groups: readonly OpenGroup[], nodes: number): StateSoFar | undefined {
    const zones = new NodeSets(nodes);
    for (const net of planned.nets) zones.joinAll(net);
    for (const { ends } of planned.dead) zones.join(ends[0], ends[1]);
    return StateSoFar.#checked(planned, { closed: new NodeSets(nodes), zones }, groups);
  }

  static #checked(
    planned: PlannedState,
    sets: { readonly closed: NodeSets; readonly zones: NodeSets },
    groups: readonly OpenGroup[],
  ): StateSoFar | undefined {
    let joints = planned.isQuiet ? jointsForSilence(planned, sets.closed, sets.zones) : 0;
    // Where a coil has to be silenced, anything may help.
    let helpful = joints > 0 ? -1 : 0;
    for (const net of planned.nets) {
      const parts = sets.closed.count(net);
      joints += parts - 1;
      if (parts > 1) helpful |= sets.closed.around(net);
    }
    const need = needOf(joints, groups, helpful);
    return need && new StateSoFar(planned, sets, { groups, need });
  }

  /** With the next lug of a group soldered to a node, or to nothing; `undefined` where that cannot end well. */
  with(index: number, kind: 'shared' | 'own', node: number): StateSoFar | undefined {
    const group = this.#groups[index];
    if (group === undefined) return this;
    let [closed, zones] = [this.#closed, this.#zones];
    if (node !== NOTHING && group.at !== NOTHING && !this.isOne(group.at, node)) {
      if (netsIn(this.#planned.nets, zones.of(group.at) | zones.of(node)) > 1) return undefined;
      zones = new NodeSets(zones);
      zones.join(group.at, node);
      closed = new NodeSets(closed);
      closed.join(group.at, node);
    }
    const groups = this.#groups.slice();
    const at = group.at === NOTHING ? node : group.at;
    groups[index] = { ...group, [kind]: group[kind] - 1, at };
    return StateSoFar.#checked(this.#planned, { closed, zones }, groups);
  }

  isOne(a: number, b: number): boolean {
    return (this.#closed.of(a) & (1 << b)) !== 0;
  }

  /**
   * Nodes that one of its own lugs may help by being soldered to, as bits: those of nets that are not one yet; and, where coils shall be
   * quiet, all that hangs on what sounds. Any other would only hang there itself: a way round it has no more lugs.
   */
  get helpful(): number {
    const [planned, closed, zones] = [this.#planned, this.#closed, this.#zones];
    let nodes = 0;
    for (const [index, net] of planned.nets.entries()) {
      if (closed.count(net) > 1) nodes |= closed.around(net);
      if (planned.isQuiet && index !== GROUND_NET) nodes |= zones.around(net);
    }
    return nodes;
  }

  /** Dead coils that do not hang on ground. */
  get floating(): number {
    const ground = this.#planned.nets[GROUND_NET] ?? 0;
    return this.#planned.dead.filter(({ ends, isCoil }) => isCoil && !(this.#zones.of(ends[0]) & ground)).length;
  }

  /** Everything that shall sound does, and no dead coil hangs on it by one end, where that counts. */
  get isDone(): boolean {
    return this.need.lugs === 0 && !(this.#planned.isQuiet && hasAntenna(this.#planned, this.#closed, this.#zones));
  }
}

const soundingOf = ({ nets }: Pick<PlannedState, 'nets'>): number =>
  nets.reduce((bits, net, index) => (index === GROUND_NET ? bits : bits | net), 0);

/**
 * Of coils that hang on what sounds, the outermost have an end that nothing else is at; each such end has to be joined with something, two
 * of them perhaps with each other. What hangs there once hangs there for good.
 */
function jointsForSilence(planned: PlannedState, closed: NodeSets, zones: NodeSets): number {
  let once = 0;
  let twice = 0;
  for (const { ends } of planned.dead)
    for (const end of ends) {
      const set = closed.of(end);
      twice |= once & set;
      once |= set;
    }
  for (const net of planned.nets) twice |= closed.around(net);
  const sounding = soundingOf(planned);
  let loose = 0;
  for (const { ends, isCoil } of planned.dead)
    if (isCoil && zones.of(ends[0]) & sounding) for (const end of ends) if (closed.of(end) & once & ~twice) loose++;
  return (loose + 1) >> 1;
}

/** A dead coil hangs on what sounds, and nothing else joins its ends. */
function hasAntenna({ nets, dead }: PlannedState, closed: NodeSets, zones: NodeSets): boolean {
  const sounding = soundingOf({ nets });
  return dead.some((coil) => {
    if (!coil.isCoil || !(zones.of(coil.ends[0]) & sounding)) return false;
    const others = new NodeSets(closed);
    for (const each of dead) if (each !== coil) others.join(each.ends[0], each.ends[1]);
    return !(others.of(coil.ends[0]) & (1 << coil.ends[1]));
  });
}

/** `undefined`: the lugs that are left do not make so many joints. */
function needOf(joints: number, groups: readonly OpenGroup[], helpful: number): Need | undefined {
  let shared = 0;
  let own = joints;
  let begun = 0;
  let open = 0;
  const fresh: number[] = [];
  for (const group of groups) {
    const size = group.shared + group.own;
    // At a node that helps nothing it begins anew.
    const isBegun = group.at !== NOTHING && (helpful & (1 << group.at)) !== 0;
    shared += group.shared;
    own -= Math.max(0, group.shared - Number(!isBegun));
    if (isBegun) begun += size;
    else if (size > 1) fresh.push(size - 1);
    open += Math.max(0, size - Number(!isBegun));
  }
  return joints > open ? undefined : { lugs: joints + groupsFor(joints - begun, fresh), own: Math.max(0, own), shared };
}

/** How many groups of so many further lugs each are begun for so many joints, the largest first. */
function groupsFor(joints: number, sizes: number[]): number {
  if (sizes.length > 1) sizes.sort((a, b) => b - a);
  let groups = 0;
  for (let left = joints; left > 0 && groups < sizes.length; groups++) left -= sizes[groups] ?? 0;
  return groups;
}
