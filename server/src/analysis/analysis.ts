/**
 * Text in, everything known about it out: one pipeline for the editor and the command line. Nothing here is marked dirty or
 * invalidated; each step is remembered by its inputs, so the same inputs give the same objects.
 */

import { editedText } from '../../../grammar/src/edited-text.ts';
import { readFileTree } from '../../../grammar/src/read-file.ts';
import type { Chunk, FileTree } from '../../../grammar/src/syntax-tree.ts';
import { acceptedFindings, acceptsLate } from '../checks/accepted.ts';
import type { CheckFindings } from '../checks/check.ts';
import type { Edit, Finding, Remedy } from '../checks/finding.ts';
import { say } from '../checks/say.ts';
import type { Bench } from '../model/bench.ts';
import {
  type ChunkModel,
  emptyModel,
  firstLine,
  type ModelMemory,
  type ModelReader,
  modelReader,
} from '../model/from-syntax.ts';
import type { FileModel, NamedThing } from '../model/model.ts';
import type { Pickup } from '../model/pickup.ts';
import type { Place } from '../model/place.ts';
import type { Wire } from '../model/wire.ts';
import type { Analysis, Host, InstrumentAnalysis, PickupAnalysis } from './analysis-types.ts';
import { createFaults, notAnalysed } from './faults.ts';
import { type FileMentions, fileMentions } from './file-mentions.ts';
import { fittedFormers } from './former-states.ts';
import { instrumentAnalysis } from './instrument-analysis.ts';
import { photoAt, photoFindings, photoLines, unreadPhotos } from './photos.ts';
import { pickupAnalysis } from './pickup-analysis.ts';
import { recordOf } from './record.ts';
import { textFindings } from './text-findings.ts';
import { type TreeReader, treeReader, type UseGraph, useGraph } from './use-graph.ts';

export interface Analyser {
  analyse(uri: string, host: Host): Analysis;
  /** What a file declares, as it is written: nothing is solved. */
  declared(uri: string, host: Host): Pick<Analysis, 'model' | 'locate'>;
}

/** Over files of which most are not looked at closely. */
export interface ShopAnalyser extends Analyser {
  /** What the names of a file stand for, by the language alone: nothing is solved. */
  mentions(uri: string, host: Host): FileMentions;
  /** Lets the tree of a file go; it is read again when it is needed. */
  forget(uri: string): void;
}

/** `kept`: files whose trees are remembered, with all that was made from them; those that were asked for last. */
export function createAnalyser(kept?: number): ShopAnalyser {
  const readTree = treeReader(kept);
  const memory: ModelMemory = new WeakMap();
  return {
    analyse: (uri, host) => {
      try {
        return analyse(uri, host, readTree.read, memory);
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
  const empty = analyse(uri, nothing, treeReader().read, new WeakMap());
  const chunk = empty.tree.chunks[0]?.chunk;
  const findings = chunk ? [notAnalysed(say`This file`, { chunk, span: { start: 0, end: 0 } }, {}, error)] : [];
  return { ...empty, findings, allFindings: () => findings, knownFindings: () => findings };
}

function mentions(uri: string, host: Host, readTree: TreeReader, memory: ModelMemory): FileMentions {
  const graph = useGraph(uri, host, readTree);
  const file = graph.fileOf(uri);
  const { chunks } = file?.tree ?? EMPTY_TREE;
  const pending = pendingOf(uri, graph, host);
  const failed = new Set<Chunk>();
  const reader = guardedReader(modelReader(memory, graph.scopeOf), (chunk) => failed.add(chunk));
  const references = chunks.flatMap(({ chunk }) => reader.read(chunk).references);
  return fileMentions({ uri, pending, chunks, references, locate: locator(graph), failed });
}

function declared(uri: string, host: Host, readTree: TreeReader, memory: ModelMemory) {
  const graph = useGraph(uri, host, readTree);
  const { chunks } = graph.fileOf(uri)?.tree ?? EMPTY_TREE;
  const reader = guardedReader(modelReader(memory, graph.scopeOf), () => undefined);
  return { model: fileModel(chunks.map(({ chunk }) => reader.read(chunk))), locate: locator(graph) };
}

/** A file that is missing for good holds nothing; one that is not read yet may. */
const pendingOf = (uri: string, graph: UseGraph, host: Host): readonly string[] =>
  graph.fileOf(uri) || host.content(uri) ? graph.pending : [uri];

const locator =
  (graph: UseGraph): Analysis['locate'] =>
  ({ chunk, span }) => {
    const home = graph.offsetOf(chunk);
    return home && { uri: home.uri, start: home.offset + span.start, end: home.offset + span.end };
  };

function analyse(uri: string, host: Host, readTree: TreeReader, memory: ModelMemory): Analysis {
  const graph = useGraph(uri, host, readTree);
  const faults = createFaults();
  const tree = graph.fileOf(uri)?.tree ?? EMPTY_TREE;
  const own = new Set(tree.chunks.map(({ chunk }) => chunk));
  const reader = guardedReader(modelReader(memory, graph.scopeOf), (chunk, error) => {
    if (own.has(chunk)) faults.add(say`This block`, firstLine(chunk), {}, error);
  });
  const models = tree.chunks.map(({ chunk }) => reader.read(chunk));
  const bench = benchInForce(graph, reader.read);
  const model = fileModel(models);
  const formers = new Set(model.pickups.flatMap(({ reworks }) => reworks ?? []));
  const pickups = model.pickups.flatMap((pickup) =>
    faults.guard(say`Pickup ${pickup.name}`, pickup.place, { pickup: pickup.name }, () =>
      formers.has(pickup) ? recordOf(pickupAnalysis(pickup, bench)) : pickupAnalysis(pickup, bench),
    ),
  );
  const instruments = model.instruments.flatMap((instrument) =>
    faults.guard(say`Instrument ${instrument.name}`, instrument.place, { instrument: instrument.name }, () =>
      instrumentAnalysis(instrument, bench),
    ),
  );
  const photos = photoLines(model).map((line) => ({ line, at: photoAt(uri, line, host) }));
  const located = [
    ...faults.found,
    ...textFindings(uri, graph, models, host, () => wiresInScope(graph, reader)),
    ...(model.instruments.length > 0 ? fittedFormers(model.instruments, pickupsInScope(graph, reader)) : []),
    ...photoFindings(photos, host),
    ...pickups.flatMap(({ findings }) => findings),
    ...instruments.flatMap(({ findings }) => findings),
  ];
  const offsetOf = ({ chunk, span }: Place) => (graph.offsetOf(chunk)?.offset ?? 0) + span.start;
  const accepting = [...model.pickups, ...model.instruments];
  const settled = (found: readonly Finding[], isComplete: boolean) =>
    [...acceptedFindings(found, accepting, isComplete)].sort((a, b) => offsetOf(a.place) - offsetOf(b.place));
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
  const locate = locator(graph);
  const verified = new WeakMap<Finding, readonly Remedy[]>();
  const analysis: Analysis = {
    uri,
    text: tree.text,
    tree,
    uris: graph.files.map((file) => file.uri),
    pending: [...pendingOf(uri, graph, host), ...unreadPhotos(photos, host)],
    model,
    bench,
    namesInScope: (kind) =>
      graph.files.flatMap((file) =>
        file.tree.chunks.flatMap(({ chunk }): readonly NamedThing[] => {
          const { declared } = reader.read(chunk);
          return declared && declared.kind !== 'bench' && declared.kind === kind ? [declared.thing] : [];
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
    photoAt: (line) => photoAt(graph.offsetOf(line.place.chunk)?.uri ?? uri, line, host),
    locate,
    textOf: (other) => graph.fileOf(other)?.tree.text,
    pickupsInSight: () => pickupsInScope(graph, reader),
    edited: (edits) => withEdits(edits, analysis, host, graph, memory),
    verifiedFixes: (finding) => {
      const known = verified.get(finding);
      if (known) return known;
      if (pickups.some(({ pickup }) => pickup.coils.length > MOST_COILS_FIXED)) return [];
      const fixes = offered(finding, analysis);
      verified.set(finding, fixes);
      return fixes;
    },
  };
  return analysis;
}

/** A fault of the program in what needs inductances is told in the place of it. */
function lateFindings(part: PickupAnalysis | InstrumentAnalysis): readonly Finding[] {
  const [what, place, subject] =
    'pickup' in part
      ? [say`Pickup ${part.pickup.name}`, part.pickup.place, { pickup: part.pickup.name }]
      : [say`Instrument ${part.instrument.name}`, part.instrument.place, { instrument: part.instrument.name }];
  const faults = createFaults();
  const found = faults.guard(what, place, subject, () => part.lateFindings()).flat();
  return [...found, ...faults.found];
}

/** A piece that cannot be read declares nothing, each time that it is asked for. */
function guardedReader(reader: ModelReader, failed: (chunk: Chunk, error: unknown) => void): ModelReader {
  const unread = new Map<Chunk, ChunkModel>();
  return {
    read: (chunk) => {
      const known = unread.get(chunk);
      if (known) return known;
      try {
        return reader.read(chunk);
      } catch (error) {
        const model = emptyModel(chunk);
        unread.set(chunk, model);
        failed(chunk, error);
        return model;
      }
    },
  };
}

/**
 * Verifying solves the pickup once more for each remedy. No pickup has as many coils; where a text has, its findings grow with them,
 * and the editor must not wait for the product of both.
 */
const MOST_COILS_FIXED = 24;

const EMPTY_TREE: FileTree = { text: '', chunks: [] };

const wiresInScope = (graph: UseGraph, { read }: ModelReader): readonly Wire[] =>
  graph.files.flatMap(({ tree }) =>
    tree.chunks.flatMap(({ chunk }) => {
      const { declared } = read(chunk);
      return declared?.kind === 'wire' ? [declared.thing] : [];
    }),
  );

const pickupsInScope = (graph: UseGraph, { read }: ModelReader): readonly Pickup[] =>
  graph.files.flatMap(({ tree }) =>
    tree.chunks.flatMap(({ chunk }) => {
      const { declared } = read(chunk);
      return declared?.kind === 'pickup' ? [declared.thing] : [];
    }),
  );

/** The first bench of the file and all it uses. */
function benchInForce(graph: UseGraph, read: (chunk: Chunk) => ChunkModel): Bench | undefined {
  for (const { tree } of graph.files)
    for (const { chunk } of tree.chunks) {
      if (chunk.content?.kind !== 'block' || chunk.content.keyword.text !== 'bench') continue;
      const { declared } = read(chunk);
      if (declared?.kind === 'bench') return declared.thing;
    }
  return undefined;
}

function fileModel(models: readonly ChunkModel[]): FileModel {
  let references: FileModel['references'] | undefined;
  const things = models.flatMap(({ declared }) => declared ?? []);
  const of = <K extends (typeof things)[number]['kind']>(kind: K) =>
    things.flatMap((each) =>
      each.kind === kind ? [each.thing as Extract<(typeof things)[number], { kind: K }>['thing']] : [],
    );
  return {
    benches: of('bench'),
    wires: of('wire'),
    spools: of('spool'),
    bobbins: of('bobbin'),
    magnets: of('magnet'),
    pickups: of('pickup'),
    instruments: of('instrument'),
    problems: models.flatMap(({ problems }) => problems),
    // Thousands in a long file, and asked for only when somebody looks a name up.
    get references() {
      references ??= models.flatMap((each) => each.references);
      return references;
    },
  };
}

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

/** Applies edits to the text and analyses again. */
function withEdits(
  edits: readonly Edit[],
  before: Analysis,
  host: Host,
  graph: UseGraph,
  memory: ModelMemory,
): Analysis | undefined {
  const texts = editedTexts({ edits }, before);
  if (!texts) return undefined;
  const edited: Host = {
    ...host,
    isInside: (uri) => host.isInside(uri),
    content: (uri) => {
      const text = texts.get(uri);
      return text === undefined ? host.content(uri) : { kind: 'text', text };
    },
  };
  const readTree: TreeReader = (uri, text) => readFileTree(text, graph.fileOf(uri)?.tree);
  return analyse(before.uri, edited, readTree, memory);
}

/** The remedies that hold; none where making them fails, since a finding is worth more than its remedy. */
function offered(finding: Finding, analysis: Analysis): readonly Remedy[] {
  try {
    return finding.remedies(analysis.pickupsInSight()).filter((remedy) => holds(remedy, finding, analysis));
  } catch {
    return [];
  }
}

/** Looks, with a remedy applied, whether the finding is gone and nothing new has come. */
function holds(remedy: Remedy, finding: Finding, before: Analysis): boolean {
  const after = before.edited(remedy.edits);
  if (!after) return false;
  // What needs inductances is judged with all that needs them, anything else without.
  const heavy = !before.findings.includes(finding);
  const findingsOf = (analysis: Analysis) => (heavy ? analysis.allFindings() : analysis.findings);
  const count = (analysis: Analysis, key: string) => findingsOf(analysis).filter((each) => keyOf(each) === key).length;
  const left = findingsOf(after).filter((each) => keyOf(each) === keyOf(finding));
  const onlyMeant = finding.severity !== 'information' && left.every(({ severity }) => severity === 'information');
  if (left.length >= count(before, keyOf(finding)) && !onlyMeant) return false;
  if (remedy.kind === 'text') return true;
  // A change of the build makes earlier readings history: that they no longer agree is no new fault.
  const serious = findingsOf(after).filter(
    ({ severity, code }) => (severity === 'error' || severity === 'warning') && !code.startsWith('reading/'),
  );
  return serious.every((each) => count(after, keyOf(each)) <= count(before, keyOf(each)));
}

const keyOf = ({ code, subject, severity }: Finding): string =>
  [code, subject.pickup, subject.instrument, subject.position, severity === 'information' ? 'information' : ''].join(
    '|',
  );

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
