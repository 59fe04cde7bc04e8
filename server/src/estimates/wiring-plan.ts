/** What to solder so that the switches of an instrument do what its positions ask for: the fewest wires, or why no wiring does. */
import { attached } from '../../../grammar/values/attached.ts';
import type { Instrument, Position, Slot } from '../model/instrument.ts';
import { looseNetlist, nodeName } from '../model/netlist.ts';
import type { Switch } from '../model/switch.ts';
import type { Folded } from '../physics/switching/folded.ts';
import { leastWiring, type PlannedNet, type SearchResult, type Untidiness } from '../physics/switching/least-wiring.ts';
import { alikePoles, polesOf } from '../physics/switching/poles.ts';
import { closedIn, GROUND, HOT, lugTerminal, type RigElement } from '../physics/switching/rig.ts';
import { finished, type Steps } from '../physics/switching/steps.ts';
import { type LugPlace, untidinessIn } from '../physics/switching/untidiness.ts';
import { wantedNets } from '../physics/switching/wanted-state.ts';
import { oneClash, polesNeeded, smallestClashes } from '../physics/switching/why-no-wiring.ts';
import {
  Budget,
  GROUND_LEAD,
  HOT_LEAD,
  MOST_LEADS,
  type WantedState,
  type WiringProblem,
} from '../physics/switching/wiring-problem.ts';
import { pickupSections, pointName } from './pickup-sections.ts';
import { type AskedNetwork, askedNetwork } from './selection-network.ts';
import { stateOf } from './switch-states.ts';
import { coilsOf } from './wired-rig.ts';

export interface PlannedLine {
  readonly kind: 'hot' | 'link' | 'ground' | 'free';
  readonly terminals: readonly string[];
}

export interface PlannedPart {
  /** As `resistor 4700`. */
  readonly alike: string;
  readonly ends: readonly [string, string];
}

export interface WiringPlan {
  readonly lines: readonly PlannedLine[];
  readonly parts: readonly PlannedPart[];
  readonly wires: number;
  /** No wiring has fewer. */
  readonly isProven: boolean;
}

/** Why there is no plan: the smallest sets of positions that clash, and how many poles of one throw a position would do. */
export interface Impossible {
  readonly clashes: readonly (readonly Position[])[];
  readonly polesNeeded: number | undefined;
}

export type Planned =
  | { readonly kind: 'plan'; readonly plan: WiringPlan }
  | { readonly kind: 'impossible' }
  /** The search was ended before it had either. */
  | { readonly kind: 'unknown' };

/** What a wiring is planned for; a text: what is missing for it. */
export interface WiringTask {
  readonly problem: WiringProblem;
  readonly untidiness: Untidiness;
  readonly positions: readonly Position[];
  readonly leads: readonly Lead[];
  readonly lugs: readonly string[];
  /** Leads of shields and metal, which go to ground whatever is switched. */
  readonly grounded: readonly string[];
}

interface Lead {
  /** `undefined`: a joint that is not brought out. */
  readonly terminal: string | undefined;
  readonly part: string | undefined;
  readonly slot: string | undefined;
}

export function wiringTask(instrument: Instrument, isQuiet: boolean): WiringTask | string {
  const { slots, switches, positions } = instrument;
  const unknown = slots.find(({ pickup }) => pickup === undefined);
  if (unknown) return `the pickup ${unknown.pickupName.value} is not known`;
  const fitted = switches.flatMap(({ name, part }) => (part ? [{ slot: name, contacts: part }] : []));
  if (fitted.length === 0) return 'it names no switch';
  if (fitted.length < switches.length) return 'one of its switches is not known';
  if (positions.length === 0) return 'its selector asks for no positions';
  const wanted = positions.map((position) => ({
    position,
    state: stateOf(position, instrument),
    asked: position.selection && askedNetwork(position.selection),
  }));
  const lost = wanted.find(({ state, asked }) => !state || !asked);
  if (lost)
    return lost.state
      ? `what position ${lost.position.key.value} asks for is not known`
      : `no detent stands for position ${lost.position.key.value}`;
  const elements = [...slots.flatMap(coilsOf), ...resistorsIn(wanted.flatMap(({ asked }) => asked ?? []))];
  const points = [...new Set([HOT, GROUND, ...elements.flatMap(({ ends }) => ends)])];
  if (points.length > MOST_LEADS)
    return `it has ${points.length - 2} leads, more than the ${MOST_LEADS - 2} that are planned at once`;
  const leads = points.map((point) => leadAt(point, slots));
  const lugs = fitted.flatMap(({ slot, contacts }) => contacts.lugs.map((lug) => lugTerminal(slot, lug)));
  const states = wanted.flatMap(({ state, asked }): readonly WantedState[] =>
    state && asked
      ? [
          {
            closed: closedIn({ switches: fitted }, state).map((group) => group.map((lug) => lugs.indexOf(lug))),
            ...wantedNets(withParts(asked), elements, (point) => points.indexOf(point)),
          },
        ]
      : [],
  );
  const sealed = leads.flatMap(({ terminal, part }, lead) =>
    terminal === undefined && part === undefined ? [lead] : [],
  );
  const alike = fitted.flatMap(({ slot, contacts }) =>
    alikePoles(contacts).map((commons) => commons.map((lug) => lugs.indexOf(lugTerminal(slot, lug)))),
  );
  return {
    problem: { leads: leads.length, lugs: lugs.length, states, sealed, isQuiet, alike },
    untidiness: untidinessIn({
      lugs: fitted.flatMap(({ contacts }, index) => placesOf(contacts, index)),
      owners: leads.map(({ slot }) => slot),
    }),
    positions,
    leads,
    lugs,
    grounded: slots.flatMap(groundedLeads),
  };
}

/** Where the lugs of the n-th switch lie, in their own order. */
function placesOf(part: Switch, index: number): readonly LugPlace[] {
  const poles = polesOf(part);
  return part.lugs.map((lug) => {
    const row = part.rows.findIndex((each) => each.includes(lug));
    const pole = poles.findIndex((each) => each.lugs.includes(lug));
    return {
      switch: index,
      row,
      column: part.rows[row]?.indexOf(lug) ?? 0,
      pole,
      isCommon: poles[pole]?.common === lug,
    };
  });
}

/** `searches`: how often it looks, at most; what is proven is proven, however long it takes a machine. */
export function* planWiring(task: WiringTask, searches: number): Steps<Planned> {
  const found = yield* leastWiring(task.problem, new Budget(searches), task.untidiness);
  if (found.wiring) return { kind: 'plan', plan: written(task, found) };
  if (!found.isProven) return { kind: 'unknown' };
  return { kind: 'impossible' };
}

/** Each resistor that a position asks for once, whichever positions share it. */
function resistorsIn(asked: readonly AskedNetwork[]): readonly RigElement[] {
  const byKey = new Map<string, RigElement>();
  for (const { elements } of asked)
    for (const element of elements) {
      if (element.isCoil) continue;
      const key = partKey(element);
      byKey.set(key, { ...element, name: key, ends: [`${key}.1`, `${key}.2`] });
    }
  return [...byKey.values()];
}

/** With resistors by what they are, so that positions share them. */
function withParts({ network, elements }: AskedNetwork): Folded {
  const keys = new Map(elements.flatMap((each) => (each.isCoil ? [] : [[each.name, partKey(each)] as const])));
  const named = (folded: Folded): Folded =>
    folded.kind === 'element'
      ? { ...folded, name: keys.get(folded.name) ?? folded.name }
      : { ...folded, of: folded.of.map(named) };
  return named(network);
}

const partKey = ({ name, alike }: Pick<RigElement, 'name' | 'alike'>): string => `${name} (${alike ?? ''})`;

/** The first lead that a point is brought out by. */
function leadAt(point: string, slots: readonly Slot[]): Lead {
  if (point === HOT || point === GROUND) return { terminal: point, part: undefined, slot: undefined };
  const slot = slots.find(({ name }) => point.startsWith(`${name}/`));
  if (!slot?.pickup) return { terminal: undefined, part: point.slice(0, -2), slot: undefined };
  const { leads, netOf } = looseNetlist(slot.pickup);
  const at = [...leads.values()].find(({ node }) => `${slot.name}${pointName(netOf(node) ?? -1)}` === point);
  return { terminal: at && lugTerminal(slot.name, at.name), part: undefined, slot: slot.name };
}

/** Shields and what else the hookup grounds that is no end of a coil. */
function groundedLeads({ name: slot, pickup }: Slot): readonly string[] {
  if (!pickup) return [];
  const { netAt, nets } = looseNetlist(pickup);
  const ends = new Set(pickupSections(pickup).sections.flatMap(({ ends: both }) => both));
  const grounding = (pickup.hookup?.joints ?? []).filter(({ kind }) => kind === 'ground' || kind === 'shield');
  const bare = grounding.flatMap(({ leads }) =>
    leads.flatMap((path) => {
      const net = netAt(path);
      const node = net === undefined ? undefined : nets[net]?.nodes.find((each) => each.startsWith('lead:'));
      return net === undefined || node === undefined || ends.has(pointName(net))
        ? []
        : [lugTerminal(slot, nodeName(node))];
    }),
  );
  return [...new Set(bare)];
}

function written({ leads, lugs, grounded }: WiringTask, { wiring, isProven }: SearchResult): WiringPlan {
  const nets = wiring?.nets ?? [];
  const partNets = new Map<string, string[]>();
  const lines = nets.flatMap((net): readonly PlannedLine[] => {
    const terminals = terminalsOf(net, leads, lugs);
    for (const lead of net.leads) {
      const { part } = leads[lead] ?? {};
      const [at] = net.leads.includes(HOT_LEAD) ? [HOT] : net.leads.includes(GROUND_LEAD) ? [GROUND] : terminals;
      if (part !== undefined && at !== undefined) partNets.set(part, [...(partNets.get(part) ?? []), at]);
    }
    if (net.leads.includes(HOT_LEAD)) return [{ kind: 'hot', terminals }];
    if (net.leads.includes(GROUND_LEAD)) return [{ kind: 'ground', terminals: [...terminals, ...grounded] }];
    return terminals.length > 1 ? [{ kind: 'link', terminals }] : [];
  });
  const isGroundNamed = lines.some(({ kind }) => kind === 'ground');
  const used = new Set(nets.flatMap((net) => net.leads));
  const free = leads.flatMap(({ terminal, part }, lead) =>
    used.has(lead) || lead === HOT_LEAD || lead === GROUND_LEAD || terminal === undefined || part !== undefined
      ? []
      : [terminal],
  );
  const order = { hot: 0, link: 1, ground: 2, free: 3 } as const;
  const all: readonly PlannedLine[] = [
    ...lines,
    ...(isGroundNamed || grounded.length === 0 ? [] : [{ kind: 'ground' as const, terminals: grounded }]),
    ...[free, ...freeLugs(nets, lugs)].flatMap((terminals) =>
      terminals.length === 0 ? [] : [{ kind: 'free' as const, terminals }],
    ),
  ];
  return {
    lines: [...all].sort((a, b) => order[a.kind] - order[b.kind]),
    parts: [...partNets].flatMap(([part, [from, to]]) =>
      from === undefined || to === undefined
        ? []
        : [{ alike: part.slice(part.lastIndexOf('(') + 1, -1), ends: [from, to] as const }],
    ),
    wires: (wiring?.wires ?? 0) + grounded.length,
    isProven,
  };
}

/** Lugs that nothing is soldered to, switch by switch. */
function freeLugs(nets: readonly PlannedNet[], lugs: readonly string[]): readonly (readonly string[])[] {
  const used = new Set(nets.flatMap((net) => net.lugs));
  const free = lugs.filter((_, lug) => !used.has(lug));
  const switchOf = (lug: string) => lug.slice(0, lug.indexOf('.'));
  return [...new Set(free.map(switchOf))].map((name) => free.filter((lug) => switchOf(lug) === name));
}

/** Leads first, then lugs; hot, ground and the ends of parts are said in other ways. */
const terminalsOf = (
  { leads: own, lugs }: PlannedNet,
  leads: readonly Lead[],
  names: readonly string[],
): readonly string[] => [
  ...own.flatMap((lead) => (lead === HOT_LEAD || lead === GROUND_LEAD ? [] : (leads[lead]?.terminal ?? []))),
  ...lugs.flatMap((lug) => names[lug] ?? []),
];

export function* whyNoWiring({ problem, positions }: WiringTask, searches: number): Steps<Impossible> {
  const budget = new Budget(searches);
  const clashes = (yield* smallestClashes(problem, budget)).map((some) =>
    positions.filter((_, index) => some.includes(index)),
  );
  // All together cannot be, whatever of them is the cause.
  return { clashes: clashes.length > 0 ? clashes : [positions], polesNeeded: yield* polesNeeded(problem, budget) };
}

/** Positions that no wiring makes together, none of them needless; `undefined` where there is a wiring, or that could not be settled. */
export function clashing(instrument: Instrument, searches: number): Clash | undefined {
  finished(findingClash(instrument, searches));
  return clashes.get(instrument)?.clash;
}

const clashes = attached<Instrument, { readonly searches: number; readonly clash: Clash | undefined }>();

/** The same in steps; what was found is known afterwards. */
export function* findingClash(instrument: Instrument, searches: number): Steps<void> {
  if (clashes.get(instrument)?.searches === searches) return;
  const task = wiringTask(instrument, true);
  clashes.set(instrument, { searches, clash: typeof task === 'string' ? undefined : yield* clashOf(task, searches) });
}

function* clashOf({ problem, positions }: WiringTask, searches: number): Steps<Clash | undefined> {
  const budget = new Budget(searches);
  const clash = yield* oneClash(problem, budget);
  return (
    clash && {
      positions: positions.filter((_, index) => clash.includes(index)),
      polesNeeded: yield* polesNeeded(problem, budget),
    }
  );
}

interface Clash {
  readonly positions: readonly Position[];
  /** Poles of one throw for each position that would do them all; `undefined` where that is not known. */
  readonly polesNeeded: number | undefined;
}
