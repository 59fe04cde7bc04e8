/** One fact's line read by itself: most of what is typed lies in one, and nothing else in its piece reads otherwise by that. */
import { finished } from '../values/finished.ts';
import { given } from '../values/present.ts';
import { byPlace, readingStatements } from './build-tree.ts';
import { isLineBreak, lineEnd } from './characters.ts';
import { readFact } from './match.ts';
import { mayHold } from './schema/containment.ts';
import { schemas } from './schema/index.ts';
import { type Span, shiftSpan } from './span.ts';
import type { SyntaxProblem } from './syntax-problem.ts';
import type { BlockNode, Chunk, FactNode, Item } from './syntax-tree.ts';
import type { TextChange } from './text-change.ts';

export interface RereadLine {
  /** The line as it was, without its break. */
  readonly line: Span;
  /** What was wrong with how it was written, in offsets of the piece as it was. */
  readonly before: readonly SyntaxProblem[];
  /** What is wrong now, in offsets of the piece as it is. */
  readonly now: readonly SyntaxProblem[];
}

/**
 * The line that a piece was changed in. `undefined` where the change goes beyond the items of one fact that has its line to itself, or
 * where something else in the piece might read otherwise by it; `now`: the piece's new text.
 */
export function rereadLine(
  { text, content, problems }: Chunk,
  change: TextChange,
  now: string,
): RereadLine | undefined {
  const line = lineAbout(text, change.start);
  const lineNow = { start: line.start, end: lineEnd(now, change.start) };
  if (content?.kind !== 'block' || change.end > line.end || lineNow.end !== line.end + change.shift) return undefined;
  // Where braces or quotes are wrong elsewhere, what is told of them may rest on any line.
  if (problems.some(({ span }) => span.start < line.start || span.end > line.end)) return undefined;
  const found = factOn(content, line);
  const was = found && readAlone(text, line, found);
  const is = found && readAlone(now, lineNow, found);
  if (!was || !is || was.field !== is.field || !isSame(was.first, is.first)) return undefined;
  return { line, before: was.problems, now: is.problems };
}

function lineAbout(text: string, offset: number): Span {
  let start = offset;
  while (start > 0 && !isLineBreak(text.charCodeAt(start - 1))) start--;
  return { start, end: lineEnd(text, offset) };
}

interface Found {
  readonly fact: FactNode;
  /** The block that it stands in. */
  readonly block: BlockNode;
}

function factOn(block: BlockNode, line: Span): Found | undefined {
  const child = block.body.find(({ span }) => span.end >= line.start);
  if (child?.kind === 'block') return factOn(child, line);
  return child && child.span.start >= line.start && child.span.end <= line.end ? { fact: child, block } : undefined;
}

interface Read extends Pick<ReturnType<typeof readFact>, 'field' | 'problems'> {
  readonly first: Item;
}

/** A line as it is read in a block that holds no other; `undefined` where it is more or less than one whole fact, or would go on in the next. */
function readAlone(text: string, line: Span, { block }: Found): Read | undefined {
  const written = text.slice(line.start, line.end);
  const schema = schemas.get(block.keyword.text);
  if (!schema || OPENS_OR_ENDS.test(written)) return undefined;
  const head = `${block.keyword.text} {\n`;
  const { statements, problems } = finished(readingStatements(`${head}${written}\n${NEXT_LINE}\n}`));
  const [whole] = statements;
  const [fact, next, another] = whole?.kind === 'block' ? whole.body : [];
  if (fact?.kind !== 'fact' || !next || another) return undefined;
  const [first] = fact.items;
  // A word that may begin a block here makes one of the line, should those behind it be indented deeper.
  if (!first || mayHold(block.keyword.text, first.text)) return undefined;
  const { field, problems: misfits } = readFact(fact, schema, block);
  const by = line.start - head.length;
  const told = [...problems.sort(byPlace), ...misfits].map((problem) => movedProblem(problem, by));
  return { first, field, problems: told };
}

const OPENS_OR_ENDS = /[{};]/;
const NEXT_LINE = 'next';

const isSame = (one: Item, other: Item): boolean =>
  one.kind === other.kind && one.text === other.text && one.span.start === other.span.start;

function movedProblem(problem: SyntaxProblem, by: number): SyntaxProblem {
  const moved = <T extends { readonly span: Span }>(at: T): T => ({ ...at, span: shiftSpan(at.span, by) });
  const { related, fixes } = problem;
  return {
    ...moved(problem),
    ...given({ related: related?.map(moved) }),
    ...given({ fixes: fixes?.map((fix) => ({ ...fix, edits: fix.edits.map(moved) })) }),
  };
}
