import type { TextDocument } from 'vscode-languageserver-textdocument';
import { createAnalyser } from '../analysis/analysis.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import type { FileMentions } from '../analysis/file-mentions.ts';
import { createDocuments, type Documents } from './documents.ts';
import { fileKey } from './file-key.ts';
import { createFiles, type FileSources, type Files } from './files.ts';
import { MOST_BYTES } from './text-limits.ts';

/** The open documents, the files behind them, and an analysis of each that is never older than its text. */
export interface Session {
  readonly documents: Documents;
  readonly files: Files;
  /** `undefined` for a text too long to be a spec, and where the analysis itself failed (which is told in the log). */
  analysisOf(document: TextDocument): Analysis | undefined;
  /**
   * From now on the analysis holds the findings that need heavy numbers as well; after later edits too, as long as what
   * they rest on stays as it is. True where there are more of them than before.
   */
  complete(document: TextDocument): boolean;
  /** Of a file of the workspace, open or not. `undefined` where it lies outside, and where the analysis failed. */
  analysisOfFile(uri: string): Analysis | undefined;
  /** What the names of a file stand for, open or not; nothing is solved for it. */
  mentions(uri: string): FileMentions;
  /** Lets go what was made of the text of a file that is not open; the text stays, for places to be told in it. */
  release(uri: string): void;
  /** Forgets what rests on these files; returns the open documents that have to be looked at again. */
  changed(uris: readonly string[]): readonly TextDocument[];
  /** Files came or went: what was missing may be there now. Returns all open documents. */
  listingChanged(): readonly TextDocument[];
}

export interface SessionOptions {
  readonly sources: Pick<FileSources, 'disk' | 'askClient' | 'arrived'>;
  readonly failed: (what: string, error: unknown) => void;
}

export function createSession({ sources, failed }: SessionOptions): Session {
  const documents = createDocuments();
  const files = createFiles({ documents, ...sources });
  const analyser = createAnalyser();
  const known = new Map<string, Analysis | undefined>();

  const analyse = (uri: string): Analysis | undefined => {
    const key = fileKey(uri);
    if (known.has(key)) return known.get(key);
    files.newRound();
    let analysis: Analysis | undefined;
    try {
      const analysed = analyser.analyse(uri, files);
      // Late findings that have been worked out before cost nothing now.
      analysis = withFindings(analysed, analysed.knownFindings());
    } catch (error) {
      failed(`analysis of ${uri}`, error);
    }
    known.set(key, analysis);
    return analysis;
  };
  const analysisOf = (document: TextDocument): Analysis | undefined =>
    document.getText().length > MOST_BYTES ? undefined : analyse(document.uri);
  return {
    documents,
    files,
    analysisOf,
    complete: (document) => {
      const before = analysisOf(document);
      if (before === undefined) return false;
      const after = withFindings(before, before.allFindings());
      known.set(fileKey(document.uri), after);
      return after !== before;
    },
    analysisOfFile: (uri) => (files.isInside(uri) ? analyse(uri) : undefined),
    mentions: (uri) => {
      files.newRound();
      return analyser.mentions(uri, files);
    },
    release: (uri) => {
      if (documents.get(uri)) return;
      analyser.forget(uri);
      known.delete(fileKey(uri));
    },
    changed: (uris) => {
      const keys = new Set(uris.map(fileKey));
      const stale = [...known].filter(
        ([key, analysis]) => keys.has(key) || analysis === undefined || isPartOf(analysis, keys),
      );
      for (const [key] of stale) known.delete(key);
      return stale.flatMap(([key]) => documents.get(key) ?? []);
    },
    listingChanged: () => {
      known.clear();
      return [...documents.all()];
    },
  };
}

const isPartOf = ({ uris, pending }: Analysis, keys: ReadonlySet<string>): boolean =>
  uris.some((uri) => keys.has(fileKey(uri))) || pending.some((uri) => keys.has(fileKey(uri)));

const withFindings = (analysis: Analysis, findings: Analysis['findings']): Analysis =>
  findings === analysis.findings ? analysis : { ...analysis, findings };
