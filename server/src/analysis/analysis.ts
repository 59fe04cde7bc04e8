/**
 * Text in, everything known about it out: one pipeline for the editor and the command line. Nothing here is marked dirty or
 * invalidated; each step is remembered by its inputs, so the same inputs give the same objects.
 */

import { editedText } from '../../../grammar/src/edited-text.ts';
import { readFileTree } from '../../../grammar/src/read-file.ts';
import { spanIn } from '../../../grammar/src/same-but-for-spaces.ts';
import type { Chunk, FileTree } from '../../../grammar/src/syntax-tree.ts';
import { attached } from '../../../grammar/values/attached.ts';
import { acceptedFindings, acceptsLate } from '../checks/accepted.ts';
import type { CheckFindings } from '../checks/check.ts';
import type { Edit, Finding, Remedy } from '../checks/finding.ts';
import { say } from '../checks/say.ts';
import { overlaid, syntaxOf } from '../model/from-syntax.ts';
import { blockOf } from '../model/merged-block.ts';
import type { Place } from '../model/place.ts';
import type { ShopKind, Things } from '../model/resolver.ts';
import type { Analysis, EarlyFindings, Host, InstrumentAnalysis, PickupAnalysis } from './analysis-types.ts';
import { earlyFindings, unsolvedFindings } from './early-findings.ts';
import { createFaults, notAnalysed } from './faults.ts';
import { type FileMentions, fileMentions } from './file-mentions.ts';
import {
  analysedInstrument,
  analysedPickup,
  benchInForce,
  type FileState,
  fileModel,
  fileReader,
  fileState,
  isSolved,
  lateFindings,
  type Memories,
  pickupsInScope,
  solving,
} from './file-state.ts';
import { levelled, unlevelled } from './levels.ts';
import { lineFindings } from './line-findings.ts';
import { photoAt, photosIn, unreadPhotos } from './photos.ts';
import { writtenFindings } from './text-findings.ts';
import { type TreeMemory, type TreeReader, treeReader, type UseGraph, useGraph } from './use-graph.ts';
import { verifiedFixes } from './verified-fixes.ts';

export interface Analyser {
  analyse(uri: string, host: Host): Analysis;
  /** What a file declares, as it is written: nothing is solved. */
  declared(uri: string, host: Host): DeclaredFile;
  /** Lets the tree of a file go; it is read again when it is needed. */
  forget(uri: string): void;
}

const newMemories = (): Memories => ({ own: attached(), used: attached() });

/** An analysis a step at a time: a piece read, a pickup or a position solved. Some of the steps have what can be told early, if anything. */
export type Analysing = Generator<(() => EarlyFindings | undefined) | undefined, Analysis>;

/** A file as it is written. */
export type DeclaredFile = Pick<Analysis, 'model' | 'locate' | 'pending'>;

/** Over files of which most are not looked at closely. */
export interface ShopAnalyser extends Analyser {
  /** The same as `analyse`, in steps. `before`: what the file was before this text. */
  analysing(uri: string, host: Host, before?: Analysis): Analysing;
  /** What the names of a file stand for, by the language alone: nothing is solved. */
  mentions(uri: string, host: Host): FileMentions;
}

/** `kept`: files whose trees are remembered, with all that was made from them; those that were asked for last. */
export function createAnalyser(kept?: number): ShopAnalyser {
  const readTree = treeReader(kept);
  const memory = newMemories();
  return {
    analyse: (uri, host) => {
      try {
        return analyse(uri, host, readTree.read, memory);
      } catch (error) {
        return failedAnalysis(uri, host, error);
      }
    },
    *analysing(uri, host, before) {
      try {
        return yield* analysing(uri, host, { trees: readTree, memory, before });
      } catch (error) {
        return failedAnalysis(uri, host, error);
      }
    },
    declared: (uri, host) => declared(uri, host, readTree.read, memory),
    mentions: (uri, host) => mentions(uri, host, readTree.read, memory),
    forget: readTree.forget,
  };
}

/** Of a file that could not be analysed at all: nothing but that. */
function failedAnalysis(uri: string, host: Host, error: unknown): Analysis {
  const nothing: Host = {
    content: () => ({ kind: 'text', text: '' }),
    isInside: (each) => host.isInside(each),
  };
  const empty = analyse(uri, nothing, treeReader().read, newMemories());
  const chunk = empty.tree.chunks[0]?.chunk;
  const findings = chunk ? [notAnalysed(say`This file`, { chunk, span: { start: 0, end: 0 } }, {}, error)] : [];
  return { ...empty, findings, allFindings: () => findings, knownFindings: () => findings };
}

function mentions(uri: string, host: Host, readTree: TreeReader, memory: Memories): FileMentions {
  const graph = useGraph(uri, host, readTree);
  const file = graph.fileOf(uri);
  const { chunks } = file?.tree ?? EMPTY_TREE;
  const pending = pendingOf(uri, graph, host);
  const failed = new Set<Chunk>();
  const reader = fileReader(graph, memory, (chunk) => failed.add(chunk));
  const references = chunks.flatMap(({ chunk }) => reader.read(chunk).references);
  return fileMentions({ uri, pending, chunks, references, locate: locator(graph), failed });
}

function declared(uri: string, host: Host, readTree: TreeReader, memory: Memories) {
  const graph = useGraph(uri, host, readTree);
  const { chunks } = graph.fileOf(uri)?.tree ?? EMPTY_TREE;
  const reader = fileReader(graph, memory, () => undefined);
  const model = fileModel(chunks.map(({ chunk }) => reader.read(chunk)));
  return { model, locate: locator(graph), pending: pendingOf(uri, graph, host) };
}

/** A file that is missing for good holds nothing; one that is not read yet may. */
const pendingOf = (uri: string, graph: UseGraph, host: Host): readonly string[] =>
  graph.fileOf(uri) || host.content(uri) ? graph.pending : [uri];

const places = (graph: UseGraph): Pick<Analysis, 'locate' | 'homeOf'> => ({
  locate: locator(graph),
  homeOf: graph.homeOf,
});

const locator =
  (graph: UseGraph): Analysis['locate'] =>
  ({ chunk, span }) => {
    const home = graph.homeOf(chunk);
    const there = home && spanIn(span, chunk, home.chunk);
    return there && { uri: home.uri, start: home.offset + there.start, end: home.offset + there.end };
  };

function analyse(uri: string, host: Host, readTree: TreeReader, memory: Memories): Analysis {
  return analysed(fileState(uri, host, useGraph(uri, host, readTree), memory));
}

interface Remembering {
  readonly trees: TreeMemory;
  readonly memory: Memories;
  readonly before: Analysis | undefined;
}

/** What is read and solved in a step is remembered, so that the last one only puts it together. */
function* analysing(uri: string, host: Host, { trees, memory, before }: Remembering): Analysing {
  const content = host.content(uri);
  const text = content?.kind === 'text' ? content.text : undefined;
  if (text !== undefined && before && hasBuilds(before)) yield () => lineFindings(before, text, host);
  if (text !== undefined) yield* readingTree(uri, text, host, { trees, memory, before });
  const graph = useGraph(uri, host, trees.read);
  const reader = fileReader(graph, memory, () => undefined);
  const { chunks } = graph.fileOf(uri)?.tree ?? EMPTY_TREE;
  for (const { chunk } of chunks) {
    if (memory.own.get(chunk)) continue;
    yield* readingInner(chunk);
    reader.read(chunk);
    yield;
  }
  const state = fileState(uri, host, graph, memory);
  if (!isSolved(state)) yield () => toldEarly(uri, host, state, earlyFindings(state, before));
  yield* solving(state);
  return analysed(state);
}

/** Where nothing is solved, all is told at once. */
const hasBuilds = ({ pickups, instruments }: Analysis): boolean => pickups.length + instruments.length > 0;

/**
 * Whoever opens a text sees its beginning: what is written wrong in the first part of it is told at once, where it is wrong whatever the
 * rest says.
 */
function* readingTree(
  uri: string,
  text: string,
  host: Host,
  { trees, memory, before }: Remembering,
): Generator<(() => EarlyFindings) | undefined> {
  let isTold = before !== undefined;
  for (const part of trees.reading(uri, text)) {
    // A bench in the rest may quieten it: then it is told with the others.
    if (part === undefined || isTold || text.includes('severity', part.text.length)) {
      yield;
      continue;
    }
    isTold = true;
    const found = writtenWrong(part);
    const begun = () => useGraph(uri, hostWith(host, new Map([[uri, part.text]])), trees.read);
    yield found.length > 0 ? () => toldEarly(uri, host, { graph: begun(), memory }, found) : undefined;
  }
}

/** What the program fails at is told when the whole is read. */
function writtenWrong({ chunks }: FileTree): readonly Finding[] {
  try {
    return chunks.flatMap(({ chunk }) => writtenFindings(chunk, syntaxOf(chunk)));
  } catch {
    return [];
  }
}

function toldEarly(
  uri: string,
  host: Host,
  { graph, memory }: Pick<FileState, 'graph' | 'memory'>,
  found: readonly Finding[],
): EarlyFindings {
  const bench = benchInForce(graph, fileReader(graph, memory, () => undefined).read);
  return { uri, findings: levelled(found, bench, host.levels?.()), ...places(graph) };
}

/** The blocks in a piece one by one, since one may hold a thousand; they are remembered. What fails is told when the whole is read. */
function* readingInner(chunk: Chunk): Generator<undefined> {
  if (chunk.content?.kind !== 'block') return;
  try {
    for (const inner of chunk.content.body) {
      if (inner.kind !== 'block') continue;
      blockOf(inner, chunk);
      yield;
    }
  } catch {
    return;
  }
}

function analysed(state: FileState): Analysis {
  const { uri, host, graph, reader, model, bench } = state;
  const faults = createFaults();
  const tree = graph.fileOf(uri)?.tree ?? EMPTY_TREE;
  const pickups = model.pickups.flatMap((pickup) => analysedPickup(pickup, state, faults));
  const instruments = model.instruments.flatMap((instrument) => analysedInstrument(instrument, state, faults));
  const accepting = [...model.pickups, ...model.instruments];
  const photos = photosIn(model, uri, host);
  const located = [
    ...faults.found,
    ...unsolvedFindings(state, photos),
    ...pickups.flatMap(({ findings }) => findings),
    ...instruments.flatMap(({ findings }) => findings),
  ];
  const offsetOf = ({ chunk, span }: Place) => (graph.homeOf(chunk)?.offset ?? 0) + span.start;
  const settled = (found: readonly Finding[], isComplete: boolean) =>
    [...levelled(acceptedFindings(found, accepting, isComplete), bench, host.levels?.())].sort(
      (a, b) => offsetOf(a.place) - offsetOf(b.place),
    );
  const findings = settled(located, false);
  let all: readonly Finding[] | undefined;
  const withLate = (wanted: (of: CheckFindings) => boolean): readonly Finding[] => {
    const parts = [...pickups, ...instruments];
    const known = parts.filter(wanted);
    const late = known.flatMap(lateFindings);
    const isComplete = known.length === parts.length;
    return late.length > 0 || (isComplete && acceptsLate(accepting))
      ? settled([...located, ...late], isComplete)
      : findings;
  };
  const verified = new WeakMap<Finding, readonly Remedy[]>();
  const analysis: Analysis = {
    uri,
    text: tree.text,
    tree,
    uris: graph.files.map((file) => file.uri),
    curveUris: graph.curves().uris,
    pending: [...pendingOf(uri, graph, host), ...graph.curves().pending, ...unreadPhotos(photos, host)],
    model,
    bench,
    namesInScope: <K extends ShopKind>(kind: K) =>
      graph.files.flatMap((file) =>
        file.pieces.flatMap((chunk): readonly Things[K][] => {
          const { declared } = reader.read(chunk);
          return declared?.kind === kind ? [declared.thing as Things[K]] : [];
        }),
      ),
    pickups: withFindings(pickups, findings, (each) => each.pickup.name, 'pickup'),
    instruments: withFindings(instruments, findings, (each) => each.instrument.name, 'instrument'),
    findings,
    allFindings: () => {
      all ??= withLate(() => true);
      return all;
    },
    knownFindings: () => all ?? withLate((each) => each.lateAreKnown()),
    photoAt: (line) => photoAt(graph.homeOf(line.place.chunk)?.uri ?? uri, line, host),
    ...places(graph),
    textOf: (other) => graph.fileOf(other)?.tree.text,
    pickupsInSight: () => pickupsInScope(state),
    edited: (edits) => {
      const after = editedState(edits, analysis, state);
      return after && analysed(after);
    },
    withTexts: (texts, other) => analysed(stateWith(texts, other, state)),
    reach: (other) => graph.reach(other).map((file) => file.uri),
    verifiedFixes: (finding) => {
      const known = verified.get(finding);
      if (known) return known;
      const fixes = verifiedFixes(unlevelled(finding), {
        before: state,
        edited: ({ edits }) => editedState(edits, analysis, state),
        isLate: !findings.includes(finding),
      });
      verified.set(finding, fixes);
      return fixes;
    },
  };
  return analysis;
}

const EMPTY_TREE: FileTree = { text: '', chunks: [] };

/** Findings as they stand once accepted ones have become information, each with its pickup or instrument. */
function withFindings<T extends PickupAnalysis | InstrumentAnalysis>(
  parts: readonly T[],
  findings: readonly Finding[],
  nameOf: (part: T) => string,
  subject: 'pickup' | 'instrument',
): readonly T[] {
  const bySubject = new Map<string, Finding[]>();
  for (const finding of findings) {
    const name = finding.subject[subject];
    if (name === undefined) continue;
    const own = bySubject.get(name);
    if (own) own.push(finding);
    else bySubject.set(name, [finding]);
  }
  return parts.map((part) => {
    const own = bySubject.get(nameOf(part)) ?? [];
    const same = own.length === part.findings.length && own.every((finding, index) => finding === part.findings[index]);
    return same ? part : { ...part, findings: own };
  });
}

/** The file with edits made to it or to files that it uses. What the edits leave alone stays the same objects. */
function editedState(edits: readonly Edit[], before: Analysis, state: FileState): FileState | undefined {
  const texts = editedTexts({ edits }, before);
  return texts && stateWith(texts, state.uri, state);
}

function stateWith(texts: ReadonlyMap<string, string>, uri: string, state: FileState): FileState {
  const { graph } = state;
  const edited = hostWith(state.host, texts);
  const readTree: TreeReader = (each, text) => readFileTree(text, graph.fileOf(each)?.tree);
  return fileState(uri, edited, useGraph(uri, edited, readTree), {
    own: overlaid(state.memory.own),
    used: overlaid(state.memory.used),
  });
}

/** As if files held other texts. */
const hostWith = (host: Host, texts: ReadonlyMap<string, string>): Host => ({
  ...host,
  isInside: (each) => host.isInside(each),
  content: (each) => {
    const text = texts.get(each);
    return text === undefined ? host.content(each) : { kind: 'text', text };
  },
});

/** The texts of the files that edits change; `undefined` where they overlap or their place is gone. */
export function editedTexts(
  { edits }: Pick<Remedy, 'edits'>,
  analysis: Analysis,
): ReadonlyMap<string, string> | undefined {
  const byFile = new Map<string, { start: number; end: number; newText: string }[]>();
  for (const { place, newText } of edits) {
    const span = analysis.locate(place);
    if (!span) return undefined;
    byFile.set(span.uri, [...(byFile.get(span.uri) ?? []), { ...span, newText }]);
  }
  const texts = new Map<string, string>();
  for (const [uri, edits] of byFile) {
    const original = analysis.textOf(uri);
    const text = original === undefined ? undefined : editedText(original, edits);
    if (text === undefined) return undefined;
    texts.set(uri, text);
  }
  return texts;
}
