/**
 * The tree that any text parses into. Children may be missing; whoever walks it expects that.
 *
 * A file is cut into chunks, its top-level pieces. Spans inside a chunk count from the chunk's start, so a chunk whose
 * text has not changed keeps its tree (the same object) when text before it grows or shrinks.
 */
import type { Span } from './span.ts';
import type { SyntaxProblem } from './syntax-problem.ts';

export interface FileTree {
  readonly text: string;
  readonly chunks: readonly PlacedChunk[];
}

export interface PlacedChunk {
  /** Where the chunk starts in the file. */
  readonly offset: number;
  readonly chunk: Chunk;
}

/** One top-level piece of a file: a `use` line, a block, or stray text. Two chunks are never the same object within a file. */
export interface Chunk {
  readonly text: string;
  readonly content: UseNode | BlockNode | undefined;
  /** Comments in order, those before, inside and after the content. */
  readonly comments: readonly CommentNode[];
  readonly problems: readonly SyntaxProblem[];
}

export interface CommentNode {
  readonly kind: 'comment';
  readonly span: Span;
  readonly text: string;
}

export interface UseNode {
  readonly kind: 'use';
  readonly span: Span;
  readonly path: StringItem | undefined;
}

export interface BlockNode {
  readonly kind: 'block';
  readonly span: Span;
  readonly keyword: WordItem;
  /** What stands between the keyword and `like`, `reworks` or `{`: names, words, a title, a date. */
  readonly head: readonly Item[];
  readonly like: LikeNode | undefined;
  readonly open: Span | undefined;
  readonly close: Span | undefined;
  readonly body: readonly (FactNode | BlockNode)[];
}

/** `like NAME` makes another piece, `reworks NAME` a later state of the same one. */
export const MADE_FROM = ['like', 'reworks'] as const;
export type MadeFrom = (typeof MADE_FROM)[number];

export interface LikeNode {
  readonly word: MadeFrom;
  readonly span: Span;
  readonly name: WordItem | undefined;
}

/** One fact: its first item is the fact's word (in `readings` it may be a lead, in a selector a count). */
export interface FactNode {
  readonly kind: 'fact';
  readonly span: Span;
  /** What goes when the fact is removed: its whole line, or the fact alone where it shares the line with something else. */
  readonly removal: Span;
  readonly items: readonly Item[];
}

export type Item = WordItem | PathItem | NumberItem | DateItem | StringItem | CodeItem | PunctuationItem | StrayItem;

/** A word, a name, a unit or the `x` of a size (also `×`): which of them, the shape of the fact decides. Units hold `Ω`, `°C`, `ohm/m`, `%` too. */
export interface WordItem {
  readonly kind: 'word';
  readonly span: Span;
  readonly text: string;
}

/** `slug.start`, `bridge.slug`. At least two parts; a part is missing where the text ends in a dot. */
export interface PathItem {
  readonly kind: 'path';
  readonly span: Span;
  readonly text: string;
  readonly parts: readonly WordItem[];
}

export interface NumberItem {
  readonly kind: 'number';
  readonly span: Span;
  readonly text: string;
  /** The number as written, digit groups removed; for an IEC 60062 code the number it stands for before scaling (`4k7`: 4.7). */
  readonly value: number;
  /** Decimal places as written, for keeping a writer's precision. */
  readonly decimals: number;
  /** The multiplier letter of an IEC 60062 code: `R`, `k` (also `K`), `M`, `p`, `n`, `u`, `m`. */
  readonly code: string | undefined;
  readonly fault: WrittenFault | undefined;
}

export interface DateItem {
  readonly kind: 'date';
  readonly span: Span;
  readonly text: string;
  readonly year: number;
  readonly month: number;
  readonly day: number;
  readonly fault: WrittenFault | undefined;
}

/** How a number or a date is written otherwise than the language has it (`60,0`); told by whoever takes the item for a value. */
export interface WrittenFault {
  readonly message: string;
  /** What may be meant, rightly written. Where it is one thing, that is the item's value; else the value is open. */
  readonly readings: readonly string[];
}

export interface StringItem {
  readonly kind: 'string';
  readonly span: Span;
  /** As written, quotes included. */
  readonly text: string;
  /** Escapes resolved. */
  readonly value: string;
}

/** A finding's code in `accept`: `potting/too-hot`. */
export interface CodeItem {
  readonly kind: 'code';
  readonly span: Span;
  readonly text: string;
}

/** Characters that the language has no use for. */
export interface StrayItem {
  readonly kind: 'stray';
  readonly span: Span;
  readonly text: string;
}

/** `,` `(` `)` `±` (also `+-`). */
export interface PunctuationItem {
  readonly kind: 'punctuation';
  readonly span: Span;
  readonly text: ',' | '(' | ')' | '±';
}
