/**
 * What to solder to the switches of an instrument so that its positions do what they ask for: written into the text and analysed as a
 * whole before it is told; on the switch that it names, else on the smallest one of the shelf; or what stands in the way.
 */
import type { BlockNode } from '../../../grammar/src/syntax-tree.ts';
import { attached } from '../../../grammar/values/attached.ts';
import type { Analysis, InstrumentAnalysis } from '../analysis/analysis-types.ts';
import type { Edit } from '../checks/finding.ts';
import { wiredStates } from '../estimates/switch-states.ts';
import {
  type Impossible,
  planWiring,
  type WiringPlan,
  type WiringTask,
  whyNoWiring,
  wiringTask,
} from '../estimates/wiring-plan.ts';
import type { Instrument } from '../model/instrument.ts';
import type { Switch } from '../model/switch.ts';
import type { Steps } from '../physics/switching/steps.ts';
import { wiringLines } from '../words/wiring-words.ts';

export interface WiringProposal {
  readonly plan: WiringPlan;
  /** The part from the shelf, where the instrument names none. */
  readonly taken: Switch | undefined;
  /** As the spec says it. */
  readonly lines: readonly string[];
  readonly edit: Edit;
}

/** A switch of the shelf, and what a wiring on it takes. */
export interface OtherSwitch {
  readonly part: Switch;
  /** In whose place, by its number in the instrument. */
  readonly index: number;
  /** Its name, where the instrument has several. */
  readonly slot: string | undefined;
  readonly wires: number;
}

export type WiringAnswer =
  | { readonly kind: 'proposal'; readonly proposal: WiringProposal }
  | {
      readonly kind: 'impossible';
      readonly why: Impossible;
      /** Switches of the shelf that can, the fewest lugs first. */
      readonly others: readonly OtherSwitch[];
      /** Wires, if dead coils may hang on hot. */
      readonly looseWires: number | undefined;
    }
  /** The search came to its end before it had either. */
  | { readonly kind: 'ended' }
  /** `reason` as a sentence goes on: `quorl: …`. */
  | { readonly kind: 'not planned'; readonly reason: string };

export interface WiringWish {
  /** No dead coil hangs on hot by one end. */
  readonly isQuiet: boolean;
  /** How often the search looks around, at most: some 0.7 ms each. */
  readonly searches: number;
}

export const SEARCHES = 15_000;

/**
 * For an editor: no coil left on hot, and what was found once is known as long as neither the instrument nor the shelf changes. In steps,
 * since it may take long.
 */
export function* wiringFor(analysis: Analysis, instrument: InstrumentAnalysis): Steps<WiringAnswer> {
  const { written } = instrument;
  const shelf = bySize(analysis.namesInScope('switch'));
  const known = answers.get(written);
  if (known?.shelf.length === shelf.length && shelf.every((part, index) => part === known.shelf[index]))
    return known.answer;
  const answer = yield* proposeWiring(analysis, instrument, { isQuiet: true, searches: SEARCHES });
  answers.set(written, { shelf, answer });
  return answer;
}

const answers = attached<Instrument, { readonly shelf: readonly Switch[]; readonly answer: WiringAnswer }>();

/** Whether there is something to plan: positions, a switch for them, and no wiring that does what all of them ask for. */
export function isUnwired(analysis: Analysis, { written }: InstrumentAnalysis): boolean {
  if (written.positions.length === 0) return false;
  if (written.switches.length === 0 && analysis.namesInScope('switch').length === 0) return false;
  return !written.wiring || (wiredStates(written)?.positions ?? []).some(({ verdict }) => verdict === 'differs');
}

/** In steps, since it may take long. */
export function* proposeWiring(
  analysis: Analysis,
  { written }: InstrumentAnalysis,
  wish: WiringWish,
): Steps<WiringAnswer> {
  if (written.switches.length > 0) return yield* onItsOwn(analysis, written, wish);
  const shelf = bySize(analysis.namesInScope('switch'));
  if (shelf.length === 0)
    return { kind: 'not planned', reason: 'it names no switch, and the files that it uses declare none' };
  for (const part of shelf) {
    const fitted = withSwitch(written, part);
    const answer = yield* planned(fitted, wish);
    if (answer.kind !== 'plan') continue;
    const proposal = proposalOf(analysis, written, { plan: answer.plan, taken: part });
    if (proposal) return { kind: 'proposal', proposal };
  }
  return {
    kind: 'not planned',
    reason: `no switch of the shelf does all its positions (${shelf.map(({ name }) => name).join(', ')})`,
  };
}

function* onItsOwn(analysis: Analysis, written: Instrument, wish: WiringWish): Steps<WiringAnswer> {
  const answer = yield* planned(written, wish);
  if (answer.kind === 'plan') {
    const proposal = proposalOf(analysis, written, { plan: answer.plan, taken: undefined });
    return proposal
      ? { kind: 'proposal', proposal }
      : { kind: 'not planned', reason: 'the wiring that was found reads otherwise once it is written' };
  }
  if (answer.kind !== 'impossible') return answer;
  const others = yield* inPlaceOfOne(bySize(analysis.namesInScope('switch')), written, wish);
  const loose = wish.isQuiet ? yield* planned(written, { ...wish, isQuiet: false }) : undefined;
  return {
    kind: 'impossible',
    why: yield* whyNoWiring(answer.task, wish.searches),
    others,
    looseWires: loose?.kind === 'plan' ? loose.plan.wires : undefined,
  };
}

/** Each of the shelf in the place of each own one; where there are several, with a short search each, and the first of each place. */
function* inPlaceOfOne(shelf: readonly Switch[], written: Instrument, wish: WiringWish): Steps<readonly OtherSwitch[]> {
  const areSeveral = written.switches.length > 1;
  const searches = areSeveral ? Math.min(wish.searches, SHORT_SEARCH) : wish.searches;
  const own = new Set(written.switches.map(({ part }) => part));
  const others: OtherSwitch[] = [];
  for (const [index, { name, part: taken }] of written.switches.entries())
    for (const part of shelf) {
      if (areSeveral ? part === taken : own.has(part)) continue;
      const other = yield* planned(withSwitch(written, part, index), { ...wish, searches });
      if (other.kind !== 'plan') continue;
      others.push({ part, index, slot: areSeveral ? name : undefined, wires: other.plan.wires });
      if (areSeveral) break;
    }
  return others;
}

/** For each of many combinations: half a second at most. */
const SHORT_SEARCH = 600;

type PlannedOrNot =
  | { readonly kind: 'plan'; readonly plan: WiringPlan }
  | { readonly kind: 'impossible'; readonly task: WiringTask }
  | { readonly kind: 'ended' }
  | { readonly kind: 'not planned'; readonly reason: string };

function* planned(instrument: Instrument, { isQuiet, searches }: WiringWish): Steps<PlannedOrNot> {
  const task = wiringTask(instrument, isQuiet);
  if (typeof task === 'string') return { kind: 'not planned', reason: task };
  const answer = yield* planWiring(task, searches);
  if (answer.kind === 'impossible') return { kind: 'impossible', task };
  return answer.kind === 'unknown' ? { kind: 'ended' } : answer;
}

const bySize = (parts: readonly Switch[]): readonly Switch[] =>
  [...parts].sort((a, b) => a.lugs.length - b.lugs.length || (a.name < b.name ? -1 : 1));

/** In the place of one of its switches, or as its first. */
function withSwitch(instrument: Instrument, part: Switch, index = 0): Instrument {
  const { name, on } = instrument.switches[index] ?? { name: NEW_SLOT, on: undefined };
  const { place } = instrument;
  const fitted = { name, part, partName: { value: part.name, place }, on, place };
  return { ...instrument, switches: [...instrument.switches].toSpliced(index, 1, fitted) };
}

const NEW_SLOT = 'lever';

/** Once it is written every position does what it asks for. */
function proposalOf(
  analysis: Analysis,
  written: Instrument,
  { plan, taken }: Pick<WiringProposal, 'plan' | 'taken'>,
): WiringProposal | undefined {
  const lines = wiringLines(plan);
  const edit =
    written.place.chunk.content?.kind === 'block'
      ? editOf(written, written.place.chunk.content, lines, taken)
      : undefined;
  const after = edit && analysis.edited([edit]);
  const states = after?.instruments.find((each) => each.written.name === written.name);
  const wired = states && wiredStates(states.written);
  const isRight =
    wired?.positions.length === written.positions.length &&
    wired.positions.every(({ verdict }) => verdict === 'as asked');
  return edit && isRight ? { plan, taken, lines, edit } : undefined;
}

/** In the place of a wiring that stands there, else before the selector. */
function editOf(
  written: Instrument,
  block: BlockNode,
  lines: readonly string[],
  taken: Switch | undefined,
): Edit | undefined {
  const { chunk } = written.place;
  const inner = (keyword: string) => block.body.find((each) => each.kind === 'block' && each.keyword.text === keyword);
  const text = ['wiring {', ...lines.map((line) => `    ${line}`), '  }'].join('\n');
  const fitted = taken ? `switch ${NEW_SLOT} ${taken.name}\n\n  ` : '';
  const old = inner('wiring');
  if (old) return { place: { chunk, span: old.span }, newText: `${fitted}${text}` };
  const selector = inner('selector');
  const at = selector?.span.start;
  return at === undefined
    ? undefined
    : { place: { chunk, span: { start: at, end: at } }, newText: `${fitted}${text}\n\n  ` };
}
