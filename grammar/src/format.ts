/**
 * Tree to text: two spaces a level, one space between items, a fact a line, at most one empty line in a row. Order,
 * comments, line breaks inside a line that goes on, and the file's kind of line end stay. Aligns nothing, so that one
 * changed fact stays one changed line.
 */
import { matchBlock } from './match.ts';
import { readFileTree } from './read-file.ts';
import { schemas } from './schema/index.ts';
import type { Span } from './span.ts';
import type { BlockNode, Chunk, FactNode, FileTree, Item, UseNode } from './syntax-tree.ts';

/**
 * The formatted text; `undefined` where the file has syntax errors, or where anything but white space would change. Formatting
 * twice changes nothing more.
 */
export function formatFile(tree: FileTree): string | undefined {
  if (tree.chunks.some(({ chunk }) => chunk.problems.length > 0 || !isWritten(chunk.content))) return undefined;
  const page = new Page(tree.text);
  for (const { offset, chunk } of tree.chunks) {
    page.enter(offset, chunk.comments);
    if (chunk.content?.kind === 'block') printBlock(page, chunk.content, 0);
    else if (chunk.content) printUse(page, chunk.content);
    page.comments(Number.POSITIVE_INFINITY, 0);
  }
  const text = page.text();
  return isSame(tree, readFileTree(text, tree)) ? text : undefined;
}

/** Whether all items are such as the language has: others might be read otherwise once they stand apart. */
function isWritten(node: Chunk['content'] | FactNode): boolean {
  if (!node || node.kind === 'use') return true;
  const items = node.kind === 'block' ? node.head : node.items;
  const isSound = items.every((item) => item.kind !== 'stray' && !('fault' in item && item.fault));
  return isSound && (node.kind === 'fact' || (isMatched(node) && node.body.every(isWritten)));
}

function isMatched(block: BlockNode): boolean {
  const schema = schemas.get(block.keyword.text);
  return schema === undefined || matchBlock(block, schema).problems.every(({ code }) => !code.startsWith('syntax/'));
}

const INDENTATION = '  ';

/** Collects lines; knows where the last printed thing ended in the old text, and so which empty lines and comments come next. */
class Page {
  readonly #old: string;
  readonly #lines: string[] = [];
  #offset = 0;
  #waiting: { span: Span; text: string }[] = [];
  #lastEnd: number | undefined;
  #mayBeEmpty = false;

  constructor(old: string) {
    this.#old = old;
  }

  /** Goes on to a chunk that begins at `offset`, whose spans count from there. */
  enter(offset: number, comments: readonly { span: Span; text: string }[]): void {
    this.#offset = offset;
    this.#waiting = [...comments].reverse();
  }

  /** Prints the comments that stand before `before`: behind the last line if they stood there, else on lines of their own. */
  comments(before: number, depth: number): void {
    for (let comment = this.#waiting.at(-1); comment && comment.span.start < before; comment = this.#waiting.at(-1)) {
      this.#waiting.pop();
      const text = comment.text.trimEnd();
      if (this.#breaksBefore(comment.span.start) === 0 && this.#lastEnd !== undefined) {
        this.#lines.push(`${this.#lines.pop() ?? ''} ${text}`);
        this.#lastEnd = this.#offset + comment.span.end;
      } else this.line(text, comment.span, depth);
    }
  }

  line(text: string, span: Span, depth: number): void {
    if (this.#mayBeEmpty && this.#breaksBefore(span.start) > 1) this.#lines.push('');
    this.#lines.push(INDENTATION.repeat(depth) + text);
    this.#lastEnd = this.#offset + span.end;
    this.#mayBeEmpty = true;
  }

  /** No empty line behind an opening brace. */
  opened(): void {
    this.#mayBeEmpty = false;
  }

  /** The last line so far becomes longer. */
  append(text: string, span: Span): void {
    this.#lines.push((this.#lines.pop() ?? '') + text);
    this.#lastEnd = this.#offset + span.end;
  }

  hasBreak(from: number, to: number): boolean {
    return /[\r\n]/.test(this.#old.slice(this.#offset + from, this.#offset + to));
  }

  text(): string {
    const lineEnd = /\r\n|\r|\n/.exec(this.#old)?.[0] ?? '\n';
    const mark = this.#old.charCodeAt(0) === 0xfeff ? this.#old.charAt(0) : '';
    return mark + this.#lines.map((line) => line + lineEnd).join('');
  }

  #breaksBefore(start: number): number {
    const between = this.#old.slice(this.#lastEnd ?? this.#offset, this.#offset + start);
    return between.match(/\r\n|\r|\n/g)?.length ?? 0;
  }
}

function printUse(page: Page, use: UseNode): void {
  page.comments(use.span.start, 0);
  page.line(`use ${use.path?.text ?? ''}`, use.span, 0);
}

function printBlock(page: Page, block: BlockNode, depth: number): void {
  const { keyword, head, like, open, close } = block;
  const words = [keyword, ...head, ...(like ? [{ text: like.word }] : []), ...(like?.name ? [like.name] : [])];
  page.comments(block.span.start, depth);
  page.line(`${words.map((word) => word.text).join(' ')} {`, { start: block.span.start, end: open?.end ?? 0 }, depth);
  page.opened();
  for (const child of block.body) {
    if (child.kind === 'block') printBlock(page, child, depth + 1);
    else printFact(page, child, block, depth + 1);
  }
  const end = close ?? { start: block.span.end, end: block.span.end };
  page.comments(end.start, depth + 1);
  page.opened();
  page.line('}', end, depth);
}

function printFact(page: Page, fact: FactNode, block: BlockNode, depth: number): void {
  page.comments(fact.span.start, depth);
  const isLabel = schemaOf(fact, block)?.shape.kind === 'label';
  const misread = wrongUnits(block);
  for (const [index, item] of fact.items.entries()) {
    const before = fact.items[index - 1];
    if (!before) page.line(item.text, item.span, depth);
    else if (page.hasBreak(before.span.end, item.span.start)) {
      page.comments(item.span.start, depth + 1);
      page.opened();
      page.line(item.text, item.span, depth + 1);
    } else page.append(gap(before, item, isLabel || misread.has(item.span.start)) + item.text, item.span);
  }
}

const schemaOf = (fact: FactNode, block: BlockNode) =>
  Object.values(schemas.get(block.keyword.text)?.facts ?? {}).find(({ word }) => word === fact.items[0]?.text);

/** Where words begin that stand for a unit and are none, or none of the right kind. */
function wrongUnits(block: BlockNode): ReadonlySet<number> {
  const schema = schemas.get(block.keyword.text);
  const problems = schema === undefined ? [] : matchBlock(block, schema).problems;
  return new Set(problems.flatMap(({ code, span }) => (code === 'unit/wrong' ? [span.start] : [])));
}

/** `isOne`: `24b` is one serial number, and `24 b` would be none; `250main` is a number with a wrong unit, and `250 main` without one. */
function gap(before: Item, item: Item, isOne: boolean): string {
  if (isOne && before.span.end === item.span.start) return '';
  const isTight = item.text === ',' || item.text === ')' || before.text === '(';
  return isTight && (item.kind === 'punctuation' || before.kind === 'punctuation') ? '' : ' ';
}

/** True where both hold the same blocks, facts, items and comments in the same order. */
function isSame(a: FileTree, b: FileTree): boolean {
  const [left, right] = [contentOf(a), contentOf(b)];
  return left.length === right.length && left.every((entry, index) => entry === right[index]);
}

function contentOf(tree: FileTree): readonly string[] {
  const entries: string[] = [];
  const walk = (node: BlockNode | FactNode): void => {
    if (node.kind === 'fact') {
      entries.push(`fact ${JSON.stringify(node.items.map(({ kind, text }) => [kind, text]))}`);
      return;
    }
    const { keyword, head, like } = node;
    entries.push(`block ${JSON.stringify([keyword.text, head.map(({ text }) => text), like?.name?.text])}`);
    node.body.forEach(walk);
    entries.push('end');
  };
  for (const { chunk } of tree.chunks) {
    if (chunk.problems.length > 0) entries.push('problem');
    if (chunk.content?.kind === 'use') entries.push(`use ${chunk.content.path?.text ?? ''}`);
    else if (chunk.content) walk(chunk.content);
  }
  const comments = tree.chunks.flatMap(({ chunk }) => chunk.comments.map(({ text }) => `comment ${text.trimEnd()}`));
  return [...entries, ...comments];
}
