import { type Range, TextDocument } from 'vscode-languageserver-textdocument';
import type { FileContent } from '../analysis/analysis-types.ts';
import { resolveUse } from '../analysis/use-graph.ts';
import type { Reference } from '../model/model.ts';
import { type WrittenNames, writtenNames } from '../model/written-names.ts';
import type { Documents } from './documents.ts';
import { fileKey } from './file-key.ts';
import type { Pace } from './pace.ts';
import { MOST_BYTES } from './text-limits.ts';

/** What is kept of a file of the workspace: its names, not its text. */
export interface IndexedFile {
  readonly uri: string;
  readonly key: string;
  /** Why it could not be read. */
  readonly unreadable: string | undefined;
  readonly uses: readonly IndexedUse[];
  readonly declared: readonly IndexedName[];
  readonly reworked: readonly string[];
  readonly mentioned: ReadonlySet<string>;
}

export interface IndexedUse {
  readonly path: string;
  /** Of the path with its quotes. */
  readonly range: Range;
  /** The file that it leads to. */
  readonly target: string;
}

export interface IndexedName {
  readonly kind: Reference['kind'];
  readonly name: string;
  readonly range: Range;
}

/** The names of every spec of the workspace, open or not. */
export interface WorkspaceIndex {
  /** Resolves once everything in it is as the files are now. */
  current(): Promise<void>;
  /** These files may have changed, come or gone. */
  changed(uris: readonly string[]): void;
  /** By the key of the file. */
  readonly files: ReadonlyMap<string, IndexedFile>;
  /** True where another file uses it. */
  isUsed(key: string): boolean;
}

export interface IndexSources {
  readonly documents: Documents;
  /** Every spec of the workspace that lies inside it. */
  readonly list: () => Promise<readonly string[]>;
  readonly isInside: (uri: string) => boolean;
  /** Changes when the content may have; `undefined` where only `changed` tells. */
  readonly stamp: (uri: string) => string | undefined;
  readonly read: (uri: string) => FileContent | Promise<FileContent>;
  readonly pace: Pace;
  readonly failed: (what: string, error: unknown) => void;
}

export function createWorkspaceIndex(sources: IndexSources): WorkspaceIndex {
  const { documents, pace, isInside } = sources;
  const files = new Map<string, IndexedFile>();
  const stamps = new Map<string, string>();
  const names = createNamePool();
  let used: ReadonlySet<string> = new Set();
  let waiting: Promise<void> | undefined;
  let running: Promise<void> = Promise.resolve();

  const stampOf = (uri: string): string => {
    const open = documents.get(uri);
    return open ? `open ${open.version}` : (sources.stamp(uri) ?? 'told of');
  };
  const contentOf = (uri: string): FileContent | Promise<FileContent> => {
    const open = documents.get(uri);
    return open ? { kind: 'text', text: open.getText() } : sources.read(uri);
  };
  const drop = (key: string): void => {
    files.delete(key);
    stamps.delete(key);
  };
  const index = async (uri: string, key: string): Promise<void> => {
    const content = await contentOf(uri);
    if (content.kind === 'missing') return drop(key);
    const isTooLong = content.kind === 'text' && content.text.length > MOST_BYTES;
    if (content.kind === 'unreadable' || isTooLong) {
      const unreadable = content.kind === 'unreadable' ? content.reason : 'it is longer than a spec may be';
      files.set(key, { ...NOTHING, uri, key, unreadable });
      return;
    }
    const steps = writtenNames(content.text);
    let step = steps.next();
    for (; !step.done; step = steps.next()) await pace.turn();
    const document = TextDocument.create(uri, 'pickup', 0, content.text);
    files.set(key, { uri, key, unreadable: undefined, ...indexed(step.value, document, names) });
  };
  const usesOf = (key: string): readonly string[] => (files.get(key)?.uses ?? []).map(({ target }) => target);
  const refresh = async (): Promise<void> => {
    const seen = new Set<string>();
    const uris = [...[...documents.all()].map(({ uri }) => uri), ...(await sources.list())];
    // Files that others use join the line behind those that were listed.
    for (const uri of uris) {
      const key = fileKey(uri);
      if (seen.has(key)) continue;
      seen.add(key);
      await pace.turn();
      const stamp = stampOf(uri);
      if (stamps.get(key) === stamp) {
        uris.push(...usesOf(key));
        continue;
      }
      if (!documents.get(uri) && !isInside(uri)) {
        seen.delete(key);
        continue;
      }
      // Before it is read: what changes meanwhile is read again.
      stamps.set(key, stamp);
      try {
        await index(uri, key);
      } catch (error) {
        sources.failed(`index of ${uri}`, error);
        files.set(key, { ...NOTHING, uri, key, unreadable: 'reading its names failed' });
      }
      uris.push(...usesOf(key));
    }
    for (const key of files.keys()) if (!seen.has(key)) drop(key);
    used = new Set([...files.values()].flatMap(({ uses }) => uses.map(({ target }) => target)));
  };
  return {
    files,
    isUsed: (key) => used.has(key),
    current: () => {
      // Who asks while one is under way wants the next: files may have changed since it began.
      waiting ??= running.then(() => {
        waiting = undefined;
        running = refresh().catch((error) => sources.failed('index', error));
        return running;
      });
      return waiting;
    },
    changed: (uris) => {
      for (const uri of uris) stamps.delete(fileKey(uri));
    },
  };
}

const NOTHING = { uses: [], declared: [], reworked: [], mentioned: new Set<string>() } as const;

function indexed(
  written: WrittenNames,
  document: TextDocument,
  pooled: (name: string) => string,
): Omit<IndexedFile, 'uri' | 'key' | 'unreadable'> {
  const rangeOf = ({ start, end }: { readonly start: number; readonly end: number }): Range => ({
    start: document.positionAt(start),
    end: document.positionAt(end),
  });
  return {
    uses: written.uses.flatMap(({ path, span }) => {
      const target = resolveUse(document.uri, path);
      return target === undefined
        ? []
        : [{ path: pooled(path), range: rangeOf(span), target: pooled(fileKey(target)) }];
    }),
    declared: written.declared.map(({ kind, name, span }) => ({ kind, name: pooled(name), range: rangeOf(span) })),
    reworked: written.reworked.map(pooled),
    mentioned: new Set([...written.mentioned].map(pooled)),
  };
}

/** One string for each name of the shop. A piece of a text would keep all of that text. */
function createNamePool(): (name: string) => string {
  const pool = new Map<string, string>();
  return (name) => {
    const known = pool.get(name);
    if (known !== undefined) return known;
    const own = ` ${name}`.slice(1);
    pool.set(own, own);
    return own;
  };
}
