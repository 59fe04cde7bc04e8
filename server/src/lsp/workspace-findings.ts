import type { Diagnostic } from 'vscode-languageserver';
import type { Documents } from './documents.ts';
import { fileKey } from './file-key.ts';
import { usersOf } from './index-queries.ts';
import type { Pace } from './pace.ts';
import type { IndexedFile } from './workspace-index.ts';

/** Findings of the specs that are not open, where they are wanted. */
export interface WorkspaceFindings {
  /** Switched off, what was told of files that are not open is taken back. */
  wanted(isWanted: boolean): void;
  /** These files are others now, open or not: so may be the findings of all that use them. */
  changed(uris: readonly string[]): void;
  /** The document is open: its findings are told as those of any open one. */
  opened(uri: string): void;
  /** Resolves once all that is wanted has been looked at. */
  settled(): Promise<void>;
}

export interface WorkspaceFindingsTarget {
  readonly documents: Documents;
  /** By the key of the file. */
  readonly files: ReadonlyMap<string, IndexedFile>;
  /** Resolves once `files` is as the files are. */
  readonly current: () => Promise<void>;
  readonly pace: Pace;
  /** `undefined` where nothing can be said of the file. */
  readonly diagnose: (uri: string) => Promise<Diagnostic[] | undefined>;
  /** Lets go what was read of a file for that. */
  readonly release: (uri: string) => void;
  readonly send: (uri: string, found: Diagnostic[]) => void;
  readonly failed: (what: string, error: unknown) => void;
}

/** One file a turn and only while hands rest, so that the files in sight and whatever is asked come first. */
export function createWorkspaceFindings(target: WorkspaceFindingsTarget): WorkspaceFindings {
  const { documents, files, pace, send } = target;
  /** Files of which something stands in the list, by their keys, as they were called. */
  const told = new Map<string, string>();
  const waiting = new Set<string>();
  const edited = new Set<string>();
  let isWanted = false;
  let isWorking = false;
  let working = Promise.resolve();
  let begun = Promise.resolve();

  const tell = (key: string, uri: string, found: Diagnostic[]): void => {
    if (found.length === 0 && !told.has(key)) return;
    if (found.length > 0) told.set(key, uri);
    else told.delete(key);
    send(uri, found);
  };
  const look = async (key: string): Promise<void> => {
    const file = files.get(key);
    if (documents.get(key)) return;
    if (file === undefined || file.unreadable !== undefined) return tell(key, told.get(key) ?? key, []);
    const found = await target.diagnose(file.uri);
    // Opened or switched off meanwhile: then others tell, or nobody.
    if (found && isWanted && !documents.get(key)) tell(key, file.uri, found);
    target.release(file.uri);
  };
  const workOff = async (): Promise<void> => {
    try {
      while (isWanted && edited.size + waiting.size > 0) {
        await pace.turn();
        if (edited.size > 0) {
          await target.current();
          for (const key of usersOf(files, edited)) waiting.add(key);
          edited.clear();
        }
        const [next] = waiting;
        if (next === undefined || !isWanted) continue;
        waiting.delete(next);
        await look(next);
      }
    } catch (error) {
      target.failed('findings of files that are not open', error);
    } finally {
      isWorking = false;
    }
  };
  const work = (): void => {
    if (isWorking) return;
    isWorking = true;
    working = workOff();
  };
  const changed = (uris: readonly string[]): void => {
    if (!isWanted) return;
    for (const uri of uris) edited.add(fileKey(uri));
    work();
  };
  return {
    wanted: (now) => {
      if (now === isWanted) return;
      isWanted = now;
      if (now)
        begun = target.current().then(() => {
          for (const key of files.keys()) waiting.add(key);
          work();
        });
      else {
        waiting.clear();
        edited.clear();
        for (const [key, uri] of told) if (!documents.get(key)) send(uri, []);
        told.clear();
      }
    },
    changed,
    settled: async () => {
      await begun;
      while (isWorking) await working;
    },
    opened: (uri) => {
      const former = told.get(fileKey(uri));
      told.delete(fileKey(uri));
      if (former !== undefined && former !== uri) send(former, []);
      changed([uri]);
    },
  };
}
