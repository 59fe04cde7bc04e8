/** The specs of the workspace that are not open: who names what in them, and what has to change in them too. */
import type { ResponseError as Refused, WorkspaceEdit } from 'vscode-languageserver';
import type { Analysis } from '../analysis/analysis-types.ts';
import type { FileMentions, Mention } from '../analysis/file-mentions.ts';
import { relativePath, usesAfterMove } from '../features/moved-files.ts';
import type { NamedThere } from '../features/name-at.ts';
import { isLocal, rename } from '../features/rename.ts';
import { fitsQuery } from '../features/workspace-symbols.ts';
import { fileKey, folderOf, isBelow } from './file-key.ts';
import type { FileSources } from './files.ts';
import {
  type DeclaredThere,
  declaredNames,
  filesDeclaring,
  filesMentioning,
  unreadableFiles,
} from './index-queries.ts';
import type { Pace } from './pace.ts';
import { LSPErrorCodes, ResponseError } from './protocol-library.ts';
import type { Session } from './session.ts';
import { MOST_SPECS } from './text-limits.ts';
import { toWorkspaceEdit } from './to-protocol.ts';
import { createWorkspaceIndex, type IndexedFile } from './workspace-index.ts';

export interface Workspace {
  /** By the key of the file. */
  readonly files: ReadonlyMap<string, IndexedFile>;
  /** Reads what it does not know yet; resolves once it knows every file as it is. */
  current(): Promise<void>;
  /** Lets go what was read of a file, unless it is open or others use it. */
  release(uri: string): void;
  /** These files may have changed outside the editor, come or gone. */
  changed(uris: readonly string[]): void;
  /** A document that is open has a new text: background work rests, and answers that are under way are void. */
  edited(): void;
  /** What every file of the workspace says of a name. */
  mentionsOf(named: NamedThere): Promise<readonly FileMentions[]>;
  /** Of files that may not be open, one a turn; they are let go again. */
  analysesOf(uris: readonly string[]): Promise<readonly Analysis[]>;
  /** Throws why a name may not be renamed at all. */
  mayRename(named: NamedThere): void;
  rename(named: NamedThere, newName: string): Promise<WorkspaceEdit>;
  /** True where no file but this one meets the names of the target and declares one of these itself. */
  isFree(names: readonly Pick<NamedThere, 'kind' | 'name'>[], uri: string, target: string): Promise<boolean>;
  symbols(query: string): Promise<readonly DeclaredThere[]>;
  /** Paths from a file to every other spec of the workspace that is known. */
  pathsFrom(uri: string): readonly string[];
  /** What keeps `use` lines right when files or folders move. */
  moving(moves: readonly { readonly oldUri: string; readonly newUri: string }[]): Promise<WorkspaceEdit | null>;
}

export interface WorkspaceSources extends Pick<FileSources, 'disk' | 'askClient'> {
  readonly session: Session;
  readonly pace: Pace;
  readonly failed: (what: string, error: unknown) => void;
}

export function createWorkspace({ session, disk, askClient, pace, failed }: WorkspaceSources): Workspace {
  const { documents, files } = session;
  const onDisk = (uri: string) => (disk && uri.startsWith('file:') ? disk : undefined);
  let edits = 0;

  /** Where no folder is open, what lies beside the files that are. */
  const list = async (): Promise<readonly string[]> => {
    const folders = files.folders();
    if (folders.length === 0)
      return [...documents.all()].flatMap(({ uri }) =>
        (onDisk(uri)?.siblings(uri) ?? []).map((name) => new URL(encodeURIComponent(name), uri).href),
      );
    const found = await Promise.all(folders.map((folder) => onDisk(folder)?.specsBelow(folder) ?? []));
    const elsewhere = folders.filter((folder) => !onDisk(folder));
    const told = elsewhere.length > 0 ? ((await askClient?.specs()) ?? []) : [];
    return [...found.flat(), ...told.filter((uri) => elsewhere.some((folder) => isBelow(fileKey(uri), folder)))];
  };
  const index = createWorkspaceIndex({
    documents,
    list,
    isInside: (uri) => files.isInside(uri),
    stamp: (uri) => onDisk(uri)?.stamp(uri),
    read: (uri) => onDisk(uri)?.read(uri) ?? askClient?.text(uri) ?? { kind: 'missing' },
    pace,
    failed,
  });

  const shownName = (uri: string): string => {
    const key = fileKey(uri);
    const folder = files.folders().find((each) => isBelow(key, each));
    const root = folder === undefined ? folderOf(key) : folder.endsWith('/') ? folder : `${folder}/`;
    return relativePath(root, key) ?? uri;
  };
  /** Reads what a file says of its names, and what it rests on where that comes from the client. */
  const mentionsIn = async (uri: string): Promise<FileMentions> => {
    for (let tries = 0; tries < TRIES; tries += 1) {
      await pace.turn();
      const found = session.mentions(uri);
      if (found.pending.length === 0) return byKey(found);
      await new Promise((resolve) => setTimeout(resolve, BETWEEN_MS));
    }
    throw refused(`${shownName(uri)} cannot be read now.`);
  };
  /** Answers about the texts as they are; void where one of them changes meanwhile. */
  const unchanged = <T>(answer: () => Promise<T>): Promise<T> =>
    pace.urgently(async () => {
      const before = edits;
      await index.current();
      const result = await answer();
      if (edits !== before) throw new ResponseError(LSPErrorCodes.ContentModified, 'The text has changed meanwhile.');
      return result;
    });
  const release = (uri: string): void => {
    if (!index.isUsed(fileKey(uri))) session.release(uri);
  };
  const mentionsInAll = async (found: readonly IndexedFile[]): Promise<readonly FileMentions[]> => {
    const all: FileMentions[] = [];
    for (const { uri } of new Set(found)) {
      all.push(await mentionsIn(uri));
      release(uri);
    }
    return all;
  };
  const mayRename = ({ kind, name, target }: NamedThere): void => {
    if (isLocal(kind)) return;
    const folders = files.folders();
    if (folders.length > 0 && !folders.some((folder) => isBelow(fileKey(target.uri), folder)))
      throw refused(
        `${name} is declared in ${shownName(target.uri)}, which lies outside the folders that are open; who else uses it is not known. Open its folder to rename it.`,
      );
    const [unread] = unreadableFiles(index.files);
    if (unread)
      throw refused(
        `${shownName(unread.uri)} cannot be read (${unread.unreadable}), and ${name} may stand in it. Mend or remove that file first.`,
      );
    if (index.files.size >= MOST_SPECS)
      throw refused(`More than ${MOST_SPECS} files are open as one workspace; open the folder of the shop alone.`);
  };
  return {
    files: index.files,
    release,
    current: () => index.current(),
    changed: (uris) => index.changed(uris),
    edited: () => {
      edits += 1;
      pace.interrupted();
    },
    mentionsOf: (named) =>
      unchanged(() => mentionsInAll(filesMentioning(index.files, fileKey(named.target.uri), named.name))),
    analysesOf: (uris) =>
      pace.urgently(async () => {
        const all: Analysis[] = [];
        for (const uri of uris) {
          await pace.turn();
          const analysis = session.analysisOfFile(uri);
          release(uri);
          if (analysis) all.push(analysis);
        }
        return all;
      }),
    mayRename,
    rename: (named, newName) =>
      unchanged(async () => {
        mayRename(named);
        const key = fileKey(named.target.uri);
        const { kind, name } = named;
        const touched = [
          ...filesMentioning(index.files, key, name),
          ...(isLocal(kind) ? [] : filesDeclaring(index.files, key, { kind, name: newName })),
        ];
        const renamed = rename(namedByKey(named), newName, await mentionsInAll(touched));
        if (!renamed.ok) {
          const document = renamed.at && files.document(renamed.at.uri);
          const line = renamed.at && document ? document.positionAt(renamed.at.start).line + 1 : undefined;
          throw refused(
            line === undefined || !document ? renamed.why : `${renamed.why} (${shownName(document.uri)}, line ${line})`,
          );
        }
        const edit = toWorkspaceEdit((uri) => files.document(uri), renamed.edits);
        if (edit === undefined) throw refused('A file that names it cannot be read any more.');
        return edit;
      }),
    isFree: (names, uri, target) =>
      pace.urgently(async () => {
        await index.current();
        return names.every((named) =>
          filesDeclaring(index.files, fileKey(target), named).every(({ key }) => key === fileKey(uri)),
        );
      }),
    symbols: (query) =>
      pace.urgently(async () => {
        await index.current();
        return declaredNames(index.files).filter(({ name }) => fitsQuery(name, query));
      }),
    pathsFrom: (uri) =>
      [...index.files.values()].flatMap(({ key }) =>
        key === fileKey(uri) ? [] : (relativePath(fileKey(uri), key) ?? []),
      ),
    moving: (moves) =>
      unchanged(async () => {
        const keys = moves.map(({ oldUri, newUri }) => ({ from: fileKey(oldUri), to: fileKey(newUri) }));
        const moved = (key: string): string => {
          const move = keys.find(({ from }) => key === from || isBelow(key, from));
          return move ? move.to + key.slice(move.from.length) : key;
        };
        const using = [...index.files.values()].map(({ key, uses }) => ({ uri: key, uses }));
        const changes: NonNullable<WorkspaceEdit['changes']> = {};
        for (const { uri: key, range, newText } of usesAfterMove(using, moved)) {
          const uri = index.files.get(key)?.uri ?? key;
          changes[uri] = [...(changes[uri] ?? []), { range, newText }];
        }
        return Object.keys(changes).length > 0 ? { changes } : null;
      }),
  };
}

const TRIES = 100;
const BETWEEN_MS = 20;

const refused = (why: string): Refused<void> => new ResponseError(LSPErrorCodes.RequestFailed, why);

/** One spelling for one file in all of them: what one file names, another declares. */
function byKey({ uri, mentions, ...rest }: FileMentions): FileMentions {
  return {
    ...rest,
    uri: fileKey(uri),
    mentions: mentions.map(
      ({ at, target, ...each }): Mention => ({
        ...each,
        at: { ...at, uri: fileKey(at.uri) },
        target: target && { ...target, uri: fileKey(target.uri) },
      }),
    ),
  };
}

export const namedByKey = (named: NamedThere): NamedThere => ({
  ...named,
  target: { ...named.target, uri: fileKey(named.target.uri) },
});
