/** Where the wiring of an instrument's switches is wrong: the positions that do something else, and the one end to move, where there is one. */

import { attached } from '../../../grammar/values/attached.ts';
import type { Some } from '../../../grammar/values/present.ts';
import { onceFor } from '../../../grammar/values/remember.ts';
import { askedTexts } from '../estimates/selection-network.ts';
import { type WiredPosition, type WiredStates, wiredStates } from '../estimates/switch-states.ts';
import type { Instrument } from '../model/instrument.ts';
import { JoinedNodes } from '../model/joined-nodes.ts';
import type { Place } from '../model/place.ts';
import { solderedNets } from '../model/soldered.ts';
import { JACK_TERMINAL, type Wiring, type WiringLine, type WrittenTerminal } from '../model/wiring.ts';
import {
  betterChanges,
  type Change,
  rightingChanges,
  rightingPairs,
  type Wanted,
  wrongAmong,
} from '../physics/switching/changes.ts';
import { numberedRig, unusedLugs } from '../physics/switching/meaning.ts';
import { GROUND, HOT, type Rig } from '../physics/switching/rig.ts';
import { finished, type Steps } from '../physics/switching/steps.ts';
import { selectionWords } from '../words/selections.ts';
import { capital, list } from '../words/text.ts';
import type { Found } from './check.ts';
import type { Edit, Remedy } from './finding.ts';
import type { InstrumentCheck, InstrumentContext } from './instrument-check.ts';
import { remedy } from './remedy.ts';
import { type Said, say } from './say.ts';
import { wiringEdits, without } from './wiring-edits.ts';

export type FaultCode = 'switch/position-differs' | 'switch/silent' | 'switch/hot-shorted';

/** A wiring that does something else than is asked: what else is odd about it may only follow from that. */
export const WRONG_WIRING = [
  'switch/lug-serves-two',
  'switch/position-differs',
  'switch/hot-shorted',
  'switch/silent',
] as const;

interface SwitchFault {
  readonly wrong: readonly WiredPosition[];
  /** Single changes after which every position is right, what a person would do first before others. */
  readonly changes: readonly Change[];
  /** There are so many ends that they are looked through once nobody types. */
  readonly isPutOff: boolean;
}

type FaultCheck<C extends FaultCode> = Omit<InstrumentCheck<C, never>, 'yieldsTo' | 'severity'>;

/** The check of one of the three codes: one end that makes positions sound otherwise, silent, or lie on ground. */
export const faultCheck = <C extends FaultCode>(code: C): FaultCheck<C> => ({
  code,
  run: ({ switching, written }) => {
    const fault = switching && switchFault(switching, written);
    const [change] = fault?.changes ?? [];
    const twice = switching && fault && isLessLikely(change, switching, written) && joinedTwice(switching, written);
    if (twice) return codeOfAll(fault.wrong) === code ? [foundTwice(fault.wrong, twice)] : [];
    return fault && change && codeOfAll(fault.wrong) === code
      ? [foundAtEnds(fault.wrong, fault.changes.map(alone), written)]
      : [];
  },
});

/** The same where it takes longer: among many ends, or two ends at once; what none of that explains stands at the positions. */
export const lateFaultCheck = <C extends FaultCode>(code: C): FaultCheck<C> & { readonly late: true } => ({
  code,
  late: true,
  run: ({ switching, written }) => {
    const fault = switching && switchFault(switching, written);
    if (!switching || !fault || fault.changes.length > 0) return [];
    const { wrong } = fault;
    const ways = waysToRight(switching, written, fault.isPutOff);
    if (ways.length > 0) return codeOfAll(wrong) === code ? [foundAtEnds(wrong, ways, written)] : [];
    return wrong.filter((each) => codeOf(each) === code).map(foundAtPosition);
  },
});

/** Remembered: seven checks ask. */
export const switchFault = onceFor((switching: WiredStates, instrument: Instrument): SwitchFault => {
  const wrong = switching.positions.filter(({ verdict }) => verdict === 'differs');
  const isPutOff = movableIn(switching, instrument).length > MOST_AT_ONCE;
  const isSought = wrong.length > 0 && !isPutOff;
  return { wrong, changes: isSought ? changesToRight(switching, instrument, isTurned) : [], isPutOff };
});

/** An end in a line that it should not stand in, beside one that it should. */
interface JoinedTwice {
  readonly at: WrittenTerminal;
  readonly line: WiringLine;
}

/** More than taking an end off, or soldering one that lies on nothing. */
const isLessLikely = (change: Change | undefined, { numbered }: WiredStates, instrument: Instrument): boolean =>
  change !== undefined && rankIn(numbered.rig, instrument)(change) > 1;

/** The first end of those named in two lines without which, in one of them, every position does what it asks for. */
function joinedTwice({ numbered: { rig }, positions }: WiredStates, { wiring }: Instrument): JoinedTwice | undefined {
  if (!wiring) return undefined;
  const wanted = wantedOf(positions);
  const ends = wiring.lines.flatMap((line) =>
    line.kind === 'free' ? [] : line.terminals.map((at): JoinedTwice => ({ at, line })),
  );
  return ends
    .filter(({ at }) => ends.filter((other) => other.at.name === at.name).length > 1)
    .find(({ at, line }) => {
      const less = { ...line, terminals: line.terminals.filter((each) => each !== at) };
      const lines = wiring.lines.map((each) => (each === line ? less : each));
      return wrongAmong(numberedRig({ ...rig, links: solderedNets({ ...wiring, lines }) }), wanted).length === 0;
    });
}

function foundTwice(wrong: readonly WiredPosition[], { at, line }: JoinedTwice): Found {
  const order = say`Take ${code(at.name)} out of the line ${code(line.kind)}`;
  return {
    what: whatOf(wrong),
    hint: say`${code(at.name)} is soldered to two nets and joins them; to one of them it does not belong.`,
    action: say`${order}.`,
    place: at.path.place,
    related: wrong.map(({ position }) => ({
      message: say`what position ${position.key.value} should do`,
      place: position.place,
    })),
    remedies: () => remedy(order, [without(line, at)], true),
    subject: { nodes: [at.name] },
  };
}

/** What puts all positions right: one change, or one after the other. */
type Way = readonly Change[];

const alone = (change: Change): Way => [change];

/** By one change where that was put off, else by two; the likeliest first. */
function waysToRight(switching: WiredStates, instrument: Instrument, isPutOff: boolean): readonly Way[] {
  finished(findingWays(switching, instrument, isPutOff));
  return foundWays.get(switching) ?? [];
}

/** Remembered: three checks ask. */
const foundWays = attached<WiredStates, readonly Way[]>();

/** What the late checks rest on, in steps: it is known afterwards. */
export function* searchingWays(instrument: Instrument): Steps<void> {
  const switching = wiredStates(instrument);
  const fault = switching && switchFault(switching, instrument);
  if (switching && fault && fault.wrong.length > 0 && fault.changes.length === 0)
    yield* findingWays(switching, instrument, fault.isPutOff);
}

function* findingWays(switching: WiredStates, instrument: Instrument, isPutOff: boolean): Steps<void> {
  if (!foundWays.get(switching)) foundWays.set(switching, yield* waysOf(switching, instrument, isPutOff));
}

function* waysOf(switching: WiredStates, instrument: Instrument, isPutOff: boolean): Steps<readonly Way[]> {
  const single = isPutOff ? changesToRight(switching, instrument, isTurned) : [];
  const movable = movableIn(switching, instrument);
  if (single.length > 0 || isPutOff || switching.positions.length < 2) return single.map(alone);
  const { rig } = switching.numbered;
  const rank = rankIn(rig, instrument);
  const rankOf = (way: Way) => way.reduce((sum, change) => sum + rank(change), 0);
  const pairs = yield* rightingPairs(rig, wantedOf(switching.positions), movable, MOST_FIRST);
  // Which of the two is made first comes to the same.
  const byBoth = new Map(
    pairs.map((pair) => [
      pair
        .map((each) => JSON.stringify(each))
        .sort()
        .join(),
      pair,
    ]),
  );
  return [...byBoth.values()].sort((x, y) => rankOf(x) - rankOf(y));
}

/** So many first changes of two are followed: a tenth of a second or so. */
const MOST_FIRST = 12;
/** Beyond so many ends a keystroke would wait for the search. */
const MOST_AT_ONCE = 48;
/** Pairs are tried one by one: beyond so many ends what is wrong is told at the positions. */
const MOST_MOVABLE = 96;

/** What positions ask for, of those of which it is known; those that are left so may stay turned over. */
export const wantedOf = (positions: readonly WiredPosition[], isLeft = isTurned): readonly Wanted[] =>
  positions.flatMap((each) => {
    if (!each.asked) return [];
    const { text, turnedText } = askedTexts(each.asked);
    return [{ state: each.state, texts: new Set(isLeft(each) ? [text, turnedText] : [text]) }];
  });

const isTurned = ({ verdict }: WiredPosition): boolean => verdict === 'turned';

/** Single changes after which every position does what it asks for, the likeliest first; those that are left so may stay turned over. */
export function changesToRight(
  switching: WiredStates,
  instrument: Instrument,
  isLeft: (position: WiredPosition) => boolean,
): readonly Change[] {
  const { rig } = switching.numbered;
  const wanted = wantedOf(switching.positions, isLeft);
  return likeliest(switching, instrument, (movable) => rightingChanges(rig, wanted, movable));
}

/** Single changes after which every position sounds as it does, and what is soldered is better by some other measure. */
export function changesForBetter(
  switching: WiredStates,
  isBetter: (links: Rig['links']) => boolean,
): readonly Change[] {
  const { rig } = switching.numbered;
  const wanted = switching.positions.map(({ state, meaning }) => ({ state, texts: new Set([meaning.text]) }));
  return likeliest(switching, switching.instrument, (movable) => betterChanges(rig, wanted, movable, isBetter));
}

/** Without those that come to taking an end off, what a person would do first before others. */
function likeliest(
  switching: WiredStates,
  instrument: Instrument,
  changesOf: (movable: readonly string[]) => readonly Change[],
): readonly Change[] {
  const { rig } = switching.numbered;
  const free = new Set(unusedLugs(rig));
  const movable = movableIn(switching, instrument);
  if (movable.length > MOST_MOVABLE) return [];
  const all = changesOf(movable);
  const takenOff = new Set(
    all.flatMap((change) => (change.kind === 'move' && change.to === 'nothing' ? [change.terminal] : [])),
  );
  const changes = all.filter((change) => !goesNowhere(change, free, takenOff));
  const rank = rankIn(rig, instrument);
  return [...changes].sort((x, y) => rank(x) - rank(y));
}

/** An end that could as well be taken off, and goes to a lug that nothing is on: told once, as taken off. */
function goesNowhere(change: Change, free: ReadonlySet<string>, takenOff: ReadonlySet<string>): boolean {
  const isFree = (terminal: string) => free.has(terminal);
  if (change.kind === 'swap')
    return change.terminals.some(isFree) && change.terminals.some((each) => takenOff.has(each));
  return change.to !== 'nothing' && change.to.every(isFree) && takenOff.has(change.terminal);
}

/**
 * What is done first: two lugs of one control exchanged, a wire taken off, a forgotten end soldered, two exchanged, then an end moved
 * elsewhere; hot and ground last. A control's lug that is left empty is no repair by itself, nor is a jack.
 */
function rankIn({ links }: Rig, { controls }: Instrument): (change: Change) => number {
  const soldered = new Set(links.flat());
  const controlOf = (terminal: string) => controls.find(({ name }) => name && terminal.startsWith(`${name}.`));
  return (change) => {
    const ends = endsOf(change);
    const isCommon = ends.some((terminal) => terminal === HOT || terminal === GROUND) ? 10 : 0;
    if (change.kind === 'swap') {
      const [one, other] = change.terminals.map(controlOf);
      return one !== undefined && one === other ? -1 : 2 + isCommon;
    }
    if (change.to === 'nothing') return change.terminal === JACK_TERMINAL || controlOf(change.terminal) ? 4 : isCommon;
    return (soldered.has(change.terminal) ? 3 : 1) + isCommon;
  };
}

/** Leads with a coil behind them, then lugs, then hot and ground themselves. */
function movableIn({ numbered: { rig } }: WiredStates, { wiring, slots }: Instrument): readonly string[] {
  const lugs = rig.switches.flatMap(({ slot, contacts }) => contacts.lugs.map((lug) => `${slot}.${lug}`));
  const points = new Set(rig.elements.flatMap(({ ends }) => ends));
  const owners = new Set(slots.map(({ name }) => name));
  const leads = rig.fixed.flatMap((net) =>
    net.some((each) => points.has(each)) ? net.filter((each) => owners.has(each.split('.')[0] ?? '')) : [],
  );
  const named = new Set(wiring?.lines.flatMap(({ terminals }) => terminals.map(({ name }) => name)));
  const outside = leads.filter((lead) => named.has(lead) || lead.split('.').length === 2);
  const isHeld = heldInside(rig);
  return [...new Set([...outside, ...named, ...lugs, HOT, GROUND])].filter((terminal) => !isHeld(terminal));
}

/** Of two leads that are one inside the pickup and lie on one net, neither can be moved alone: the other holds it. */
function heldInside({ fixed, links }: Rig): (terminal: string) => boolean {
  const inside = new JoinedNodes();
  for (const [first, ...rest] of fixed) for (const each of rest) if (first !== undefined) inside.unite(first, each);
  return (terminal) =>
    (links.find((net) => net.includes(terminal)) ?? []).some(
      (other) => other !== terminal && inside.has(other) && inside.root(other) === inside.root(terminal),
    );
}

const codeOf = ({ meaning: { fault } }: WiredPosition): FaultCode =>
  fault === 'open' ? 'switch/silent' : fault === 'shorted' ? 'switch/hot-shorted' : 'switch/position-differs';

function codeOfAll(wrong: readonly WiredPosition[]): FaultCode {
  const codes = new Set(wrong.map(codeOf));
  const [only] = codes;
  return codes.size === 1 && only ? only : 'switch/position-differs';
}

function foundAtPosition(each: WiredPosition): Found {
  const { position } = each;
  return {
    what: say`${capital(say`position ${position.key.value}`)} ${doesWords(each)}.`,
    hint: say`No single end moved, no two exchanged, and no two such changes were found to put all positions right.`,
    action: say`Compare the joints of this position with what it should join.`,
    place: position.place,
    subject: { position: position.key.value },
  };
}

/** What the positions do that are wrong. */
function whatOf(wrong: readonly WiredPosition[]): Said {
  const keys = wrong.map(({ position }) => position.key.value);
  const [first] = wrong;
  return first && wrong.length === 1
    ? say`Position ${first.position.key.value} ${doesWords(first)}.`
    : say`Positions ${list(keys)} do something else: ${wrong
        .slice(0, MOST_TOLD)
        .map((each) => say`${each.position.key.value} ${doesWords(each)}`)
        .join('; ')}.`;
}

/** `ways`: what puts all right, one change or one after the other; the first is told. */
function foundAtEnds(wrong: readonly WiredPosition[], ways: readonly Way[], instrument: Instrument): Found {
  const { wiring, place } = instrument;
  const [steps = []] = ways;
  const [first] = wrong;
  const ends = steps.flatMap(endsOf);
  const writtenOf = (terminals: readonly string[]) =>
    [...new Set(terminals)].flatMap((terminal) => writtenAt(wiring, terminal));
  // An end that no line names yet is told where it will be written.
  const written = [writtenOf(ends), steps.flatMap((each) => writtenOf(goalOf(each)).slice(0, 1))]
    .reduce((own, goal) => (own.length > 0 ? own : goal))
    .sort((x, y) => x.path.place.span.start - y.path.place.span.start);
  const causes = steps.map((each) => causeWords(each, instrument));
  return {
    what: whatOf(wrong),
    hint: steps.length > 1 ? say`Two ends are wrong. ${causes.join(' ')}` : say`${causes.join(' ')}`,
    action: say`${steps.map((each) => (steps.length > 1 ? say`${titleWords(each, wiring)}.` : orderWords(each, wiring))).join(' ')}`,
    place: written[0]?.path.place ?? first?.position.place ?? place,
    related: [
      ...written.slice(1).map(({ name, path }) => ({ message: say`${name}`, place: path.place })),
      ...(written.length > 0 ? wrong : wrong.slice(1)).map(({ position }) => ({
        message: say`what position ${position.key.value} should do`,
        place: position.place,
      })),
    ],
    remedies: () => remediesOfWays(ways, instrument),
    subject: { nodes: ends },
  };
}

/** Where a change brings its end. */
const goalOf = (change: Change): readonly string[] =>
  change.kind === 'swap' || change.to === 'nothing' ? [] : change.to;

const endsOf = (change: Change): readonly string[] => (change.kind === 'swap' ? change.terminals : [change.terminal]);

/** The first of the changes, as edits of the wiring. */
export const remediesOf = (changes: readonly Change[], instrument: Instrument): Some<Remedy> =>
  remediesOfWays(
    changes.map((change) => [change]),
    instrument,
  );

const remediesOfWays = (ways: readonly Way[], { wiring }: Instrument): Some<Remedy> =>
  ways.slice(0, MOST_REMEDIES).map((way, index) => {
    const edits = wiring && editsOf(wiring, way);
    const [title = '', ...more] = way.map((each) => titleWords(each, wiring));
    const also = more.map((each) => say`, ${each.charAt(0).toLowerCase()}${each.slice(1)}`).join('');
    return edits && remedy(say`${title}${also}`, edits, index === 0);
  });

/** Both changes of the lines at once; `undefined` where they are of the same words. */
function editsOf(wiring: Wiring, way: Way): readonly Edit[] | undefined {
  const moved = new Set(way.slice(0, -1).flatMap(endsOf));
  const edits = way.map((change, index) => wiringEdits(wiring, index > 0 ? besides(change, moved) : change));
  const all = edits.flatMap((each) => each ?? []);
  const ordered = [...all].sort((a, b) => a.place.span.start - b.place.span.start);
  const isApart = ordered.every(({ place }, index) => (ordered[index - 1]?.place.span.end ?? 0) <= place.span.start);
  return isApart && edits.every((each) => each !== undefined) ? all : undefined;
}

/** In the text the ends that the change before moves still stand where they stood. */
const besides = (change: Change, moved: ReadonlySet<string>): Change =>
  change.kind === 'swap' || change.to === 'nothing'
    ? change
    : { ...change, to: change.to.filter((terminal) => !moved.has(terminal)) };

const MOST_TOLD = 3;
const MOST_REMEDIES = 3;

/** `gives neck, not middle`, `is silent`, `lies on ground`. */
function doesWords({ meaning, sounds, soldered, position }: WiredPosition): Said {
  const wanted = position.selection ? selectionWords(position.selection) : '';
  if (meaning.fault === 'open') return say`is silent in place of ${wanted}`;
  if (meaning.fault === 'shorted') return say`is silent in place of ${wanted}: hot lies on ground`;
  if (sounds) return say`gives ${selectionWords(sounds)}, not ${wanted}`;
  return say`gives what the selector has no word for (${selectionWords(soldered)}), not ${wanted}`;
}

function causeWords(change: Change, { wiring }: Instrument): Said {
  if (change.kind === 'swap')
    return say`${code(change.terminals[0])} and ${code(change.terminals[1])} lie on each other's places.`;
  const { terminal, to } = change;
  const isJoined = isSoldered(wiring, terminal) || terminal === HOT || terminal === GROUND;
  if (to === 'nothing') return say`${code(terminal)} is soldered to what it does not belong to.`;
  return isJoined
    ? say`${code(terminal)} belongs elsewhere: ${withWords(to)}.`
    : say`${code(terminal)} is joined to nothing; it belongs ${withWords(to)}.`;
}

const orderWords = (change: Change, wiring: Wiring | undefined): Said =>
  change.kind === 'swap' ? say`Exchange the two.` : say`${titleWords(change, wiring)}.`;

function titleWords(change: Change, wiring: Wiring | undefined): Said {
  if (change.kind === 'swap') return say`Exchange ${code(change.terminals[0])} and ${code(change.terminals[1])}`;
  const { terminal, to } = change;
  if (to === 'nothing') return say`Take ${code(terminal)} off`;
  const verb = isSoldered(wiring, terminal) || terminal === HOT || terminal === GROUND ? 'Move' : 'Solder';
  return say`${verb} ${code(terminal)} ${withWords(to)}`;
}

const isSoldered = (wiring: Wiring | undefined, terminal: string): boolean =>
  (wiring?.lines ?? []).some(
    ({ kind, terminals }) => kind !== 'free' && terminals.some(({ name }) => name === terminal),
  );

/** `to ground`, `to hot`, `to the others with lever.a1`. */
function withWords(to: readonly string[]): Said {
  if (to.includes(GROUND)) return say`to ground`;
  if (to.includes(HOT)) return say`to hot`;
  return say`to ${code(to[0] ?? '')}`;
}

/** `on ground`, `on nothing`, `with lever.a1`. */
export function onWords(on: readonly string[] | 'nothing'): Said {
  if (on === 'nothing') return say`on nothing`;
  if (on.includes(GROUND)) return say`on ground`;
  return on.includes(HOT) ? say`on hot` : say`with ${code(on[0] ?? '')}`;
}

const code = (terminal: string): Said => say`\`${terminal}\``;

/** Where the wiring names a terminal. */
export const writtenAt = (wiring: Wiring | undefined, terminal: string): readonly WrittenTerminal[] =>
  (wiring?.lines ?? []).flatMap(({ terminals }) => terminals.filter(({ name }) => name === terminal));

/** The place of a terminal in the wiring, else of the wiring. */
export const terminalPlace = ({ written }: InstrumentContext, terminal: string): Place =>
  writtenAt(written.wiring, terminal)[0]?.path.place ?? written.wiring?.place ?? written.place;
