/**
 * A change of a pickup written as a later state of it. What was read from hot to ground was read over the joints of its day: where they
 * change, the block as it stands stays as a record under another name, and the change is stated in one that reworks it.
 */
import { statesOf } from '../model/life.ts';
import type { AnyBlock } from '../model/merged-block.ts';
import { jointOf, leadTexts, type Pickup } from '../model/pickup.ts';
import { samePlace } from '../model/place.ts';
import type { ReadingOf } from '../model/readings.ts';
import type { Wording } from '../words/languages/language.ts';
import { replaceAt, rewriteJoint } from './edits.ts';
import type { Edit } from './finding.ts';
import { type ChangedFact, changedFacts, pickupBlock } from './own-edits.ts';

/** A kick read at hot or ground says another thing over other joints. */
export const isOverHookup = ({ probes: { red, black } }: ReadingOf<'kick'>): boolean =>
  [red, black].some(({ text }) => text === 'hot' || text === 'ground');

/** True where a kick was read so. */
export const isReadOverHookup = ({ readings }: Pickup): boolean =>
  readings.some(({ lines }) => lines.some((line) => line.kind === 'kick' && isOverHookup(line)));

/** A name for the record that nothing in sight has. */
function formerName(pickup: Pickup, inSight: readonly Pickup[]): string {
  const taken = new Set([...inSight, ...statesOf(pickup)].map(({ name }) => name));
  const plain = `${pickup.name}-before`;
  for (let count = 1; ; count++) {
    const name = count === 1 ? plain : `${plain}-${count}`;
    if (!taken.has(name)) return name;
  }
}

/**
 * The pickup changed by these edits, the state before it kept as a record. Those that are made like it were not worked on, and stay like
 * the record; what reworks it or fits it means the pickup, which keeps its name.
 */
export function asLaterState(
  pickup: Pickup,
  edits: readonly Edit[],
  inSight: readonly Pickup[],
): readonly Edit[] | undefined {
  const facts = factsChanged(edits);
  if (!facts?.every(({ after }) => after.length > 0)) return undefined;
  const former = formerName(pickup, inSight);
  const likes = inSight.flatMap(({ written: { node, place } }) => {
    const { word, name } = node.like ?? {};
    return word === 'like' && name?.text === pickup.name
      ? [replaceAt({ chunk: place.chunk, span: name.span }, former)]
      : [];
  });
  return [replaceAt(pickup.written.namePlace, former), ...likes, appended(pickup, former, facts, linesAfter)];
}

/** True of edits that leave the pickup's text as a record under another name. */
export const leavesRecord = ({ written: { namePlace } }: Pickup, edits: readonly Edit[]): boolean =>
  edits.some(({ place }) => samePlace(place, namePlace));

/** Poles that are changed were turned over: said so, what was read of them before still counts. */
const linesAfter = ({ field, after }: ChangedFact): readonly string[] =>
  field === 'magnet' || field === 'polarity'
    ? after.map((line) => `${line.replace(/\s*,\s*(?:kept|turned|new)$/, '')}, turned`)
    : after;

/** Hot and ground exchanged; a shield that lies beside them on ground stays there. */
export function swapHotAndGround(pickup: Pickup): readonly Edit[] | undefined {
  const [hot, ground] = [jointOf(pickup, 'hot'), jointOf(pickup, 'ground')];
  if (!hot || !ground) return undefined;
  const onGround = leadTexts(ground);
  const shield = onGround.filter((text) => onGround.length > 1 && text === pickup.shield?.value);
  const others = onGround.filter((text) => !shield.includes(text));
  return [rewriteJoint(hot, others), rewriteJoint(ground, [...leadTexts(hot), ...shield])];
}

/** Hot and ground were swapped in place since they were read: the state that was read is kept as a record. */
export function asSwappedSince(pickup: Pickup, inSight: readonly Pickup[]): readonly Edit[] | undefined {
  const undo = swapHotAndGround(pickup);
  return undo && asChangedSince(pickup, undo, inSight);
}

export const swappedSinceWords =
  (name: string): Wording =>
  (t) =>
    t(
      'Hot and ground of {0} were swapped after its kick was read: keep the state that it was read in as a record',
      name,
    );

/** The text says the pickup as it is now, changed in place since it was read: these edits of its own text undo that for the record. */
function asChangedSince(
  pickup: Pickup,
  undo: readonly Edit[],
  inSight: readonly Pickup[],
): readonly Edit[] | undefined {
  const facts = factsChanged(undo);
  const isOwn = undo.every(({ place }) => place.chunk === pickup.place.chunk);
  if (!isOwn || !facts?.every(({ before }) => before.length > 0)) return undefined;
  const former = formerName(pickup, inSight);
  return [
    replaceAt(pickup.written.namePlace, former),
    ...undo,
    appended(pickup, former, facts, ({ before }) => before),
  ];
}

function factsChanged(edits: readonly Edit[]): readonly ChangedFact[] | undefined {
  const chunks = [...new Set(edits.map(({ place }) => place.chunk))];
  const changed = chunks.map((chunk) => (pickupBlock(chunk) ? changedFacts(chunk, edits) : undefined));
  return changed.every((each) => each !== undefined) ? changed.flatMap((each) => each ?? []) : undefined;
}

function appended(
  pickup: Pickup,
  former: string,
  facts: readonly ChangedFact[],
  linesOf: (fact: ChangedFact) => readonly string[],
): Edit {
  const { chunk, span } = pickup.written.extent;
  const inner = new Map<string, string[]>();
  const own: string[] = [];
  for (const fact of facts) {
    const head = headOf(fact.at);
    if (fact.at.keyword === 'pickup') own.push(...linesOf(fact).map((line) => `  ${line}`));
    else inner.set(head, [...(inner.get(head) ?? []), ...linesOf(fact).map((line) => `    ${line}`)]);
  }
  const blocks = [...inner].flatMap(([head, lines]) => [`  ${head} {`, ...lines, '  }']);
  const text = [`pickup ${pickup.name} reworks ${former} {`, ...own, ...blocks, '}'].join('\n');
  return { place: { chunk, span: { start: span.end, end: span.end } }, newText: `\n\n${text}` };
}

const headOf = ({ keyword, name }: AnyBlock): string => [keyword, name].filter(Boolean).join(' ');
