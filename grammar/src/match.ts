/** A block's lines are read by its schema: facts by field, and the problems of what does not fit. */
import { dimensionOf } from '../values/unit-table.ts';
import { type Attempt, attemptOf, fail, type Match, replaceFix, type Wanted, wordOf } from './match-attempt.ts';
import { textOf } from './match-quantity.ts';
import { matchShape } from './match-shape.ts';
import { nearest } from './nearest.ts';
import { alternativesOf, type BlockSchema, type FactsOf, type MatchedFact } from './schema/block-schema.ts';
import { schemas } from './schema/index.ts';
import type { Captured, Shape } from './schema/shape.ts';
import { joinSpans, type Span } from './span.ts';
import type { SyntaxProblem } from './syntax-problem.ts';
import type { BlockNode, FactNode, Item } from './syntax-tree.ts';

export interface MatchedBlock<B extends BlockSchema> {
  readonly facts: FactsOf<B>;
  /** `undefined` where the head does not fit. */
  readonly head: Captured<B['head']> | undefined;
  /** Inner blocks that may stand here. */
  readonly blocks: readonly BlockNode[];
  /**
   * Fields whose line is stated but could not be read, a mistyped word counted for the one it is nearest to: what is
   * missing because of them is no finding of its own.
   */
  readonly broken: readonly (keyof B['facts'] & string)[];
  readonly problems: readonly SyntaxProblem[];
}

/** Deterministic; the same block and schema give equal plain data. */
export function matchBlock<B extends BlockSchema>(node: BlockNode, schema: B): MatchedBlock<B> {
  const problems: SyntaxProblem[] = [];
  const facts: Record<string, MatchedFact<unknown>[]> = {};
  for (const field of Object.keys(schema.facts)) facts[field] = [];
  const broken = new Set<string>();
  const first = new Map<string, FactNode>();

  for (const fact of node.body) {
    if (fact.kind === 'block') continue;
    const read = readFact(fact, schema);
    problems.push(...read.problems);
    const { field } = read;
    if (field === undefined) continue;
    const factSchema = schema.facts[field];
    const earlier =
      first.get(field) ?? alternativesOf(schema.facts, field).flatMap((other) => first.get(other) ?? [])[0];
    if (earlier && !factSchema?.repeats) problems.push(statedTwice(fact, earlier));
    else if (read.value === undefined) broken.add(field);
    else facts[field]?.push({ value: read.value, span: fact.span, wordSpan: fact.items[0]?.span ?? fact.span });
    if (!first.has(field)) first.set(field, fact);
  }

  const head = readHead(node, schema);
  return {
    facts: facts as FactsOf<B>,
    head: head.value as Captured<B['head']> | undefined,
    blocks: node.body.filter(
      (child): child is BlockNode => child.kind === 'block' && schema.blocks.includes(child.keyword.text),
    ),
    broken: [...broken],
    problems: [...head.problems, ...problems],
  };
}

interface ReadFact {
  readonly field: string | undefined;
  readonly value: unknown;
  readonly problems: readonly SyntaxProblem[];
}

/** A line by the fact whose word it begins with, else by one that begins with something else. */
function readFact(fact: FactNode, schema: BlockSchema): ReadFact {
  const word = wordOf(fact.items[0]);
  const entries = Object.entries(schema.facts);
  const wordless = entries.filter(([, candidate]) => candidate.word === undefined);
  const worded = word === undefined ? undefined : entries.find(([, candidate]) => candidate.word === word);
  if (worded) {
    const [field, { shape }] = worded;
    const read = { field, ...readItems(fact, shape, 1) };
    if (read.problems.length === 0) return read;
    // A lead may be called by a fact's word: `position to ground 5 kohm`.
    const other = wordless.map(([name, { shape: wordlessShape }]) => ({
      field: name,
      ...readItems(fact, wordlessShape, 0),
    }));
    return other.find((candidate) => candidate.problems.length === 0) ?? read;
  }
  const meant = word === undefined ? undefined : nearest(word, wordsOf(schema));
  for (const [field, { shape }] of wordless) {
    const read = { field, ...readItems(fact, shape, 0) };
    if (read.problems.length === 0 || meant === undefined) return read;
  }
  return unknownWord(fact, schema, meant);
}

const wordsOf = (schema: BlockSchema): readonly string[] =>
  Object.values(schema.facts).flatMap(({ word }) => (word === undefined ? [] : [word]));

function readItems(fact: FactNode, shape: Shape, from: number): { value: unknown; problems: readonly SyntaxProblem[] } {
  const attempt = attemptOf(fact.items);
  return finish(attempt, matchShape(attempt, from, shape), fact.span);
}

function readHead(node: BlockNode, schema: BlockSchema): { value: unknown; problems: readonly SyntaxProblem[] } {
  const attempt = attemptOf([node.keyword, ...node.head]);
  const last = node.head.at(-1) ?? node.keyword;
  return finish(attempt, matchShape(attempt, 1, schema.head), joinSpans(node.keyword.span, last.span));
}

/** What a line yields: nothing where any of it does not fit, and then why. */
function finish(
  attempt: Attempt,
  match: Match | undefined,
  line: Span,
): { value: unknown; problems: readonly SyntaxProblem[] } {
  const isWhole = match !== undefined && match.next === attempt.items.length;
  if (match && !isWhole) fail(attempt, match.next, { label: END_OF_LINE });
  const problems = isWhole ? attempt.problems : withMisfit(attempt, line);
  return { value: isWhole && problems.length === 0 && !attempt.broken ? match.value : undefined, problems };
}

/** A word that stands where a unit is missing is the reason for that, and one finding with it. */
function withMisfit(attempt: Attempt, line: Span): readonly SyntaxProblem[] {
  const { problems, furthest, items } = attempt;
  const item = items[furthest.index];
  const last = problems.at(-1);
  const isBehind = last?.code === 'unit/missing' && last.span.end === items[furthest.index - 1]?.span.end;
  if (item?.kind !== 'word' || !isBehind) return [...problems, misfit(attempt, line)];
  const dimension = furthest.wanted.find(({ unitOf }) => unitOf !== undefined)?.unitOf;
  const unit: SyntaxProblem = {
    code: 'unit/wrong',
    span: item.span,
    message: `\`${item.text}\` is no unit of ${dimension ?? 'this'}.`,
  };
  return [...problems.slice(0, -1), unit];
}

const END_OF_LINE = 'the end of the line';

/** Says, at the furthest item that any reading came to, what would have fitted there. */
function misfit(attempt: Attempt, line: Span): SyntaxProblem {
  const { index, wanted } = attempt.furthest;
  const special = wanted.find((candidate) => candidate.problem)?.problem;
  if (special) return special;
  const item = attempt.items[index];
  const labels = listed(wanted);
  if (!item) {
    return {
      code: 'syntax/incomplete',
      span: line,
      message: `\`${textOf(attempt.items)}\` stops short: ${labels} is missing.`,
    };
  }
  const before = attempt.items[index - 1];
  const unit = item.kind === 'word' ? dimensionOf(item.text) : undefined;
  if (unit !== undefined && before?.kind === 'number') {
    return {
      code: 'unit/wrong',
      span: item.span,
      message: `\`${item.text}\` is a unit of ${unit}: ${before.text} takes none here.`,
      fixes: [{ title: 'Remove it', edits: [{ span: { start: before.span.end, end: item.span.end }, newText: '' }] }],
    };
  }
  const words = wanted.flatMap((candidate) => candidate.words ?? []);
  const meant = item.kind === 'word' && words.length > 0 ? nearest(item.text, words) : undefined;
  const isWordWanted =
    words.length > 0 && wanted.every((candidate) => candidate.words !== undefined || candidate.unitOf !== undefined);
  if (item.kind === 'word' && (meant !== undefined || isWordWanted)) {
    return {
      code: 'syntax/unknown-word',
      span: item.span,
      message: `\`${item.text}\` does not fit here; ${labels} does.`,
      ...(meant === undefined ? {} : { fixes: [replaceFix(item.span, meant)] }),
    };
  }
  return { code: 'syntax/unexpected', span: item.span, message: `\`${item.text}\` does not fit here; ${labels} does.` };
}

function listed(wanted: readonly Wanted[]): string {
  // What must stand there says more than that the line might have ended or gone on.
  const telling = wanted.filter(
    ({ label, unitOf }) => label !== END_OF_LINE && label !== '`,`' && unitOf === undefined,
  );
  return (telling.length > 0 ? telling : wanted).map(({ label }) => label).join(' or ');
}

function unknownWord(fact: FactNode, schema: BlockSchema, meant: string | undefined): ReadFact {
  const first = fact.items[0];
  if (!first) return { field: undefined, value: undefined, problems: [] };
  const owner = `a \`${schema.keyword}\``;
  if (first.kind !== 'word') {
    const problem: SyntaxProblem = {
      code: 'syntax/unexpected',
      span: first.span,
      message: `A line in ${owner} begins with one of its words, such as \`${wordsOf(schema)[0] ?? ''}\`.`,
    };
    return { field: undefined, value: undefined, problems: [problem] };
  }
  if (schema.blocks.includes(first.text)) {
    const end = fact.span.end;
    const problem: SyntaxProblem = {
      code: 'syntax/incomplete',
      span: fact.span,
      message: `\`${textOf(fact.items)}\` stops short: a block's facts go between \`{\` and \`}\`.`,
      fixes: [{ title: 'Insert `{` and `}`', edits: [{ span: { start: end, end }, newText: ' {\n}' }] }],
    };
    return { field: undefined, value: undefined, problems: [problem] };
  }
  const field = Object.keys(schema.facts).find((key) => schema.facts[key]?.word === meant && meant !== undefined);
  const problem: SyntaxProblem = {
    code: 'syntax/unknown-word',
    span: first.span,
    message: `\`${first.text}\` is no fact of ${owner}${explained(first.text, meant)}.`,
    ...(meant === undefined ? {} : { fixes: [replaceFix(first.span, meant)] }),
  };
  return { field, value: undefined, problems: [problem] };
}

function explained(word: string, meant: string | undefined): string {
  const owners = [...schemas.values()]
    .filter((other) => wordsOf(other).includes(word))
    .map((other) => `\`${other.keyword}\``);
  if (owners.length > 0) return `: it belongs in ${owners.join(' or ')}`;
  return meant === undefined ? '' : `; \`${meant}\` is near`;
}

function statedTwice(fact: FactNode, earlier: FactNode): SyntaxProblem {
  const [word, earlierWord] = [nameOfFact(fact.items), nameOfFact(earlier.items)];
  return {
    code: 'name/duplicate',
    span: fact.span,
    message:
      word === earlierWord
        ? `\`${word}\` is stated twice; one of the two lines counts.`
        : `\`${word}\` and \`${earlierWord}\` state the same; one of the two lines counts.`,
    action: 'Remove one of them.',
    related: [{ span: earlier.span, message: 'stated here before' }],
    fixes: [
      { title: `Remove \`${textOf(fact.items)}\``, edits: [{ span: fact.removal, newText: '' }] },
      { title: `Remove \`${textOf(earlier.items)}\``, edits: [{ span: earlier.removal, newText: '' }] },
    ],
  };
}

const nameOfFact = (items: readonly Item[]): string => items[0]?.text ?? '';
