/**
 * Switches, what hangs on their lugs, and what is soldered to what: names of terminals alone. `hot` and `ground` are terminals too. A
 * switch is nothing but its contact table; a state is one detent of each switch.
 */

export const HOT = 'hot';
export const GROUND = 'ground';

/** What lies between two detents: contacts of both are closed for a moment, or only those that both have. */
export type Travel = 'make-before-break' | 'break-before-make';

export interface Detent {
  readonly name: string;
  /** Groups of lugs that are one while the switch rests here. */
  readonly joins: readonly (readonly string[])[];
}

/** A switch by its contact table, its lugs named without the switch. */
export interface Contacts {
  readonly lugs: readonly string[];
  /** In the order of travel. */
  readonly detents: readonly Detent[];
  /** `undefined`: not known. */
  readonly travel: Travel | undefined;
}

/** A coil, a section of one, or a resistor or capacitor, between two terminals. */
export interface RigElement {
  readonly name: string;
  readonly isCoil: boolean;
  /** Of a coil: the end toward hot, then the end toward ground, as its pickup's own hookup has them. */
  readonly ends: readonly [string, string];
  /** What it is compared by, where that is not its name: two resistors of one value do the same. */
  readonly alike?: string;
}

/** Terminals that are soldered together: a net each. */
export type Nets = readonly (readonly string[])[];

export interface Rig {
  readonly switches: readonly { readonly slot: string; readonly contacts: Contacts }[];
  readonly elements: readonly RigElement[];
  /** Joints that nobody moves: those inside the pickups. */
  readonly fixed: Nets;
  /** What is soldered to the lugs and to each other outside of the pickups. */
  readonly links: Nets;
}

/** The detent of each switch, counted from 0, in the order of the rig's switches. */
export type SwitchState = readonly number[];

/** More states than any instrument has: beyond them none is looked at. */
export const MOST_STATES = 4096;

export const lugTerminal = (slot: string, lug: string): string => `${slot}.${lug}`;

/** How many states there are. */
export const stateCount = ({ switches }: Pick<Rig, 'switches'>): number =>
  switches.reduce((count, { contacts }) => count * contacts.detents.length, 1);

/** All states, the last switch moving first; none where there are more than `MOST_STATES`. */
export function statesOf(rig: Pick<Rig, 'switches'>): readonly SwitchState[] {
  if (stateCount(rig) > MOST_STATES) return [];
  return rig.switches.reduce<readonly SwitchState[]>(
    (states, { contacts }) => states.flatMap((state) => contacts.detents.map((_, index) => [...state, index])),
    [[]],
  );
}

/** The groups of terminals that the contacts close in a state. */
export const closedIn = ({ switches }: Pick<Rig, 'switches'>, state: SwitchState): Nets =>
  switches.flatMap(({ slot, contacts }, index) => joinsOf(slot, contacts.detents[state[index] ?? 0]));

const joinsOf = (slot: string, detent: Detent | undefined): Nets =>
  (detent?.joins ?? []).map((lugs) => lugs.map((lug) => lugTerminal(slot, lug)));

/** A step of one switch from a detent to the next, the others at rest. */
export interface Step {
  readonly from: SwitchState;
  readonly to: SwitchState;
  /** Which switch moves. */
  readonly moving: number;
}

/** Every step of travel between neighbouring detents, in the order of the switches. */
export function stepsOf(rig: Pick<Rig, 'switches'>): readonly Step[] {
  const states = statesOf(rig);
  return rig.switches.flatMap(({ contacts }, moving) =>
    states.flatMap((from) => {
      const detent = from[moving] ?? 0;
      return detent + 1 < contacts.detents.length
        ? [{ from, to: from.map((each, index) => (index === moving ? detent + 1 : each)), moving }]
        : [];
    }),
  );
}

/** What is closed in the middle of a step: the contacts of either detent, or the pairs of lugs that both join. */
export function closedBetween(rig: Pick<Rig, 'switches'>, { from, to }: Step, travel: Travel): Nets {
  const [before, after] = [closedIn(rig, from), closedIn(rig, to)];
  if (travel === 'make-before-break') return [...before, ...after];
  return before.flatMap((group) =>
    after.flatMap((other) => {
      const both = group.filter((terminal) => other.includes(terminal));
      return both.length > 1 ? [both] : [];
    }),
  );
}
