/** Findings of the text itself: syntax, names, files. */
import { nearest } from '../../../grammar/src/nearest.ts';
import type { Problem } from '../../../grammar/src/syntax-problem.ts';
import type { Chunk } from '../../../grammar/src/syntax-tree.ts';
import { onceFor } from '../../../grammar/values/remember.ts';
import { removeLine } from '../checks/edits.ts';
import type { Edit, Finding, Remedy } from '../checks/finding.ts';
import type { Code } from '../checks/pages.ts';
import { say } from '../checks/say.ts';
import { type Telling, told } from '../checks/telling.ts';
import { type ChunkModel, firstLine } from '../model/from-syntax.ts';
import type { Place } from '../model/place.ts';
import type { Wire } from '../model/wire.ts';
import type { Host } from './analysis-types.ts';
import type { FileState } from './file-state.ts';
import { unknownCodes } from './levels.ts';
import { type DeclaredName, declaredName, namesOf, type ReadFile, type UsedFile, type UseGraph } from './use-graph.ts';

/** Of one piece of a file. `wires`: those that may be named there. */
export function pieceFindings(model: ChunkModel, wires: () => readonly Wire[]): readonly Finding[] {
  const { found, gaugesAwg } = ownFindings(model);
  if (gaugesAwg.every((gaugeAwg) => gaugeAwg === undefined)) return found;
  return found.map((finding, index) => {
    const gaugeAwg = gaugesAwg[index];
    return gaugeAwg === undefined
      ? finding
      : { ...finding, remedies: () => wireRemedies(gaugeAwg, finding.place, wires()) };
  });
}

/** The same objects while the piece is read as it was. `gaugesAwg`: of the first of them, where a wire of a gauge is asked for. */
const ownFindings = onceFor(({ chunk, syntax, problems, declared }: ChunkModel) => {
  const found: readonly Finding[] = [
    ...writtenFindings(chunk, syntax),
    ...problems.map((problem) => problemFinding(problem, ({ place }) => place)),
    ...(declared?.kind === 'bench' ? unknownCodes(declared.thing) : []),
  ];
  return { found, gaugesAwg: writtenProblems(chunk, syntax).map(({ gaugeAwg }) => gaugeAwg) };
});

/** Of how a piece is written alone, whatever stands in others. */
export const writtenFindings = (chunk: Chunk, syntax: ChunkModel['syntax']): readonly Finding[] =>
  writtenProblems(chunk, syntax).map((problem) => problemFinding(problem, ({ span }) => ({ chunk, span })));

const writtenProblems = (chunk: Chunk, syntax: ChunkModel['syntax']) => [...chunk.problems, ...syntax];

/** Of pieces beside each other, and of the files that a file uses. */
export const fileWideFindings = ({
  uri,
  graph,
  models,
  host,
}: Pick<FileState, 'uri' | 'graph' | 'models' | 'host'>): readonly Finding[] => [
  ...duplicateNames(uri, graph),
  ...duplicateBenches(models),
  ...(graph.fileOf(uri)?.uses ?? []).flatMap((use) => useFinding(use, uri, graph, host)),
];

export function problemFinding<At>(problem: Problem<Code, At>, placeOf: (at: At) => Place): Finding {
  const { code, severity = 'error', message, action, related = [], fixes = [] } = problem;
  return {
    code,
    severity,
    ...told({ what: say`${message}`, action: action === undefined ? undefined : say`${action}` }),
    place: placeOf(problem),
    related: related.map((each) => ({ message: say`${each.message}`, place: placeOf(each) })),
    remedies: () =>
      fixes.map(
        ({ title, edits, unsure }): Remedy => ({
          title: say`${title}`,
          edits: edits.map((each) => ({ place: placeOf(each), newText: each.newText })),
          kind: 'text',
          preferred: fixes.length === 1 && !unsure,
        }),
      ),
    subject: {},
  };
}

/** A gauge is no wire: one that has it is named, or a block is made for it. Enamel and build are for a person to add. */
function wireRemedies(gaugeAwg: number, place: Place, wires: readonly Wire[]): readonly Remedy[] {
  const known = wires.filter((wire) => wire.gaugeAwg?.value === gaugeAwg);
  const named = (name: string): Edit => ({ place, newText: name });
  if (known.length > 0)
    return known.map(({ name }) => ({
      title: say`Name ${name}, a wire of that gauge`,
      edits: [named(name)],
      kind: 'text',
    }));
  const name = `awg-${gaugeAwg}`;
  if (wires.some((wire) => wire.name === name)) return [];
  const start = place.chunk.content?.span.start ?? 0;
  const newText = `wire ${name} {\n  gauge ${gaugeAwg} AWG\n}\n\n`;
  return [
    {
      title: say`Describe it as wire ${name}`,
      edits: [{ place: { chunk: place.chunk, span: { start, end: start } }, newText }, named(name)],
      kind: 'text',
    },
  ];
}

/** A name is unique among its kind, in the file and in all it uses. */
function duplicateNames(uri: string, graph: UseGraph): readonly Finding[] {
  const file = graph.fileOf(uri);
  if (!file) return [];
  const own = namesOf(file.pieces);
  const others = graph.files.filter((each) => each.uri !== uri);
  const found: Finding[] = [];
  for (const chunk of file.pieces) {
    const name = declaredName(chunk);
    if (!name) continue;
    const first = own.get(name.kind)?.get(name.text);
    const before = first === chunk ? firstIn(others, name) : first;
    if (!before) continue;
    found.push({
      code: 'name/duplicate',
      severity: 'error',
      ...told({
        what: say`Two ${name.kind} blocks are called ${name.text}; a name belongs to one of them.`,
        action: say`Rename one of them, and what means it.`,
      }),
      place: firstLine(chunk),
      related: [{ message: say`the first ${name.text}`, place: firstLine(before) }],
      remedies: () => renaming(chunk, name, graph),
      subject: {},
    });
  }
  return found;
}

function firstIn(files: readonly ReadFile[], { kind, text }: DeclaredName): Chunk | undefined {
  for (const { pieces } of files) {
    const chunk = namesOf(pieces).get(kind)?.get(text);
    if (chunk) return chunk;
  }
  return undefined;
}

/** What means the name goes on to mean the first. */
function renaming(chunk: Chunk, { kind, text }: DeclaredName, graph: UseGraph) {
  const item = chunk.content?.kind === 'block' ? chunk.content.head.find((each) => each.kind === 'word') : undefined;
  if (item === undefined) return [];
  const isTaken = (name: string) => graph.files.some(({ pieces }) => namesOf(pieces).get(kind)?.has(name));
  let number = 2;
  while (isTaken(`${text}-${number}`)) number += 1;
  const newText = `${text}-${number}`;
  const edits = [{ place: { chunk, span: item.span }, newText }];
  return [{ title: say`Call this one ${newText}`, edits, kind: 'build' as const }];
}

function duplicateBenches(models: readonly ChunkModel[]): readonly Finding[] {
  const benches = models.filter(({ declared }) => declared?.kind === 'bench');
  const first = benches[0];
  if (!first) return [];
  return benches.slice(1).map(({ chunk }) => ({
    code: 'name/duplicate',
    severity: 'error',
    ...told({ what: say`A file and all it uses has one bench.`, action: say`Make one of the two.` }),
    place: firstLine(chunk),
    related: [{ message: say`the first bench`, place: firstLine(first.chunk) }],
    remedies: () => [],
    subject: {},
  }));
}

function useFinding(use: UsedFile, uri: string, graph: UseGraph, host: Host): readonly Finding[] {
  const { content } = use.chunk;
  const span = content?.span ?? { start: 0, end: 0 };
  const place: Place = { chunk: use.chunk, span };
  const finding = (code: Code, telling: Telling, remedies: () => readonly Remedy[] = () => []): readonly Finding[] => [
    { ...told(telling), code, severity: 'error', place, related: [], remedies, subject: {} },
  ];
  if (use.state === 'outside')
    return finding('use/outside', {
      what: say`${use.written} leaves the workspace, or is no path relative to this file; it is not opened.`,
      action: say`Name a file of the workspace by its path from here.`,
    });
  if (use.state === 'missing')
    return finding(
      'use/missing',
      {
        what: say`There is no file ${use.written}; names that may have come from it are not checked.`,
        action: say`Correct the path, or add the file.`,
      },
      () => nearestFile(use, host),
    );
  if (use.state === 'unreadable')
    return finding('use/missing', {
      what: say`${use.written} cannot be read (${use.reason ?? 'no reason given'}); names that may have come from it are not checked.`,
    });
  if (use.uri !== undefined && graph.reach(use.uri).some((file) => file.uri === uri))
    return finding(
      'use/cycle',
      {
        what:
          use.uri === uri ? say`This file uses itself.` : say`${use.written} uses this file, so each uses the other.`,
        action: use.uri === uri ? say`Remove the line.` : say`Take one of the two lines out.`,
      },
      // Offered where no name comes by it, as any change that must not bring another finding.
      () => [{ title: say`Remove the line`, edits: [removeLine(place)], kind: 'build' }],
    );
  return [];
}

function nearestFile(use: UsedFile, host: Host): readonly Remedy[] {
  const { content } = use.chunk;
  if (use.uri === undefined || content?.kind !== 'use' || !content.path) return [];
  const nameOf = (uri: string) => decodeURIComponent(uri.slice(uri.lastIndexOf('/') + 1));
  const right = nearest(nameOf(use.uri), (host.siblings?.(use.uri) ?? []).map(nameOf));
  if (right === undefined) return [];
  const path = use.written.slice(0, use.written.lastIndexOf('/') + 1) + right;
  const newText = `"${path.replace(/[\\"]/g, '\\$&')}"`;
  return [
    {
      title: say`Change to ${newText}`,
      edits: [{ place: { chunk: use.chunk, span: content.path.span }, newText }],
      kind: 'text',
      preferred: true,
    },
  ];
}
