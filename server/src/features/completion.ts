import { type Expectation, expectedAt } from '../../../grammar/src/expect.ts';
import type { FactSchema } from '../../../grammar/src/schema/block-schema.ts';
import { photo } from '../../../grammar/src/schema/common.ts';
import { language } from '../../../grammar/src/schema/index.ts';
import type { Span } from '../../../grammar/src/span.ts';
import type { Item, PlacedChunk } from '../../../grammar/src/syntax-tree.ts';
import { given } from '../../../grammar/values/present.ts';
import { type Dimension, symbolsOf } from '../../../grammar/values/unit-table.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import { photoLines } from '../analysis/photos.ts';
import { curvesIn } from '../model/sweeps.ts';
import { blockSnippet, factSnippet, type NamesOf } from './block-snippets.ts';
import { aboutBlockKind, aboutFact } from './hover.ts';
import { namesInScope, newLeadNames } from './names-in-scope.ts';
import type { RichText } from './rich-text.ts';
import { factSchemaOf } from './schema-at.ts';
import { chunkAt, inFile, syntaxIn } from './syntax-at.ts';

export interface Completion {
  readonly kind: 'block' | 'fact' | 'word' | 'name' | 'lead' | 'unit' | 'value' | 'file';
  readonly label: string;
  /** What is inserted, where it is more than the label. */
  readonly text?: string;
  /** With stops to fill in, for editors that know them. */
  readonly snippet?: string;
  readonly detail?: string;
  readonly about?: RichText;
  readonly sort: string;
}

export interface Completions {
  /** What is being typed, and will be replaced. */
  readonly replace: Span;
  readonly items: readonly Completion[];
}

/** Files that a path may name. */
export interface FilesNear {
  /** Paths from here to the other specs of the workspace. */
  readonly specs: readonly string[];
  /** Photographs beside it and in the folders beside it. */
  readonly photos: readonly string[];
  /** Curves beside it and in the folders beside it. */
  readonly curves: readonly string[];
}

/** What may stand at the cursor, from the schema, from the names in scope and from the files near. */
export function completions(analysis: Analysis, offset: number, near: FilesNear = NOTHING_NEAR): Completions {
  const placed = chunkAt(analysis.tree, offset) ?? EMPTY_FILE;
  const expected = expectedAt(placed.chunk, offset - placed.offset);
  if (expected.place === 'use') return usedFiles(analysis, placed, offset, near.specs);
  const sources: Sources = { analysis, placed, expected, offset };
  const files = filesTyped(sources, near);
  if (files) return files;
  return {
    replace: inFile(placed, expected.replace),
    items: [
      ...blocks(sources),
      ...facts(sources),
      ...names(sources),
      ...words(sources),
      ...units(sources),
      ...codes(sources),
    ],
  };
}

/** The files of the workspace that this one does not use yet, those nearby first, in place of the path between the quotes. */
function usedFiles(analysis: Analysis, placed: PlacedChunk, offset: number, specs: readonly string[]): Completions {
  const path = placed.chunk.content?.kind === 'use' ? placed.chunk.content.path : undefined;
  const { replace, isInQuotes } = pathTyped(placed, path, offset);
  const used = analysis.tree.chunks.flatMap(({ chunk }) =>
    chunk.content?.kind === 'use' && chunk.content.path !== path ? [chunk.content.path?.value] : [],
  );
  const items = specs.flatMap((name): readonly Completion[] => {
    if (used.includes(name)) return [];
    const sort = `${name.split('/').length} ${name}`;
    return [{ kind: 'file', label: name, ...(isInQuotes ? {} : { text: `"${name}"` }), sort }];
  });
  return { replace, items };
}

/** Of a path that is being typed, what stands between its quotes. */
function pathTyped(placed: PlacedChunk, path: Item | undefined, offset: number) {
  const quoted = path && inFile(placed, path.span);
  const isInQuotes = quoted !== undefined && quoted.start < offset && offset <= quoted.end;
  const isClosed = path !== undefined && path.text.length > 1 && path.text.endsWith('"');
  const replace = isInQuotes
    ? { start: quoted.start + 1, end: isClosed ? quoted.end - 1 : quoted.end }
    : { start: offset, end: offset };
  return { replace, isInQuotes };
}

/** The photographs or curves near, where the path of one is being typed; `undefined` elsewhere. */
function filesTyped(
  { analysis, placed, expected, offset }: Sources,
  { photos, curves }: FilesNear,
): Completions | undefined {
  const { blocks: around, fact } = syntaxIn(placed, offset - placed.offset);
  const block = around.at(-1);
  const schema = block && fact && factSchemaOf(block, fact);
  const hasPath = schema !== undefined && FACTS_WITH_PATHS.includes(schema);
  const { replace, isInQuotes } = pathTyped(
    placed,
    hasPath ? fact?.items.find(({ kind }) => kind === 'string') : undefined,
    offset,
  );
  if (!isInQuotes && !expected.shapes.some((shape) => shape.kind === 'string' && shape.file)) return undefined;
  // A line that has only begun is none of the block yet.
  const isPhoto =
    schema === photo || /(?:^|\n)[^\S\n]*photo\b[^\n]*$/.test(placed.chunk.text.slice(0, offset - placed.offset));
  const named = isPhoto
    ? photoLines(analysis.model).map(({ value }) => value.file.value)
    : curvesIn(analysis.model).map(({ value }) => value);
  return {
    replace,
    items: (isPhoto ? photos : curves).map((label): Completion => {
      // Those that no line names yet come first.
      const sort = `${named.includes(label) ? 1 : 0}${label}`;
      return { kind: 'file', label, ...(isInQuotes ? {} : { text: `"${label}"` }), sort };
    }),
  };
}

const FACTS_WITH_PATHS: readonly FactSchema[] = [photo, language.readings.facts.sweep, language.bench.facts.recorder];

const NOTHING_NEAR: FilesNear = { specs: [], photos: [], curves: [] };

interface Sources {
  readonly analysis: Analysis;
  readonly placed: PlacedChunk;
  readonly expected: Expectation;
  readonly offset: number;
}

const EMPTY_FILE: PlacedChunk = { offset: 0, chunk: { text: '', content: undefined, comments: [], problems: [] } };

function facts({ analysis, placed, expected }: Sources): readonly Completion[] {
  return expected.facts.flatMap(({ schema, stated }): readonly Completion[] => {
    if (stated || schema.word === undefined) return [];
    const namesOf = namesFor(analysis, placed, expected);
    return [
      {
        kind: 'fact',
        label: schema.word,
        text: `${schema.word} `,
        snippet: factSnippet(schema, namesOf),
        detail: schema.example,
        about: aboutFact(schema),
        sort: `2${schema.word}`,
      },
    ];
  });
}

function blocks({ analysis, placed, expected }: Sources): readonly Completion[] {
  return expected.blockKinds.map(({ keyword, meaning }): Completion => {
    const snippet = blockSnippet(keyword, namesFor(analysis, placed, expected));
    return {
      kind: 'block',
      label: keyword,
      ...given({ snippet }),
      detail: meaning,
      about: aboutBlockKind(keyword),
      sort: `3${keyword}`,
    };
  });
}

const namesFor =
  (analysis: Analysis, placed: PlacedChunk, { blocks: around }: Expectation): NamesOf =>
  (kind) =>
    kind === 'lead'
      ? []
      : namesInScope(kind, { analysis, placed, blocks: around, qualifier: undefined, path: false }).map(
          ({ name }) => name,
        );

function names({ analysis, placed, expected }: Sources): readonly Completion[] {
  return expected.names.flatMap(({ of, declares, path }) => {
    const { blocks: around, qualifier } = expected;
    const place = { analysis, placed, blocks: around, qualifier, path };
    // New names are the writer's own; those of leads are colours.
    const offered = !declares ? namesInScope(of, place) : of === 'lead' ? newLeadNames(place) : [];
    return offered.map(
      ({ name, what }, index): Completion => ({
        kind: of === 'lead' ? 'lead' : 'name',
        label: name,
        detail: what,
        // Leads come in the order in which one needs them, other names as a list is read.
        sort: of === 'lead' ? `0${String(index).padStart(3, '0')}` : `0${name}`,
      }),
    );
  });
}

function words({ expected }: Sources): readonly Completion[] {
  // Behind a point only names follow.
  if (expected.qualifier !== undefined) return [];
  return expected.words.map((word): Completion => ({ kind: 'word', label: word, sort: `1${word}` }));
}

/** Behind the space that stands between a number and its unit: right behind the number, Enter would write what nobody has chosen. */
function units({ analysis, placed, expected }: Sources): readonly Completion[] {
  const start = placed.offset + expected.replace.start;
  if (/\d/.test(analysis.text[start - 1] ?? '')) return [];
  return expected.units.flatMap((dimension: Dimension) =>
    symbolsOf(dimension).map(
      (symbol, index): Completion => ({
        kind: 'unit',
        label: symbol,
        detail: dimension,
        sort: `1${String(index).padStart(2, '0')}`,
      }),
    ),
  );
}

/** Behind `accept`, the codes of what is found in the block. */
function codes({ analysis, placed, expected }: Sources): readonly Completion[] {
  if (!expected.shapes.some(({ kind }) => kind === 'code')) return [];
  const found = analysis.findings.filter(({ place }) => place.chunk === placed.chunk);
  return [...new Set(found.map(({ code }) => code))].map((code) => ({ kind: 'value', label: code, sort: `0${code}` }));
}
