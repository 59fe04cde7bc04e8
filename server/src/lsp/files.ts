import { TextDocument } from 'vscode-languageserver-textdocument';
import type { FileContent, Host } from '../analysis/analysis-types.ts';
import type { Documents } from './documents.ts';
import { fileKey, folderOf, isBelow } from './file-key.ts';

/** Reads files where the server can do so itself. */
export interface Disk {
  /** Names change when the content may have: size and time. `undefined`: there is no such file. */
  stamp(uri: string): string | undefined;
  read(uri: string): FileContent;
  siblings(uri: string): readonly string[];
  /** The same file behind all links, as far as it exists. */
  behindLinks(uri: string): string;
}

/** All files as the analysis sees them: open documents first, then the disk, then what the client reads for us. */
export interface Files extends Host {
  /** The text behind a URI with its lines; `undefined` where it has not been read. */
  document(uri: string): TextDocument | undefined;
  /** From now on the disk is asked again whether its files are still the same. */
  newRound(): void;
  /** The file changed, came or went outside the editor. */
  forget(uri: string): void;
  setFolders(uris: readonly string[]): void;
}

export interface FileSources {
  readonly documents: Documents;
  readonly disk: Disk | undefined;
  /** Asks the client; `undefined` where the client cannot. */
  readonly askClient: ((uri: string) => Promise<FileContent>) | undefined;
  /** Content that was not there when asked for has come. */
  readonly arrived: (uri: string) => void;
}

export function createFiles({ documents, disk, askClient, arrived }: FileSources): Files {
  const kept = new Map<string, Kept>();
  const asked = new Set<string>();
  let folders: readonly string[] = [];
  let round = 0;

  const fromDisk = (source: Disk, uri: string, key: string): FileContent => {
    const before = kept.get(key);
    if (before?.round === round) return before.content;
    const stamp = source.stamp(uri);
    const isSame = before !== undefined && stamp !== undefined && before.stamp === stamp;
    const content = isSame ? before.content : stamp === undefined ? MISSING : source.read(uri);
    kept.set(key, { content, round, stamp });
    return content;
  };
  const fromClient = (
    ask: (uri: string) => Promise<FileContent>,
    uri: string,
    key: string,
  ): FileContent | undefined => {
    const before = kept.get(key);
    if (before !== undefined || asked.has(key)) return before?.content;
    asked.add(key);
    const keep = (content: FileContent): void => {
      // Forgotten meanwhile: what came is of the past, the next analysis asks anew.
      if (!asked.delete(key)) return;
      kept.set(key, { content, round, stamp: undefined });
      arrived(uri);
    };
    ask(uri).then(keep, () => keep({ kind: 'unreadable', reason: 'the editor could not read it' }));
    return undefined;
  };
  const behindLinks = (key: string): string => (disk && key.startsWith('file:') ? fileKey(disk.behindLinks(key)) : key);
  const content = (uri: string): FileContent | undefined => {
    const open = documents.get(uri);
    if (open) return { kind: 'text', text: open.getText() };
    const key = fileKey(uri);
    if (disk && key.startsWith('file:')) return fromDisk(disk, uri, key);
    return askClient ? fromClient(askClient, uri, key) : MISSING;
  };
  return {
    content,
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
      kept.delete(key);
      asked.delete(key);
    },
    setFolders: (uris) => {
      folders = uris.map(fileKey);
    },
  };
}

interface Kept {
  readonly content: FileContent;
  readonly round: number;
  readonly stamp: string | undefined;
}

const MISSING: FileContent = { kind: 'missing' };
