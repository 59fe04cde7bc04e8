import { describeShape } from '../../../grammar/src/describe-shape.ts';
import type { BlockSchema, FactSchema } from '../../../grammar/src/schema/block-schema.ts';
import { schemas } from '../../../grammar/src/schema/index.ts';
import type { Span } from '../../../grammar/src/span.ts';
import type { BlockNode, LikeNode, MadeFrom } from '../../../grammar/src/syntax-tree.ts';
import type { Analysis, FileSpan } from '../analysis/analysis-types.ts';
import { photoLines } from '../analysis/photos.ts';
import { explanationOf } from '../checks/explanation.ts';
import type { Place } from '../model/place.ts';
import { list } from '../words/text.ts';
import { writtenAim } from './aim-rows.ts';
import { findingSpan } from './diagnostics.ts';
import { useTarget } from './document-links.ts';
import { type NameAt, nameAt } from './name-at.ts';
import { ownPickups } from './own-blocks.ts';
import { coilNumbers, magnetNumbers, pickupNumbers } from './part-numbers.ts';
import { leftOnSpool } from './part-usage.ts';
import type { RichText, Section } from './rich-text.ts';
import { factSchemaOf, schemaOf } from './schema-at.ts';
import { chunksAt, inFile, type SyntaxAt, syntaxAt, syntaxIn } from './syntax-at.ts';
import { wiredLineText } from './wired-lines.ts';
import { writtenLead } from './written-lead.ts';
import { writtenMaterial } from './written-material.ts';
import { writtenReading } from './written-reading.ts';
import { writtenSign } from './written-sign.ts';
import { writtenSweep } from './written-sweep.ts';
import { writtenValue } from './written-value.ts';

export interface Hover {
  readonly span: Span;
  readonly text: RichText;
}

/**
 * What is known of the thing under the cursor: a coil's and a pickup's numbers, a name's declaration, a fact's meaning;
 * and of each finding there, what it is about. `among`: the files that may plan coils on the spool that is named, where they are known.
 */
export function hover(analysis: Analysis, offset: number, among?: readonly Analysis[]): Hover | undefined {
  const at = syntaxAt(analysis.tree, offset);
  if (at === undefined) return undefined;
  const used = usedFile(analysis, at);
  if (used) return used;
  const like = at.fact ? undefined : at.blocks.at(-1)?.like;
  const item = at.item ?? (like && isWithin(like.span, at.at) ? like : undefined);
  if (item === undefined) return undefined;
  const span = inFile(at.placed, item.span);
  const name = nameAt(analysis, offset);
  const isRead = at.blocks.some(({ keyword }) => keyword.text === 'readings');
  const text = [
    ...writtenValue(at),
    ...(isRead ? [...writtenReading(analysis, at.placed, at.at), ...writtenSweep(analysis, offset)] : []),
    ...writtenAim(analysis, at),
    ...(name ? named(analysis, name) : []),
    ...writtenLead(analysis, at),
    ...writtenSign(analysis, at),
    ...writtenMaterial(at),
    ...(name ? spoolLeft(analysis, name, among) : []),
    ...(item === like ? takenOver(analysis, at, like) : []),
    ...(at.item ? wiredLineText(analysis, offset) : []),
    ...photographAt(analysis, offset),
    ...written(analysis, at),
    ...findingsAt(analysis, offset),
  ];
  return text.length > 0 ? { span: name?.at ?? span, text } : undefined;
}

/** The photograph of the line, small: width by height within the hover. */
function photographAt(analysis: Analysis, offset: number): RichText {
  const line = photoLines(analysis.model).find(({ place }) => {
    const span = analysis.locate(place);
    return span?.uri === analysis.uri && span.start <= offset && offset <= span.end;
  });
  if (line === undefined) return [];
  const { caption } = line.value;
  const at = analysis.photoAt(line);
  if (at.kind === 'outside' || at.file?.kind !== 'photo') return [];
  const { format, width, height } = at.file;
  const shownWidth = Math.round(Math.min(width, HOVER_WIDTH, (HOVER_HEIGHT * width) / height));
  return [
    { kind: 'paragraph', text: `${caption} (${format}, ${width} × ${height} pixels)` },
    { kind: 'picture', uri: at.uri, alt: caption, shownWidth },
  ];
}

const HOVER_WIDTH = 360;
/** With the words above it, no more than a hover has without scrolling. */
const HOVER_HEIGHT = 190;

/** The declaration that a name stands for, and the numbers where it is a coil or a pickup. */
function named(analysis: Analysis, { reference, target, at }: NameAt): RichText {
  const heading: Section = { kind: 'heading', text: `${reference.kind} ${reference.name}` };
  if (target === undefined) return [heading];
  const declaration = reference.declares || !reference.target ? [] : declarationText(reference.target);
  return [heading, ...declaration, ...numbersOf(analysis, { ...reference, span: at, target })];
}

function numbersOf(
  analysis: Analysis,
  { kind, name, span, target }: { kind: string; name: string; span: FileSpan; target: FileSpan },
): RichText {
  if (kind === 'pickup') {
    const analysed = analysis.pickups.find(({ pickup }) => pickup.name === name);
    return analysed ? pickupNumbers(analysis, analysed) : [];
  }
  const around = ownPickups(analysis).find(({ placed }) => holds(placed.offset, placed.chunk.text, span.start));
  if (kind === 'magnet') return around ? magnetNumbers(analysis, around.analysed, name) : [];
  if (kind !== 'coil') return [];
  const analysed =
    around?.analysed ??
    analysis.pickups.find(({ pickup }) =>
      pickup.coils.some((coil) => coil.name === name && analysis.locate(coil.place)?.start === target.start),
    );
  return analysed ? coilNumbers(analysis, analysed, name) : [];
}

/** What is left on the spool that is named, once the coils have been wound that are planned on it. */
function spoolLeft(analysis: Analysis, { reference }: NameAt, among: readonly Analysis[] | undefined): RichText {
  if (reference.kind !== 'spool') return [];
  const spool = analysis.namesInScope('spool').find(({ name }) => name === reference.name);
  if (!spool) return [];
  const planned = among ? 'of all specs' : 'of this file';
  const value = leftOnSpool(analysis, spool, among);
  return [
    {
      kind: 'values',
      rows: [{ name: 'on the spool', value, restsOn: `coils ${planned} that are still to be wound` }],
    },
  ];
}

/** The file that a `use` line takes in, with all that it declares. */
function usedFile(analysis: Analysis, { placed, at }: SyntaxAt): Hover | undefined {
  const use = placed.chunk.content;
  if (use?.kind !== 'use' || !isWithin(use.span, at)) return undefined;
  const target = useTarget(analysis, use);
  const declared =
    target === undefined
      ? []
      : KINDS.flatMap((kind) => {
          const names = analysis
            .namesInScope(kind)
            .flatMap(({ name, place }) => (analysis.locate(place)?.uri === target ? [name] : []));
          return names.length > 0 ? [{ name: kind, value: list(names), restsOn: '' }] : [];
        });
  return {
    span: inFile(placed, use.span),
    text: [
      { kind: 'heading', text: 'use' },
      { kind: 'paragraph', text: USE_MEANING },
      ...(declared.length > 0 ? [{ kind: 'values', rows: declared } as const] : []),
    ],
  };
}

const KINDS = ['wire', 'spool', 'bobbin', 'magnet', 'switch', 'pickup', 'instrument'] as const;

/** Behind `like` or `reworks`: what that means, and the block that is taken over. */
function takenOver(analysis: Analysis, { placed, blocks }: SyntaxAt, like: LikeNode): RichText {
  const meaning: Section = { kind: 'paragraph', text: MADE_FROM_MEANING[like.word] };
  const name = like.name && nameAt(analysis, inFile(placed, like.name.span).start);
  const model = name?.reference.target && declarationText(name.reference.target);
  return [
    { kind: 'heading', text: `${blocks.at(-1)?.keyword.text ?? ''} ${like.word} ${like.name?.text ?? ''}` },
    meaning,
    ...(model ?? []),
  ];
}

const MADE_FROM_MEANING: Readonly<Record<MadeFrom, string>> = {
  like: 'another piece: takes over every line of that one that is not stated here',
  reworks:
    'the same piece after work: takes over every line of that one that is not stated here; that one stays as the record of how it was',
};

const isWithin = ({ start, end }: Span, at: number): boolean => start <= at && at <= end;

const holds = (offset: number, text: string, at: number): boolean => offset <= at && at <= offset + text.length;

/** The block or line that declares a name as it is written, in whatever file; cut where it is long. */
function declarationText({ chunk, span }: Place): RichText {
  const at = syntaxIn({ offset: 0, chunk }, span.start);
  const block = at.blocks.at(-1);
  if (block === undefined) return [];
  const { start, end } = (at.fact ?? block).span;
  const indent = /[ \t]*$/.exec(chunk.text.slice(0, start))?.[0] ?? '';
  const lines = chunk.text
    .slice(start, end)
    .split(/\r\n|\r|\n/)
    .map((line) => (line.startsWith(indent) ? line.slice(indent.length) : line));
  const text = lines.length > MOST_LINES ? [...lines.slice(0, MOST_LINES), '  # …'].join('\n') : lines.join('\n');
  return [{ kind: 'spec', text }];
}

const MOST_LINES = 12;

/** What a block's keyword or a fact's word means. */
function written(analysis: Analysis, at: SyntaxAt): RichText {
  const block = at.blocks.at(-1);
  if (block === undefined) return [];
  if (at.fact === undefined) return at.item === block.keyword ? aboutBlock(analysis, at, block) : [];
  const first = at.fact.items[0];
  if (first !== at.item) return [];
  const schema = factSchemaOf(block, at.fact);
  return schema?.word === first?.text && schema ? aboutFact(schema) : [];
}

const USE_MEANING = 'takes in another file: what that declares, and what it uses itself, may be named here';

function aboutBlock(analysis: Analysis, at: SyntaxAt, block: BlockNode): RichText {
  const schema = schemaOf(block);
  const own = at.blocks.length === 1 ? ownPickups(analysis).find((each) => each.block === block) : undefined;
  return [...(schema ? describeBlock(schema) : []), ...(own ? pickupNumbers(analysis, own.analysed) : [])];
}

function describeBlock(schema: BlockSchema): RichText {
  return [
    { kind: 'heading', text: schema.keyword },
    { kind: 'paragraph', text: schema.meaning },
    { kind: 'spec', text: schema.example },
  ];
}

/** Meaning, pattern, what is assumed without it, and an example. */
export function aboutFact(schema: FactSchema): RichText {
  const pattern = [schema.word, describeShape(schema.shape)].filter((part) => part !== undefined && part !== '');
  return [
    { kind: 'spec', text: pattern.join(' ') },
    { kind: 'paragraph', text: schema.meaning },
    ...(schema.assumed === undefined ? [] : [{ kind: 'paragraph', text: `Left out: ${schema.assumed}.` } as const]),
    { kind: 'spec', text: schema.example },
  ];
}

/** What a block of a kind is, for completion as well. */
export function aboutBlockKind(keyword: string): RichText {
  const schema = schemas.get(keyword);
  return schema ? describeBlock(schema) : [];
}

/** The editor shows the message itself; here the first words of its page, which say why it matters. */
function findingsAt(analysis: Analysis, offset: number): RichText {
  const chunks = chunksAt(analysis.tree, offset);
  const near = analysis.findings.filter(({ place }) => chunks.has(place.chunk));
  return near.flatMap((finding): RichText => {
    const span = findingSpan(analysis, finding);
    if (span === undefined || offset < span.start || offset > span.end) return [];
    const page = explanationOf(finding.code);
    const opening = page === undefined ? undefined : firstParagraph(page);
    return [
      { kind: 'heading', text: finding.code },
      ...(opening === undefined ? [] : [{ kind: 'page', markdown: opening } as const]),
    ];
  });
}

function firstParagraph(page: string): string | undefined {
  return page
    .split(/\r?\n\s*\r?\n/)
    .map((part) => part.trim())
    .find((part) => part !== '' && !part.startsWith('#'));
}
