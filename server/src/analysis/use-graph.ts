/** Files and the files they use: trees read once a text, `use` lines resolved inside the workspace. */

import { nearest } from '../../../grammar/src/nearest.ts';
import { readingFileTree } from '../../../grammar/src/read-file.ts';
import { firstForm } from '../../../grammar/src/same-but-for-spaces.ts';
import type { Chunk, FileTree } from '../../../grammar/src/syntax-tree.ts';
import { finished } from '../../../grammar/values/finished.ts';
import { onceFor } from '../../../grammar/values/remember.ts';
import { curveFile } from '../model/curve-file.ts';
import type { Scope, ShopKind } from '../model/from-syntax.ts';
import type { CurveAt } from '../model/sweep.ts';
import type { Home, Host } from './analysis-types.ts';

export interface UsedFile {
  readonly chunk: Chunk;
  readonly written: string;
  /** `undefined` where the path leaves the workspace or is no path. */
  readonly uri: string | undefined;
  readonly state: 'read' | 'missing' | 'unreadable' | 'pending' | 'outside';
  readonly reason: string | undefined;
}

export interface ReadFile {
  readonly uri: string;
  readonly tree: FileTree;
  /**
   * Its pieces as the names of others stand for them. Of a file that is used, each in the form that it had first while it says the
   * same: a space typed there changes nothing for those who use it.
   */
  readonly pieces: readonly Chunk[];
  readonly uses: readonly UsedFile[];
}

export interface UseGraph {
  /** The file itself first, then what it uses, nearest first, each once. */
  readonly files: readonly ReadFile[];
  readonly pending: readonly string[];
  /** Files of curves that were asked for so far, and those of them that the host had not read yet. */
  curves(): { readonly uris: readonly string[]; readonly pending: readonly string[] };
  scopeOf(chunk: Chunk): Scope;
  fileOf(uri: string): ReadFile | undefined;
  /** Files that `uri` uses directly or through others, itself included. */
  reach(uri: string): readonly ReadFile[];
  /** Where a piece stands, and the form that it has there. */
  homeOf(chunk: Chunk): Home | undefined;
  /** True of a piece of the file itself. */
  isOwn(chunk: Chunk): boolean;
}

export type TreeReader = (uri: string, text: string) => FileTree;

export interface TreeMemory {
  readonly read: TreeReader;
  /** The same in steps; some of them have the tree of the beginning of a text that is new. What was read of it is kept if the rest is not. */
  readonly reading: (uri: string, text: string) => Generator<FileTree | undefined, FileTree>;
  readonly forget: (uri: string) => void;
}

/** Keeps the last tree of each file, so that an edit re-reads the blocks it touches; of the `most` that were asked for last. */
export function treeReader(most = Number.POSITIVE_INFINITY): TreeMemory {
  // A map leaves behind what it held each time that it grows; what stands in it stays the same while its tree changes.
  const last = new Map<string, { tree: FileTree }>();
  const keep = (uri: string, tree: FileTree): void => {
    const kept = last.get(uri) ?? { tree };
    kept.tree = tree;
    last.delete(uri);
    last.set(uri, kept);
    for (const [oldest] of last) {
      if (last.size <= most) break;
      last.delete(oldest);
    }
  };
  function* reading(uri: string, text: string): Generator<FileTree | undefined, FileTree> {
    const steps = readingFileTree(text, last.get(uri)?.tree);
    for (;;) {
      const { done, value } = steps.next();
      if (value) keep(uri, value);
      if (done) return value;
      yield value;
    }
  }
  return {
    read: (uri, text) => finished(reading(uri, text)),
    reading,
    forget: (uri) => {
      last.delete(uri);
    },
  };
}

export function useGraph(start: string, host: Host, readTree: TreeReader): UseGraph {
  const files = new Map<string, ReadFile>();
  const pending: string[] = [];
  const queue = [start];
  for (let uri = queue.shift(); uri !== undefined; uri = queue.shift()) {
    if (files.has(uri)) continue;
    const content = host.content(uri);
    if (content?.kind !== 'text') continue;
    const tree = readTree(uri, content.text);
    const file = {
      uri,
      tree,
      pieces: uri === start ? piecesOf(tree) : firstFormsOf(tree),
      uses: readUses(uri, tree, host),
    };
    files.set(uri, file);
    for (const use of file.uses) {
      if (use.uri === undefined) continue;
      if (use.state === 'pending') pending.push(use.uri);
      if (use.state === 'read') queue.push(use.uri);
    }
  }
  const homes = new Map<Chunk, Home>();
  const homeOf = (chunk: Chunk) => {
    if (homes.size === 0)
      for (const { uri, tree, pieces } of files.values())
        for (const [index, { chunk, offset }] of tree.chunks.entries())
          homes.set(pieces[index] ?? chunk, { uri, offset, chunk });
    return homes.get(chunk);
  };
  const reached = new Map<string, readonly ReadFile[]>();
  const reach = (uri: string): readonly ReadFile[] => {
    const known = reached.get(uri);
    if (known) return known;
    const found = breadthFirst(uri, files);
    reached.set(uri, found);
    return found;
  };
  const curves = new Map<string, CurveAt>();
  const curveAt = (from: string, path: string): CurveAt => {
    if (host.withoutSweeps) return { kind: 'left out' };
    const uri = resolveUse(from, path);
    if (uri === undefined || !host.isInside(uri)) return { kind: 'outside' };
    const known = curves.get(uri) ?? curveIn(host, uri);
    curves.set(uri, known);
    return known;
  };
  const scopes = new Map<string, Scope>();
  const scopeFor = (uri: string): Scope => {
    const known = scopes.get(uri);
    if (known) return known;
    const scope = scopeOver(reach(uri), (path) => curveAt(uri, path));
    scopes.set(uri, scope);
    return scope;
  };
  return {
    files: breadthFirst(start, files),
    pending,
    curves: () => ({
      uris: [...curves.keys()],
      pending: [...curves].flatMap(([uri, { kind }]) => (kind === 'pending' ? [uri] : [])),
    }),
    scopeOf: (chunk) => scopeFor(homeOf(chunk)?.uri ?? start),
    fileOf: (uri) => files.get(uri),
    reach,
    homeOf,
    isOwn: (chunk) => homeOf(chunk)?.uri === start,
  };
}

function curveIn(host: Host, uri: string): CurveAt {
  const content = host.content(uri);
  if (content === undefined) return { kind: 'pending' };
  if (content.kind === 'text') return curveFile(content.text);
  if (content.kind === 'unreadable') return content;
  const names = (host.curvesNear?.(uri) ?? []).filter((path) => !path.includes('/'));
  return { kind: 'missing', meant: nearest(decodeURIComponent(uri.slice(uri.lastIndexOf('/') + 1)), names) };
}

function breadthFirst(start: string, files: ReadonlyMap<string, ReadFile>): readonly ReadFile[] {
  const order: ReadFile[] = [];
  const seen = new Set([start]);
  const queue = [start];
  for (let uri = queue.shift(); uri !== undefined; uri = queue.shift()) {
    const file = files.get(uri);
    if (!file) continue;
    order.push(file);
    for (const use of file.uses)
      if (use.uri !== undefined && use.state === 'read' && !seen.has(use.uri)) {
        seen.add(use.uri);
        queue.push(use.uri);
      }
  }
  return order;
}

const piecesOf = onceFor(({ chunks }: FileTree) => chunks.map(({ chunk }) => chunk));
const firstFormsOf = onceFor(({ chunks }: FileTree) => chunks.map(({ chunk }) => firstForm(chunk)));

function readUses(uri: string, tree: FileTree, host: Host): readonly UsedFile[] {
  const uses: UsedFile[] = [];
  for (const { chunk } of tree.chunks) {
    const { content } = chunk;
    if (content?.kind === 'use' && content.path) uses.push(readUse(chunk, content.path.value, uri, host));
  }
  return uses;
}

function readUse(chunk: Chunk, written: string, from: string, host: Host): UsedFile {
  const uri = resolveUse(from, written);
  if (uri === undefined || !host.isInside(uri))
    return { chunk, written, uri: undefined, state: 'outside', reason: undefined };
  const found = host.content(uri);
  const state = found === undefined ? 'pending' : found.kind === 'text' ? 'read' : found.kind;
  return { chunk, written, uri, state, reason: found?.kind === 'unreadable' ? found.reason : undefined };
}

/** The URI that a path relative to a file stands for; `undefined` for anything but a plain relative path. */
export function resolveUse(fileUri: string, path: string): string | undefined {
  if (path === '' || /^[/\\]/.test(path) || /^[\p{L}][\p{L}\p{N}+.-]*:/u.test(path) || path.includes('\\'))
    return undefined;
  try {
    const encoded = path.split('/').map((part) => encodeURIComponent(part));
    return new URL(encoded.join('/'), fileUri).href;
  } catch {
    return undefined;
  }
}

type Names = ReadonlyMap<string, Chunk>;

/** Names that the pieces of a file declare, by the word of their block; of two alike the first. */
export const namesOf = onceFor((pieces: readonly Chunk[]): ReadonlyMap<string, Names> => {
  const kinds = new Map<string, Map<string, Chunk>>();
  for (const chunk of pieces) {
    const name = declaredName(chunk);
    if (!name) continue;
    const names = kinds.get(name.kind) ?? new Map<string, Chunk>();
    if (!names.has(name.text)) names.set(name.text, chunk);
    kinds.set(name.kind, names);
  }
  return kinds;
});

export interface DeclaredName {
  /** The word of its block. */
  readonly kind: string;
  readonly text: string;
}

export const declaredName = onceFor(({ content }: Chunk): DeclaredName | undefined => {
  if (content?.kind !== 'block') return undefined;
  const name = content.head.find((item) => item.kind === 'word');
  return name && { kind: content.keyword.text, text: name.text };
});

function scopeOver(files: readonly ReadFile[], curve: Scope['curve']): Scope {
  const complete = files.every(({ uses }) => uses.every(({ state }) => state === 'read'));
  const tables = files.map(({ pieces }) => namesOf(pieces));
  return {
    complete,
    curve,
    chunkOf: (kind: ShopKind, name: string) => {
      for (const table of tables) {
        const chunk = table.get(kind)?.get(name);
        if (chunk) return chunk;
      }
      return undefined;
    },
    names: (kind: ShopKind) => [...new Set(tables.flatMap((table) => [...(table.get(kind)?.keys() ?? [])]))],
  };
}
