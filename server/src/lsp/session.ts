import type { CancellationToken } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import { type Analysing, createAnalyser, type DeclaredFile, type EarlyFindings } from '../analysis/analysis.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import type { FileMentions } from '../analysis/file-mentions.ts';
import { createDocuments, type Documents } from './documents.ts';
import { fileKey } from './file-key.ts';
import { createFiles, type FileSources, type Files } from './files.ts';
import { slice } from './pace.ts';
import { MOST_BYTES } from './text-limits.ts';

/** A document that is open and its analysis. */
export interface Opened {
  readonly document: TextDocument;
  readonly analysis: Analysis;
}

/** The open documents, the files behind them, and an analysis of each that is never older than its text. */
export interface Session {
  readonly documents: Documents;
  readonly files: Files;
  /**
   * `undefined` for a text too long to be a spec, and where the analysis itself failed (which is told in the log). What is not
   * analysed yet is, at once and however long it takes; where others must not wait for that, it is gone on with before.
   */
  analysisOf(document: TextDocument): Analysis | undefined;
  /**
   * Goes on with the analysis of a file until it is done, until there is something to tell early (where that is wanted), or
   * until `isOver`, which is asked after each step. A change of any file ends what was begun.
   */
  goOn(uri: string, isOver: () => boolean, wantsEarly?: boolean): Progress;
  /** An open document for somebody who waits for its analysis, in turns, of the text as it is then; nothing where nobody waits any more. */
  whenAnalysed(uri: string, token?: CancellationToken): Promise<Opened | undefined>;
  /**
   * From now on the analysis holds the findings that need heavy numbers as well; after later edits too, as long as what
   * they rest on stays as it is. True where there are more of them than before.
   */
  complete(document: TextDocument): boolean;
  /** Of a file of the workspace, open or not. `undefined` where it lies outside, and where the analysis failed. */
  analysisOfFile(uri: string): Analysis | undefined;
  /** What a file of the workspace declares, open or not; nothing is solved for it. `undefined` where it lies outside. */
  declared(uri: string): DeclaredFile | undefined;
  /** What the names of a file stand for, open or not; nothing is solved for it. */
  mentions(uri: string): FileMentions;
  /** Lets go what was made of the text of a file that is not open; the text stays, for places to be told in it. */
  release(uri: string): void;
  /** Forgets what rests on these files; returns the open documents that have to be looked at again. */
  changed(uris: readonly string[]): readonly TextDocument[];
  /** Files came or went: what was missing may be there now. Returns all open documents. */
  listingChanged(): readonly TextDocument[];
}

export interface Progress {
  readonly isDone: boolean;
  readonly early?: EarlyFindings;
}

export interface SessionOptions {
  readonly sources: Pick<FileSources, 'disk' | 'askClient' | 'arrived' | 'levels'>;
  readonly failed: (what: string, error: unknown) => void;
  /** Runs the callback in a turn of its own, soon. */
  readonly soon: (callback: () => void) => void;
}

export function createSession({ sources, failed, soon }: SessionOptions): Session {
  const documents = createDocuments();
  const files = createFiles({ documents, ...sources });
  const analyser = createAnalyser();
  const known = new Map<string, Analysis | undefined>();
  /** What was known of a document until it was changed. */
  const former = new Map<string, Analysis>();
  const begun = new Map<string, Analysing>();

  const begin = (uri: string, key: string): Analysing => {
    files.newRound();
    const work = analyser.analysing(uri, files, former.get(key));
    begun.set(key, work);
    return work;
  };
  const finish = (key: string, analysis: Analysis | undefined): void => {
    known.set(key, analysis);
    begun.delete(key);
    former.delete(key);
  };
  const goOn = (uri: string, isOver: () => boolean, wantsEarly = false): Progress => {
    const key = fileKey(uri);
    if (known.has(key) || isTooLarge(documents.get(uri))) return { isDone: true };
    const work = begun.get(key) ?? begin(uri, key);
    try {
      for (;;) {
        const step = work.next();
        if (step.done) {
          // Late findings that have been worked out before cost nothing now.
          finish(key, withFindings(step.value, step.value.knownFindings()));
          return { isDone: true };
        }
        if (step.value && wantsEarly) return { isDone: false, early: step.value() };
        if (isOver()) return { isDone: false };
      }
    } catch (error) {
      failed(`analysis of ${uri}`, error);
      finish(key, undefined);
      return { isDone: true };
    }
  };
  const analyse = (uri: string): Analysis | undefined => {
    goOn(uri, () => false);
    return known.get(fileKey(uri));
  };
  const analysisOf = (document: TextDocument): Analysis | undefined =>
    isTooLarge(document) ? undefined : analyse(document.uri);
  return {
    documents,
    files,
    analysisOf,
    goOn,
    whenAnalysed: async (uri, token) => {
      const document = documents.get(uri);
      if (document === undefined) return undefined;
      while (!goOn(document.uri, slice()).isDone) {
        await new Promise<void>(soon);
        if (token?.isCancellationRequested || documents.get(document.uri) !== document) return undefined;
      }
      const analysis = analysisOf(document);
      return analysis && { document, analysis };
    },
    complete: (document) => {
      const before = analysisOf(document);
      if (before === undefined) return false;
      const after = withFindings(before, before.allFindings());
      known.set(fileKey(document.uri), after);
      return after !== before;
    },
    analysisOfFile: (uri) => (files.isInside(uri) ? analyse(uri) : undefined),
    declared: (uri) => {
      files.newRound();
      return files.isInside(uri) ? analyser.declared(uri, files) : undefined;
    },
    mentions: (uri) => {
      files.newRound();
      return analyser.mentions(uri, files);
    },
    release: (uri) => {
      if (documents.get(uri)) return;
      analyser.forget(uri);
      known.delete(fileKey(uri));
      begun.delete(fileKey(uri));
    },
    changed: (uris) => {
      const keys = new Set(uris.map(fileKey));
      const stale = [...known].filter(
        ([key, analysis]) => keys.has(key) || analysis === undefined || isPartOf(analysis, keys),
      );
      for (const [key, analysis] of stale) {
        known.delete(key);
        if (analysis && documents.get(key)) former.set(key, analysis);
      }
      const left = new Set([...stale.map(([key]) => key), ...begun.keys()]);
      begun.clear();
      return [...left].flatMap((key) => documents.get(key) ?? []);
    },
    listingChanged: () => {
      known.clear();
      begun.clear();
      return [...documents.all()];
    },
  };
}

const isTooLarge = (document: TextDocument | undefined): boolean =>
  document !== undefined && document.getText().length > MOST_BYTES;

const isPartOf = ({ uris, curveUris, pending }: Analysis, keys: ReadonlySet<string>): boolean =>
  [uris, curveUris, pending].some((each) => each.some((uri) => keys.has(fileKey(uri))));

const withFindings = (analysis: Analysis, findings: Analysis['findings']): Analysis =>
  findings === analysis.findings ? analysis : { ...analysis, findings };
