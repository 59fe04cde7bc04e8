import { TextDocument } from 'vscode-languageserver-textdocument';
import { given } from '../../../grammar/values/present.ts';
import type { FileContent, Host } from '../analysis/analysis-types.ts';
import type { Levels } from '../analysis/levels.ts';
import { isCurveName } from '../model/curve-file.ts';
import { type FileBytes, isPhotoName, type PhotoFile, photoFile } from '../photos/photo-file.ts';
import type { Documents } from './documents.ts';
import { fileKey, folderOf, isBelow } from './file-key.ts';

/** Reads files where the server can do so itself. */
export interface Disk {
  /** Names change when the content may have: size and time. `undefined`: there is no such file. */
  stamp(uri: string): string | undefined;
  read(uri: string): FileContent;
  bytes(uri: string): FileBytes;
  siblings(uri: string): readonly string[];
  /** Every spec in a folder and below. */
  specsBelow(folder: string): Promise<readonly string[]>;
  /** Paths of the files in the folder of a file and in the folders beside it whose names are wanted. */
  namesNear(uri: string, isWanted: (name: string) => boolean): readonly string[];
  /** The same file behind all links, as far as it exists. */
  behindLinks(uri: string): string;
}

/** All files as the analysis sees them: open documents first, then the disk, then what the client reads for us. */
export interface Files extends Host {
  /** The text behind a URI with its lines; `undefined` where it has not been read. */
  document(uri: string): TextDocument | undefined;
  /** The file of a photograph as it is now. */
  photoBytes(uri: string): Promise<FileBytes>;
  /** Paths of curves in the folder of a file and in the folders beside it. */
  curvesNear(uri: string): readonly string[];
  /** From now on the disk is asked again whether its files are still the same. */
  newRound(): void;
  /** The file changed, came or went outside the editor. */
  forget(uri: string): void;
  setFolders(uris: readonly string[]): void;
  /** The folders of the workspace, by their keys. */
  folders(): readonly string[];
}

export interface FileSources {
  readonly documents: Documents;
  readonly disk: Disk | undefined;
  /** Asks the client; `undefined` where the client cannot. */
  readonly askClient: AskClient | undefined;
  /** How findings are told, whatever the bench says. */
  readonly levels?: (() => Levels) | undefined;
  /** Content that was not there when asked for has come. */
  readonly arrived: (uri: string) => void;
}

/** What the client reads for us. */
export interface AskClient {
  text(uri: string): Promise<FileContent>;
  bytes(uri: string): Promise<FileBytes>;
  /** Every spec of the workspace. */
  specs(): Promise<readonly string[]>;
}

export function createFiles({ documents, disk, askClient, arrived, levels }: FileSources): Files {
  let folders: readonly string[] = [];
  let round = 0;
  const texts = createShelf<FileContent>({
    round: () => round,
    arrived,
    disk: disk && { stamp: disk.stamp, read: disk.read },
    ask: askClient?.text,
  });
  const photos = createShelf<PhotoFile>({
    round: () => round,
    arrived,
    disk: disk && { stamp: disk.stamp, read: (uri) => photoFile(disk.bytes(uri)) },
    ask: askClient && (async (uri) => photoFile(await askClient.bytes(uri))),
  });
  const behindLinks = (key: string): string => (disk && key.startsWith('file:') ? fileKey(disk.behindLinks(key)) : key);
  const content = (uri: string): FileContent | undefined => {
    const open = documents.get(uri);
    if (open) return { kind: 'text', text: open.getText() };
    return texts.content(uri);
  };
  const namesNear = (uri: string, isWanted: (name: string) => boolean) =>
    disk && uri.startsWith('file:') ? disk.namesNear(uri, isWanted) : [];
  return {
    content,
    ...given({ levels }),
    isInside: (uri) => {
      const key = fileKey(uri);
      // A link inside must not lead out, however it is spelled.
      const lies = (folder: string): boolean => isBelow(key, folder) && isBelow(behindLinks(key), behindLinks(folder));
      if (folders.some(lies)) return true;
      // A file opened by itself brings its own folder along.
      for (const document of documents.all()) {
        if (lies(folderOf(fileKey(document.uri)))) return true;
      }
      return false;
    },
    siblings: (uri) => (disk && uri.startsWith('file:') ? disk.siblings(uri) : []),
    photo: photos.content,
    photosNear: (uri) => namesNear(uri, isPhotoName),
    curvesNear: (uri) => namesNear(uri, isCurveName),
    photoBytes: async (uri) =>
      disk && uri.startsWith('file:') ? disk.bytes(uri) : ((await askClient?.bytes(uri)) ?? MISSING),
    document: (uri) => {
      const open = documents.get(uri);
      if (open) return open;
      const found = content(uri);
      return found?.kind === 'text' ? TextDocument.create(uri, 'pickup', 0, found.text) : undefined;
    },
    newRound: () => {
      round += 1;
    },
    forget: (uri) => {
      const key = fileKey(uri);
      texts.forget(key);
      photos.forget(key);
    },
    setFolders: (uris) => {
      folders = uris.map(fileKey);
    },
    folders: () => folders,
  };
}

/** What files of one kind were when they were last looked at. */
interface Shelf<T> {
  content(uri: string): T | undefined;
  forget(key: string): void;
}

interface ShelfSources<T> {
  readonly round: () => number;
  readonly arrived: (uri: string) => void;
  readonly disk: { stamp(uri: string): string | undefined; read(uri: string): T } | undefined;
  readonly ask: ((uri: string) => Promise<T>) | undefined;
}

function createShelf<T>({ round, arrived, disk, ask }: ShelfSources<T | NotThere>): Shelf<T | NotThere> {
  const kept = new Map<string, Kept<T | NotThere>>();
  const asked = new Set<string>();
  const fromDisk = (source: NonNullable<typeof disk>, uri: string, key: string): T | NotThere => {
    const before = kept.get(key);
    if (before?.round === round()) return before.content;
    const stamp = source.stamp(uri);
    const isSame = before !== undefined && stamp !== undefined && before.stamp === stamp;
    const content = isSame ? before.content : stamp === undefined ? MISSING : source.read(uri);
    kept.set(key, { content, round: round(), stamp });
    return content;
  };
  const fromClient = (read: NonNullable<typeof ask>, uri: string, key: string): T | NotThere | undefined => {
    const before = kept.get(key);
    if (before !== undefined || asked.has(key)) return before?.content;
    asked.add(key);
    const keep = (content: T | NotThere): void => {
      // Forgotten meanwhile: what came is of the past, the next analysis asks anew.
      if (!asked.delete(key)) return;
      kept.set(key, { content, round: round(), stamp: undefined });
      arrived(uri);
    };
    read(uri).then(keep, () => keep({ kind: 'unreadable', reason: 'the editor could not read it' }));
    return undefined;
  };
  return {
    content: (uri) => {
      const key = fileKey(uri);
      if (disk && key.startsWith('file:')) return fromDisk(disk, uri, key);
      return ask ? fromClient(ask, uri, key) : MISSING;
    },
    forget: (key) => {
      kept.delete(key);
      asked.delete(key);
    },
  };
}

interface Kept<T> {
  readonly content: T;
  readonly round: number;
  readonly stamp: string | undefined;
}

type NotThere = { readonly kind: 'missing' } | { readonly kind: 'unreadable'; readonly reason: string };

const MISSING = { kind: 'missing' } as const;
