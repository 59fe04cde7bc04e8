/** A block's lines are read by its schema: facts by field, and the problems of what does not fit. */

import { onceFor } from '../values/remember.ts';
import { dimensionOf, symbolsOf } from '../values/unit-table.ts';
import { type Attempt, attemptOf, fail, type Wanted, wordOf } from './match-attempt.ts';
import { textOf } from './match-quantity.ts';
import { matchShape } from './match-shape.ts';
import { mendOf } from './mend.ts';
import { lacksBody } from './missing-brace.ts';
import { factsMeant } from './missing-word.ts';
import { nearest } from './nearest.ts';
import { sameLetters } from './other-words.ts';
import {
  alternativesOf,
  type BlockSchema,
  type FactSchema,
  type FactsOf,
  type MatchedFact,
  perFact,
} from './schema/block-schema.ts';
import { schemas } from './schema/index.ts';
import type { Captured, Shape } from './schema/shape.ts';
import { joinSpans, type Span, spanOf } from './span.ts';
import { fixAt, fixTo, problemAt, removeFix, type SyntaxProblem } from './syntax-problem.ts';
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
  const facts = perFact<MatchedFact<unknown>>(schema.facts);
  const broken = new Set<string>();
  const first = new Map<string, FactNode>();
  const stated = new Map<string, MatchedFact<unknown>[]>();

  for (const fact of node.body) {
    if (fact.kind === 'block') continue;
    const read = readFact(fact, schema, node);
    problems.push(...read.problems);
    const { field } = read;
    if (field === undefined) continue;
    const factSchema = schema.facts[field];
    const earlier =
      first.get(field) ?? alternativesOf(schema.facts, field).flatMap((other) => first.get(other) ?? [])[0];
    if (earlier && !factSchema?.repeats) problems.push(statedTwice(fact, earlier));
    else if (read.value === undefined) broken.add(field);
    else {
      const lines = stated.get(field) ?? [];
      lines.push({ value: read.value, span: fact.span, wordSpan: fact.items[0]?.span ?? fact.span });
      stated.set(field, lines);
      facts[field] = lines;
    }
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

interface ReadFact extends Read {
  readonly field: string | undefined;
}

/** A line by the fact whose word it begins with, else by one that begins with something else. `node`: the block that it stands in. */
export function readFact(fact: FactNode, schema: BlockSchema, node: BlockNode): ReadFact {
  const word = wordOf(fact.items[0]);
  const { wordless, byWord } = entriesOf(schema);
  const worded = word === undefined ? undefined : byWord.get(word);
  if (worded) {
    const [field, { shape, example }] = worded;
    const read = { field, ...advised(readItems(fact.items, shape, 1, fact.span), example) };
    if (read.problems.length === 0) return read;
    // A lead may be called by a fact's word: `position to ground 5 kohm`.
    const other = wordless.map(([name, { shape: wordlessShape }]) => ({
      field: name,
      ...readItems(fact.items, wordlessShape, 0, fact.span),
    }));
    return other.find((candidate) => candidate.problems.length === 0) ?? read;
  }
  let meant: string | undefined;
  for (const [field, { shape, example }] of wordless) {
    const read = { field, ...advised(readItems(fact.items, shape, 0, fact.span), example) };
    // Before any word is looked for that may be meant: most lines of readings begin with a name, and fit.
    if (read.problems.length === 0) return read;
    meant ??= wordMeant(word, schema);
    if (meant === undefined) return read;
  }
  meant ??= wordMeant(word, schema);
  const isWordItself = meant !== undefined && word !== undefined && sameLetters(word, meant);
  const without = isWordItself || wordless.length > 0 ? undefined : withoutItsWord(fact, schema, node);
  return without ?? unknownWord(fact, schema, meant);
}

function wordMeant(word: string | undefined, schema: BlockSchema): string | undefined {
  if (word === undefined) return undefined;
  const words = wordsOf(schema);
  return words.find((each) => sameLetters(word, each)) ?? nearest(word, words);
}

/** A value alone; what it is of is asked where it may be of several. */
function withoutItsWord(fact: FactNode, schema: BlockSchema, node: BlockNode): ReadFact | undefined {
  const stated = new Set(node.body.map((each) => (each.kind === 'fact' ? nameOfFact(each.items) : '')));
  const meant = factsMeant(fact, schema, stated, (items, shape) => readItems(items, shape, 1, fact.span));
  const [only, another] = meant;
  if (only === undefined || meant.length > MOST_MEANT) return undefined;
  const words = meant.map(({ field }) => `\`${schema.facts[field]?.word}\``).join(' or ');
  const problem: SyntaxProblem = {
    code: fact.items[0]?.kind === 'word' ? 'syntax/unknown-word' : 'syntax/unexpected',
    span: fact.span,
    message: `\`${textOf(fact.items)}\` does not say what it is of: ${words} is missing before it.`,
    fixes: meant.map(({ fix }) => fix),
  };
  return another === undefined
    ? { field: only.field, value: only.value, problems: [problem] }
    : { field: undefined, value: undefined, problems: [problem] };
}

const MOST_MEANT = 3;

type FactEntry = readonly [field: string, fact: FactSchema];

/** The facts of a schema as lines ask for them. Of two with one word the first. */
const entriesOf = onceFor((schema: BlockSchema) => {
  const wordless: FactEntry[] = [];
  const byWord = new Map<string, FactEntry>();
  for (const entry of Object.entries(schema.facts)) {
    const { word } = entry[1];
    if (word === undefined) wordless.push(entry);
    else if (!byWord.has(word)) byWord.set(word, entry);
  }
  return { wordless, byWord };
});

const wordsOf = (schema: BlockSchema): readonly string[] =>
  Object.values(schema.facts).flatMap(({ word }) => (word === undefined ? [] : [word]));

/** What is told without a remedy names a line that is right. */
function advised(read: Read, example: string): Read {
  const { value, problems } = read;
  if (problems.length === 0) return read;
  const isOpen = ({ action, fixes = [], code }: SyntaxProblem) =>
    action === undefined && fixes.length === 0 && code.startsWith('syntax/');
  const action = `Write it as in \`${example}\`.`;
  return { value, problems: problems.map((problem) => (isOpen(problem) ? { ...problem, action } : problem)) };
}

/** A line's slips that are mended so that what follows is read; more of them are no slips. */
const MOST_SLIPS = 4;

/** What a line yields, and the problems in it: no value where it does not fit and what is meant is not plain. */
function readItems(items: readonly Item[], shape: Shape, from: number, line: Span, slips = 0): Read {
  const attempt = attemptOf(items);
  const match = matchShape(attempt, from, shape);
  const isWhole = match !== undefined && match.next === items.length;
  if (match && !isWhole) fail(attempt, match.next, { label: END_OF_LINE });
  if (isWhole) return { value: attempt.broken ? undefined : match.value, problems: attempt.problems };
  const mend =
    slips < MOST_SLIPS && !isBehindBareNumber(attempt)
      ? mendOf(attempt, from, shape, misfit(attempt, line))
      : undefined;
  if (!mend) return { value: undefined, problems: withMisfit(attempt, line) };
  if (!mend.items) return { value: undefined, problems: [mend.problem] };
  const { value, problems } = readItems(mend.items, shape, from, line, slips + 1);
  return { value, problems: [mend.problem, ...problems] };
}

interface Read {
  readonly value: unknown;
  readonly problems: readonly SyntaxProblem[];
}

function readHead(node: BlockNode, schema: BlockSchema): Read {
  const last = node.head.at(-1) ?? node.keyword;
  const read = readItems([node.keyword, ...node.head], schema.head, 1, joinSpans(node.keyword.span, last.span));
  return advised(read, schema.example.split('\n')[0] ?? '');
}

/** A word that stands where a unit is missing is the reason for that, and one finding with it. */
function withMisfit(attempt: Attempt, line: Span): readonly SyntaxProblem[] {
  const { problems, furthest, items } = attempt;
  const item = items[furthest.index];
  if (!item || !isBehindBareNumber(attempt)) return [...problems, misfit(attempt, line)];
  const dimension = furthest.wanted.find(({ unitOf }) => unitOf !== undefined)?.unitOf;
  const unit: SyntaxProblem = {
    code: 'unit/wrong',
    span: item.span,
    message: `\`${item.text}\` is no unit of ${dimension ?? 'this'}.`,
    action:
      dimension === undefined
        ? 'Write a unit.'
        : `Write a unit of ${dimension}, such as \`${symbolsOf(dimension)[0] ?? ''}\`.`,
  };
  return [...problems.slice(0, -1), unit];
}

function isBehindBareNumber({ problems, furthest, items }: Attempt): boolean {
  const last = problems.at(-1);
  const isBehind = last?.code === 'unit/missing' && last.span.end === items[furthest.index - 1]?.span.end;
  return isBehind && items[furthest.index]?.kind === 'word';
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
    return problemAt('syntax/incomplete', line, `\`${textOf(attempt.items)}\` stops short: ${labels} is missing.`);
  }
  const before = attempt.items[index - 1];
  const unit = item.kind === 'word' ? dimensionOf(item.text) : undefined;
  if (unit !== undefined && before?.kind === 'number') {
    const message = `\`${item.text}\` is a unit of ${unit}: ${before.text} takes none here.`;
    return problemAt('unit/wrong', item.span, message, removeFix(spanOf(before.span.end, item.span.end)));
  }
  const words = wanted.flatMap((candidate) => candidate.words ?? []);
  const meant = item.kind === 'word' && words.length > 0 ? nearest(item.text, words) : undefined;
  const isWordWanted =
    words.length > 0 && wanted.every((candidate) => candidate.words !== undefined || candidate.unitOf !== undefined);
  const message = `\`${item.text}\` does not fit here; ${labels} does.`;
  return item.kind === 'word' && (meant !== undefined || isWordWanted)
    ? problemAt('syntax/unknown-word', item.span, message, fixTo(item.span, meant))
    : (nameMisfit(attempt, labels) ?? problemAt('syntax/unexpected', item.span, message, writtenTwice(before, item)));
}

/** What stands behind itself was typed twice. */
const writtenTwice = (before: Item | undefined, item: Item) =>
  before?.text === item.text ? fixAt('Write it once', spanOf(before.span.end, item.span.end), '') : undefined;

/** What is no name where one is wanted, and a name of several words. */
function nameMisfit({ items, furthest: { index, wanted } }: Attempt, labels: string): SyntaxProblem | undefined {
  const [item, next] = [items[index], items[index + 1]];
  const [keyword, before] = [items[0], items[index - 1]];
  if (!item) return undefined;
  if (item.kind === 'number' && wanted.some(({ shape }) => shape?.kind === 'name')) {
    const unit = next?.kind === 'word' && dimensionOf(next.text) !== undefined ? next : undefined;
    const written = textOf(unit ? [item, unit] : [item]);
    const block = keyword?.text === 'wire' && unit?.text === 'AWG' ? `wire awg-${item.text} { gauge ${written} }` : '';
    return {
      code: 'syntax/unexpected',
      ...(block === '' ? {} : { gaugeAwg: item.value }),
      span: joinSpans(item.span, (unit ?? item).span),
      message: `\`${written}\` is no name; ${labels} fits here.`,
      action:
        block === ''
          ? 'Write the name of a block that says it.'
          : `Describe the wire in a block of its own, \`${block}\`, and write its name here.`,
    };
  }
  const isHead = index === 2 && schemas.get(keyword?.text ?? '')?.names !== undefined;
  return isHead && item.kind === 'word' && before?.kind === 'word' && labels === END_OF_LINE
    ? {
        code: 'syntax/unexpected',
        span: item.span,
        message: `\`${item.text}\` does not fit here: a name is one word.`,
        action: `Join its parts, as in \`${before.text}-${item.text}\`.`,
      }
    : undefined;
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
    const message = `A line in ${owner} begins with one of its words, such as \`${wordsOf(schema)[0] ?? ''}\`.`;
    return { field: undefined, value: undefined, problems: [problemAt('syntax/unexpected', first.span, message)] };
  }
  if (schema.blocks.includes(first.text)) {
    const { end } = fact.span;
    const braces = fixAt('Insert `{` and `}`', spanOf(end, end), ' {\n}');
    const problem = problemAt('syntax/incomplete', fact.span, lacksBody(textOf(fact.items)), braces);
    return { field: undefined, value: undefined, problems: [problem] };
  }
  const field = Object.keys(schema.facts).find((key) => schema.facts[key]?.word === meant && meant !== undefined);
  const message = `\`${first.text}\` is no fact of ${owner}${explained(first.text, meant)}.`;
  const problem = problemAt('syntax/unknown-word', first.span, message, fixTo(first.span, meant));
  if (field === undefined || meant === undefined) return { field, value: undefined, problems: [problem] };
  const items = [{ ...first, text: meant }, ...fact.items.slice(1)];
  const read = readItems(items, schema.facts[field]?.shape ?? NO_SHAPE, 1, fact.span);
  // A line that says too little with the right word says so once that stands there.
  const others = read.problems.filter(({ code }) => code !== 'syntax/incomplete');
  return { field, value: read.value, problems: [problem, ...others] };
}

const NO_SHAPE: Shape = { kind: 'sequence', fields: {} };

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
    fixes: [fact, earlier].map(({ items, removal }) => fixAt(`Remove \`${textOf(items)}\``, removal, '')),
  };
}

const nameOfFact = (items: readonly Item[]): string => items[0]?.text ?? '';
