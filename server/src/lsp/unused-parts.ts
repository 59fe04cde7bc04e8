import type { Diagnostic } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Analysis } from '../analysis/analysis-types.ts';
import type { Reference } from '../model/model.ts';
import { fileKey } from './file-key.ts';
import { unreadableFiles, usersOf } from './index-queries.ts';
import { DiagnosticSeverity, DiagnosticTag } from './protocol-library.ts';
import { toRange } from './to-protocol.ts';
import type { IndexedFile } from './workspace-index.ts';

/** Parts of a file of parts that no spec of the workspace names. */
export interface UnusedParts {
  /** Looks again, by the index as it is; true where it comes to something else than before. */
  look(document: TextDocument, analysis: Analysis): boolean;
  /** What was seen last, at the places of now. */
  hints(document: TextDocument, analysis: Analysis): Diagnostic[];
}

const PARTS = ['wire', 'spool', 'bobbin', 'magnet', 'switch'] as const satisfies readonly Reference['kind'][];

/** `files`: by the key of the file; `undefined` while they are not known. */
export function createUnusedParts(files: () => ReadonlyMap<string, IndexedFile> | undefined): UnusedParts {
  const seen = new WeakMap<TextDocument, ReadonlySet<string>>();
  return {
    look: (document, analysis) => {
      const before = seen.get(document) ?? NONE;
      const now = unusedIn(analysis, files());
      seen.set(document, now);
      return now.size !== before.size || [...now].some((name) => !before.has(name));
    },
    hints: (document, { model, locate }) => {
      const unused = seen.get(document) ?? NONE;
      if (unused.size === 0) return [];
      return model.references().flatMap((each) => {
        const at = each.declares && unused.has(nameOf(each)) ? locate(each.place) : undefined;
        return at
          ? [
              {
                range: toRange(document, at),
                severity: DiagnosticSeverity.Hint,
                source: 'pickup',
                message: `No spec of the workspace uses ${each.kind} ${each.name}.`,
                tags: [DiagnosticTag.Unnecessary],
              },
            ]
          : [];
      });
    },
  };
}

/** By its names alone: parts, and nothing that is made of them. */
export function isPartsFile(files: ReadonlyMap<string, IndexedFile>, uri: string): boolean {
  const kinds = (files.get(fileKey(uri))?.declared ?? []).map(({ kind }) => kind);
  return kinds.some(isPart) && !kinds.some((kind) => kind === 'pickup' || kind === 'instrument');
}

const isPart = (kind: Reference['kind']): boolean => PARTS.some((part) => part === kind);

const NONE: ReadonlySet<string> = new Set();

const nameOf = ({ kind, name }: Pick<Reference, 'kind' | 'name'>): string => `${kind} ${name}`;

/** Nothing of a file that nobody uses yet, nor where a file cannot be read: it may use anything. */
function unusedIn({ uri, model }: Analysis, files: ReadonlyMap<string, IndexedFile> | undefined): ReadonlySet<string> {
  if (!files || model.pickups.length + model.instruments.length > 0 || unreadableFiles(files).length > 0) return NONE;
  const key = fileKey(uri);
  const users = [...usersOf(files, [key])].flatMap((user) => (user === key ? [] : (files.get(user) ?? [])));
  if (users.length === 0) return NONE;
  const here = new Set(
    model
      .references()
      .filter(({ declares }) => !declares)
      .map(nameOf),
  );
  const parts = model.references().filter(({ kind, declares }) => declares && isPart(kind));
  const isNamed = (name: string): boolean => users.some(({ mentioned }) => mentioned.has(name));
  return new Set(parts.flatMap((part) => (here.has(nameOf(part)) || isNamed(part.name) ? [] : [nameOf(part)])));
}
