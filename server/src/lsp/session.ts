import type { CancellationToken } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import { type Analysing, createAnalyser, type DeclaredFile } from '../analysis/analysis.ts';
import type { Analysis, EarlyFindings } from '../analysis/analysis-types.ts';
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
  /** Files came or went: what was missing may be there now, and all documents have to be looked at again. */
  listingChanged(): void;
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
  const states = new Map<string, FileWork>();
  const resting = createResting();
  let listing = 0;
  const stateOf = (uri: string): FileWork => {
    const key = fileKey(uri);
    const state: FileWork = states.get(key) ?? {
      key,
      listing,
      restsOn: [],
      done: undefined,
      former: undefined,
      begun: undefined,
    };
    states.set(key, state);
    if (state.listing !== listing) clear(state);
    state.listing = listing;
    return state;
  };
  const finish = (uri: string, state: FileWork, analysis: Analysis | undefined): void => {
    state.done = { analysis };
    state.begun = undefined;
    state.former = undefined;
    if (analysis) resting.set(state, [uri, ...analysis.uris, ...analysis.curveUris, ...analysis.pending].map(fileKey));
  };
  const clear = (state: FileWork): void => {
    resting.drop(state);
    state.done = undefined;
    state.begun = undefined;
  };
  const goOn = (uri: string, isOver: () => boolean, wantsEarly = false): Progress => {
    const state = stateOf(uri);
    if (state.done || isTooLarge(documents.get(uri))) return { isDone: true };
    if (!state.begun) {
      files.newRound();
      state.begun = analyser.analysing(uri, files, state.former);
      // What it rests on is known once it is done.
      resting.onAll(state);
    }
    try {
      for (;;) {
        const step = state.begun.next();
        if (step.done) {
          // Late findings that have been worked out before cost nothing now.
          finish(uri, state, withFindings(step.value, step.value.knownFindings()));
          return { isDone: true };
        }
        const early = wantsEarly ? step.value?.() : undefined;
        if (early) return { isDone: false, early };
        if (isOver()) return { isDone: false };
      }
    } catch (error) {
      failed(`analysis of ${uri}`, error);
      finish(uri, state, undefined);
      return { isDone: true };
    }
  };
  const analyse = (uri: string): Analysis | undefined => {
    goOn(uri, () => false);
    return stateOf(uri).done?.analysis;
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
      const state = stateOf(document.uri);
      if (state.done) state.done = { ...state.done, analysis: after };
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
      const state = states.get(fileKey(uri));
      if (state) clear(state);
      states.delete(fileKey(uri));
    },
    changed: (uris) => {
      const touched: TextDocument[] = [];
      for (const state of resting.on(uris.map(fileKey))) {
        const document = documents.get(state.key);
        if (document) touched.push(document);
        else states.delete(state.key);
        state.former = state.done?.analysis ?? state.former;
        clear(state);
      }
      return touched;
    },
    listingChanged: () => {
      listing += 1;
    },
  };
}

/**
 * How far the work on a file has come. It stays the same object: a map leaves behind what it held each time that it grows, and
 * would drag one analysis a keystroke along.
 */
interface FileWork {
  readonly key: string;
  /** The listing of files that it was made with. */
  listing: number;
  /** Keys of the files that what is done rests on, its own among them. */
  restsOn: readonly string[];
  /** Without an analysis where it failed. */
  done: { readonly analysis: Analysis | undefined } | undefined;
  /** What was known of a document until it was changed. */
  former: Analysis | undefined;
  begun: Analysing | undefined;
}

const isTooLarge = (document: TextDocument | undefined): boolean =>
  document !== undefined && document.getText().length > MOST_BYTES;

const withFindings = (analysis: Analysis, findings: Analysis['findings']): Analysis =>
  findings === analysis.findings ? analysis : { ...analysis, findings };

/** Which work rests on which files, by their keys: a keystroke looks at what it touches only, however many files are open. */
interface Resting {
  set(work: FileWork, keys: readonly string[]): void;
  /** Any change of any file touches it. */
  onAll(work: FileWork): void;
  drop(work: FileWork): void;
  on(keys: readonly string[]): ReadonlySet<FileWork>;
}

function createResting(): Resting {
  const byKey = new Map<string, Set<FileWork>>();
  const onAll = new Set<FileWork>();
  const drop = (work: FileWork): void => {
    onAll.delete(work);
    for (const key of work.restsOn) {
      const works = byKey.get(key);
      works?.delete(work);
      if (works?.size === 0) byKey.delete(key);
    }
    work.restsOn = [];
  };
  return {
    set: (work, keys) => {
      drop(work);
      work.restsOn = keys;
      for (const key of keys) {
        const works = byKey.get(key) ?? new Set();
        byKey.set(key, works.add(work));
      }
    },
    onAll: (work) => {
      onAll.add(work);
    },
    drop,
    on: (keys) => new Set([...onAll, ...keys.flatMap((key) => [...(byKey.get(key) ?? [])])]),
  };
}
