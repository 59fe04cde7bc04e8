/**
 * A change of a pickup written as a later state of it. What was read from hot to ground was read over the joints of its day: where they
 * change, the block as it stands stays as a record under another name, and the change is stated in one that reworks it.
 */
import type { AnyBlock } from '../model/merged-block.ts';
import type { Pickup } from '../model/pickup.ts';
import { replaceAt } from './edits.ts';
import type { Edit } from './finding.ts';
import { type ChangedFact, changedFacts, pickupBlock } from './own-edits.ts';

/** True where a kick was read at hot or ground, so that it says another thing over other joints. */
export const isReadOverHookup = ({ readings }: Pickup): boolean =>
  readings.some(({ lines }) =>
    lines.some(
      (line) =>
        line.kind === 'kick' &&
        [line.probes.red, line.probes.black].some(({ text }) => text === 'hot' || text === 'ground'),
    ),
  );

export const formerName = ({ name }: Pickup): string => `${name}-before`;

/** The pickup changed by these edits, the state before it kept as a record. */
export function asLaterState(pickup: Pickup, edits: readonly Edit[]): readonly Edit[] | undefined {
  const facts = factsChanged(edits);
  if (!facts?.every(({ after }) => after.length > 0)) return undefined;
  return [nameFormer(pickup), appended(pickup, facts, linesAfter)];
}

/** Poles that are changed were turned over: said so, what was read of them before still counts. */
const linesAfter = ({ field, after }: ChangedFact): readonly string[] =>
  field === 'magnet' || field === 'polarity'
    ? after.map((line) => `${line.replace(/\s*,\s*(?:kept|turned|new)$/, '')}, turned`)
    : after;

/** The text says the pickup as it is now, changed in place since it was read: these edits of its own text undo that for the record. */
export function asChangedSince(pickup: Pickup, undo: readonly Edit[]): readonly Edit[] | undefined {
  const facts = factsChanged(undo);
  const isOwn = undo.every(({ place }) => place.chunk === pickup.place.chunk);
  if (!isOwn || !facts?.every(({ before }) => before.length > 0)) return undefined;
  return [nameFormer(pickup), ...undo, appended(pickup, facts, ({ before }) => before)];
}

function factsChanged(edits: readonly Edit[]): readonly ChangedFact[] | undefined {
  const chunks = [...new Set(edits.map(({ place }) => place.chunk))];
  const changed = chunks.map((chunk) => (pickupBlock(chunk) ? changedFacts(chunk, edits) : undefined));
  return changed.every((each) => each !== undefined) ? changed.flatMap((each) => each ?? []) : undefined;
}

const nameFormer = (pickup: Pickup): Edit => replaceAt(pickup.written.namePlace, formerName(pickup));

function appended(
  pickup: Pickup,
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
  const text = [`pickup ${pickup.name} reworks ${formerName(pickup)} {`, ...own, ...blocks, '}'].join('\n');
  return { place: { chunk, span: { start: span.end, end: span.end } }, newText: `\n\n${text}` };
}

const headOf = ({ keyword, name }: AnyBlock): string => [keyword, name].filter(Boolean).join(' ');
