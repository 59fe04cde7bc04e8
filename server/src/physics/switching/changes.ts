/**
 * "Wired like this, where is it?": every single end moved (to nothing, to another net, to a free terminal) and every two ends exchanged,
 * kept where afterwards all states do what is wanted of them. Complete among single changes; nothing is assumed about likely mistakes.
 */
import { meaningIn, type NumberedNets, type NumberedRig, numberedRig, setsOf, textsBy } from './meaning.ts';
import { closedIn, type Rig, type SwitchState } from './rig.ts';
import type { Steps } from './steps.ts';
import { TerminalSets } from './terminal-sets.ts';

/** A terminal by its name, or by its number. */
export type Change<T = string> =
  /** `to`: the terminals of the net that it joins, one of them where it stands alone, or `nothing`. */
  | { readonly kind: 'move'; readonly terminal: T; readonly to: readonly T[] | 'nothing' }
  | { readonly kind: 'swap'; readonly terminals: readonly [T, T] };

type NetsOf<T> = readonly (readonly T[])[];

/** What a state should sound like, as `StateMeaning.text` says it; where several will do, each of them. */
export interface Wanted {
  readonly state: SwitchState;
  readonly texts: ReadonlySet<string>;
}

/** The nets with one change made; a terminal by itself is none. */
export function changed<T>(links: NetsOf<T>, change: Change<T>): NetsOf<T> {
  if (change.kind === 'swap') {
    const [a, b] = change.terminals;
    const other = (terminal: T) => (terminal === a ? b : terminal === b ? a : terminal);
    return links.map((net) => net.map(other));
  }
  const { terminal, to } = change;
  const without = links.map((net) => net.filter((each) => each !== terminal));
  if (to === 'nothing') return without.filter((net) => net.length > 1);
  const [first] = to;
  const joins = without.findIndex((net) => first !== undefined && net.includes(first));
  const grown =
    joins < 0
      ? [...without, [...to, terminal]]
      : without.map((net, index) => (index === joins ? [...net, terminal] : net));
  return grown.filter((net) => net.length > 1);
}

/** States that do something else than is wanted, by their place in the list. */
export const wrongAmong = (numbered: NumberedRig, wanted: readonly Wanted[]): readonly number[] =>
  wanted.flatMap(({ state, texts }, index) => (texts.has(meaningIn(numbered, state).text) ? [] : [index]));

/**
 * `movable`: terminals that a person could unsolder, hot and ground among them, those first that one would rather move: of changes that
 * come to the same, theirs is kept.
 */
export function rightingChanges(rig: Rig, wanted: readonly Wanted[], movable: readonly string[]): readonly Change[] {
  const numbered = numberedRig(rig);
  const wrong = new Set(wrongAmong(numbered, wanted));
  if (wrong.size === 0) return [];
  // What is wrong now is the likeliest to stay wrong, so most changes are given up after one state.
  const order = [...wanted.entries()].sort(([a], [b]) => Number(wrong.has(b)) - Number(wrong.has(a)));
  const first = order[0]?.[1].state;
  // A terminal that joins nothing in a state that is wrong may go where it will: that stays wrong.
  const closed = first ? numbered.numbered(closedIn(rig, first)) : [];
  const felt = new Set([...numbered.ends, ...numbered.numbered(rig.fixed).flat(), ...closed.flat()]);
  const isFelt = (change: Change<number>) => endsOf(change).some((terminal) => felt.has(terminal));
  const states = order.map(([, each]) => each);
  return changesThat(numbered, states, movable, isFelt);
}

/** Changes after which all states still do what is wanted, and what is soldered then is better by some other measure. */
export function betterChanges(
  rig: Rig,
  wanted: readonly Wanted[],
  movable: readonly string[],
  isBetter: (links: Rig['links']) => boolean,
): readonly Change[] {
  const keeping = changesThat(numberedRig(rig), wanted, movable, () => true);
  return keeping.filter((change) => isBetter(changed(rig.links, change)));
}

const endsOf = <T>(change: Change<T>): readonly T[] => (change.kind === 'swap' ? change.terminals : [change.terminal]);

/** `isToTry` gives up what cannot help before anything is solved. */
function changesThat(
  numbered: NumberedRig,
  wanted: readonly Wanted[],
  movable: readonly string[],
  isToTry: (change: Change<number>) => boolean,
): readonly Change[] {
  const links = numbered.numbered(numbered.rig.links);
  const isRight = rightnessIn(numbered, wanted);
  const [moved = []] = numbered.numbered([movable]);
  const right = singleChanges(links, moved).filter((change) => {
    if (!isToTry(change)) return false;
    const after = changed(links, change);
    return wanted.every((_, state) => isRight(after, state));
  });
  return different(right, links).map((change) => named(change, numbered));
}

/** Whether a wanted state, by its place in the list, is right with other links. */
function rightnessIn(
  numbered: NumberedRig,
  wanted: readonly Wanted[],
): (links: NumberedNets, state: number) => boolean {
  const { rig } = numbered;
  const fixed = numbered.numbered(rig.fixed);
  const closed = wanted.map(({ state }) => setsOf(numbered, [fixed, numbered.numbered(closedIn(rig, state))]));
  const textOf = textsBy(numbered);
  return (links, state) => {
    const sets = new TerminalSets(closed[state] ?? 0);
    for (const net of links) sets.joinAll(net);
    return wanted[state]?.texts.has(textOf(sets)) === true;
  };
}

/**
 * Two changes, one after the other, after which all states do what is wanted. Of first ones those are tried that by themselves put some
 * state right and none wrong, the most first, so many at most; one of them a step.
 */
export function* rightingPairs(
  rig: Rig,
  wanted: readonly Wanted[],
  movable: readonly string[],
  most: number,
): Steps<readonly (readonly [Change, Change])[]> {
  const numbered = numberedRig(rig);
  const links = numbered.numbered(rig.links);
  const isRight = rightnessIn(numbered, wanted);
  const [moved = []] = numbered.numbered([movable]);
  const isFirst = wanted.map((_, state) => isRight(links, state));
  const helping = singleChanges(links, moved).flatMap((change) => {
    const after = changed(links, change);
    if (wanted.some((_, state) => isFirst[state] && !isRight(after, state))) return [];
    const gain = wanted.filter((_, state) => !isFirst[state] && isRight(after, state)).length;
    return gain > 0 ? [{ change, gain }] : [];
  });
  const gains = new Map(helping.map(({ change, gain }) => [change, gain]));
  const firsts = [...different([...gains.keys()], links)].sort((a, b) => (gains.get(b) ?? 0) - (gains.get(a) ?? 0));
  const pairs: (readonly [Change, Change])[] = [];
  for (const first of firsts.slice(0, most)) {
    yield;
    const change = named(first, numbered);
    const seconds = rightingChanges({ ...rig, links: changed(rig.links, change) }, wanted, movable);
    pairs.push(...seconds.map((second) => [change, second] as const));
  }
  return pairs;
}

function named(change: Change<number>, { terminals }: NumberedRig): Change {
  const name = (terminal: number) => terminals[terminal] ?? '';
  if (change.kind === 'swap')
    return { kind: 'swap', terminals: [name(change.terminals[0]), name(change.terminals[1])] };
  const { terminal, to } = change;
  return { kind: 'move', terminal: name(terminal), to: to === 'nothing' ? to : to.map(name) };
}

/** Of changes after which the same is soldered together the first. */
function different(changes: readonly Change<number>[], links: NumberedNets): readonly Change<number>[] {
  const byResult = new Map<string, Change<number>>();
  for (const change of changes) {
    const result = changed(links, change)
      .map((net) => [...net].sort((a, b) => a - b).join(' '))
      .sort()
      .join(', ');
    if (!byResult.has(result)) byResult.set(result, change);
  }
  return [...byResult.values()];
}

/** Every single move, then every exchange, in the order of the terminals. */
function singleChanges(links: NumberedNets, movable: readonly number[]): readonly Change<number>[] {
  const netOf = new Map(links.flatMap((net) => net.map((terminal) => [terminal, net] as const)));
  const isAlone = (terminal: number) => (netOf.get(terminal)?.length ?? 1) < 2;
  const alone = movable.filter(isAlone);
  const targets = [...links.filter((net) => net.length > 1), ...alone.map((terminal) => [terminal])];
  const moves = movable.flatMap((terminal): readonly Change<number>[] => {
    const to = targets.filter((net) => !net.includes(terminal));
    return [
      ...(isAlone(terminal) ? [] : [{ kind: 'move', terminal, to: 'nothing' } as const]),
      ...to.map((net) => ({ kind: 'move', terminal, to: net }) as const),
    ];
  });
  const swaps = movable.flatMap((a, index) =>
    movable.slice(index + 1).flatMap((b): readonly Change<number>[] => {
      const isSame = netOf.get(a) !== undefined && netOf.get(a) === netOf.get(b);
      return isSame || (isAlone(a) && isAlone(b)) ? [] : [{ kind: 'swap', terminals: [a, b] }];
    }),
  );
  return [...moves, ...swaps];
}
