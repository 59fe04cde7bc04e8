import type {
  Connection,
  Diagnostic,
  DiagnosticServerCancellationData,
  DocumentDiagnosticParams,
  DocumentDiagnosticReport,
  InitializeParams,
  InitializeResult,
  WorkspaceDiagnosticParams,
  WorkspaceDiagnosticReport,
} from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import { attached } from '../../../grammar/values/attached.ts';
import { given } from '../../../grammar/values/present.ts';
import { CURVE_ENDINGS } from '../model/curve-file.ts';
import { PHOTO_ENDINGS } from '../photos/photo-file.ts';
import { type ClientAbilities, readAbilities } from './client-abilities.ts';
import { whenRead } from './compared-states.ts';
import { createPull, type Pull } from './diagnostics-pull.ts';
import { createPush, type Push } from './diagnostics-push.ts';
import type { Disk } from './files.ts';
import { answering, heeding, type Report } from './guard.ts';
import { languageCapabilities, serveLanguage } from './language-requests.ts';
import { createLateFindings, type LateFindings } from './late-findings.ts';
import { serveOwnRequests } from './own-requests.ts';
import { createPace, slice } from './pace.ts';
import {
  ANALYSED_NOTIFICATION,
  type AnalysedParams,
  IN_SIGHT_NOTIFICATION,
  type InSightParams,
  PROTOCOL_VERSION,
} from './protocol.ts';
import {
  CodeLensRefreshRequest,
  DidChangeConfigurationNotification,
  DidChangeWatchedFilesNotification,
  DocumentDiagnosticReportKind,
  FileOperationPatternKind,
  TextDocumentSyncKind,
} from './protocol-library.ts';
import { askClientForFile } from './read-file.ts';
import { sayTheSame } from './same-diagnostics.ts';
import { sentFindings } from './sent-findings.ts';
import { createSession, type Session } from './session.ts';
import { DEFAULT_SETTINGS, readSettings, SETTINGS_SECTION, type Settings } from './settings.ts';
import { tooLargeDiagnostic } from './too-large.ts';
import { createUnusedParts, isPartsFile } from './unused-parts.ts';
import { warmUp } from './warm-up.ts';
import { createWorkspace, type Workspace } from './workspace.ts';
import { createWorkspaceFindings, type WorkspaceFindings } from './workspace-findings.ts';

/** What differs between Node and a browser's worker. */
export interface Platform {
  readonly disk: Disk | undefined;
  /** Runs the callback in a turn of its own, soon. */
  readonly soon: (callback: () => void) => void;
  /** Frees what has just become useless, which takes a moment now instead of one while somebody waits. */
  readonly tidy?: () => void;
}

/** The server: everything that it does hangs on this connection. */
export function serve(connection: Connection, platform: Platform): void {
  const report: Report = (what, error) => {
    connection.console.error(`${what}: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`);
  };
  connection.onInitialize((params) => {
    const abilities = readAbilities(params);
    const served = start(connection, platform, { abilities, report });
    served.setFolders(foldersOf(params));
    return served.result;
  });
}

interface ToldEarly {
  readonly version: number;
  readonly found: readonly Diagnostic[];
}

interface Started {
  readonly result: InitializeResult;
  setFolders(uris: readonly string[]): void;
}

function start(
  connection: Connection,
  platform: Platform,
  { abilities, report }: { readonly abilities: ClientAbilities; readonly report: Report },
): Started {
  let settings: Settings = DEFAULT_SETTINGS;
  const askClient = abilities.readsFiles ? askClientForFile(connection) : undefined;
  const session: Session = createSession({
    sources: {
      disk: platform.disk,
      askClient,
      levels: () => settings.levels,
      arrived: (uri) => push.affected(session.changed([uri])),
    },
    failed: report,
    soon: platform.soon,
  });
  const pace = createPace({
    soon: platform.soon,
    after: (milliseconds, callback) => setTimeout(callback, milliseconds),
    now: () => performance.now(),
  });
  const workspace = createWorkspace({
    session,
    disk: platform.disk,
    askClient,
    pace,
    failed: report,
  });
  const pull = abilities.pullsFindings
    ? createPull({
        documents: session.documents,
        refresh: () => void connection.languages.diagnostics.refresh().catch(ignore),
      })
    : undefined;
  const sendTo = (uri: string, version: number | undefined, found: Diagnostic[]): Promise<void> | undefined => {
    if (!pull) return connection.sendDiagnostics({ uri, ...given({ version }), diagnostics: found });
    pull.publish(uri, version ?? null, found);
    return undefined;
  };
  const asSent = sentFindings({ ...abilities, textOf: (uri) => session.files.document(uri) });
  const unopened = createWorkspaceFindings({
    documents: session.documents,
    files: workspace.files,
    current: () => workspace.current(),
    pace,
    diagnose: async (uri) => {
      const analysis = await whenRead(() => session.analysisOfFile(uri));
      const document = session.files.document(uri);
      return analysis && document && asSent(document, analysis);
    },
    release: (uri) => workspace.release(uri),
    send: (uri, found) => void sendTo(uri, undefined, found),
    failed: report,
  });
  const soon = (callback: () => void): void =>
    platform.soon(() => heeding(report, 'sending findings', callback)(undefined));
  const send = ({ uri, version }: TextDocument, found: Diagnostic[]) => sendTo(uri, version, found);
  const tell = (document: TextDocument, complete: boolean, isNews: boolean): void => {
    const { uri, version } = document;
    const { pickups = [], instruments = [] } = session.analysisOf(document)?.model ?? {};
    const builds = pickups.length + instruments.length;
    const params: AnalysedParams = { protocol: PROTOCOL_VERSION, uri, version, complete, isNews, builds };
    if (abilities.isOurs) void connection.sendNotification(ANALYSED_NOTIFICATION, params);
  };
  let isIndexed = false;
  const unused = createUnusedParts(() => (isIndexed ? workspace.files : undefined));
  const diagnosed = (document: TextDocument): Diagnostic[] => {
    const analysis = session.analysisOf(document);
    if (!analysis) return tooLargeDiagnostic(document);
    return [...asSent(document, analysis), ...unused.hints(document, analysis)];
  };
  const looksAtParts = (document: TextDocument): boolean => {
    const analysis = isPartsFile(workspace.files, document.uri) ? session.analysisOf(document) : undefined;
    return analysis !== undefined && unused.look(document, analysis);
  };
  /** Files may be others than they were: the index follows, and what is said of parts by it. */
  const lookAround = (): void =>
    void workspace.current().then(() => {
      isIndexed = true;
      push.affected([...session.documents.all()].filter(looksAtParts));
    });
  let isWarm = false;
  const warmUpOnce = (document: TextDocument): void => {
    const analysis = session.analysisOf(document);
    if (isWarm || analysis === undefined || analysis.model.pickups.length === 0) return;
    isWarm = true;
    warmUp(analysis, session.files, pace).catch((error: unknown) => report('warming up', error));
  };
  const late: LateFindings = createLateFindings({
    analysisOf: (document) => session.analysisOf(document),
    ready: (document) => {
      const [hasMore, hasOther] = [session.complete(document), looksAtParts(document)];
      const isNews = hasMore || hasOther;
      if (isNews) void send(document, diagnosed(document));
      tell(document, true, isNews);
      warmUpOnce(document);
    },
    afterRest: (callback) => {
      const timer = setTimeout(heeding(report, 'late findings', callback), REST_MS, undefined);
      return () => clearTimeout(timer);
    },
    soon,
    slice,
  });
  /** What was sent before the circuit was solved: where solving shows nothing else, it need not be sent again. */
  const toldEarly = attached<TextDocument, ToldEarly | undefined>();
  let seen: readonly string[] = [];
  connection.onNotification(
    IN_SIGHT_NOTIFICATION,
    heeding<InSightParams>(report, 'files in sight', ({ uris }) => {
      seen = uris.filter((uri) => typeof uri === 'string');
    }),
  );
  let tidying: ReturnType<typeof setTimeout> | undefined;
  const tidySoon = (): void => {
    clearTimeout(tidying);
    if (platform.tidy) tidying = setTimeout(heeding(report, 'tidying', platform.tidy), SENT_MS, undefined);
  };
  const push: Push = createPush({
    soon,
    rested: tidySoon,
    all: () => session.documents.all(),
    othersAffected: () => refreshBeside(),
    inSight: () => seen.flatMap((uri) => session.documents.get(uri) ?? []),
    diagnose: (document, wantsEarly) => {
      const { isDone, early } = session.goOn(document.uri, slice(), wantsEarly);
      if (isDone) return { found: diagnosed(document), isDone };
      // What nobody waits for comes after what is in sight.
      pace.interrupted();
      return { found: early && asSent(document, early), isDone };
    },
    send: (document, found, isDone) => {
      const { version } = document;
      const before = toldEarly.get(document);
      const isNews = before?.version !== version || !sayTheSame(before.found, found);
      const sending = isNews ? send(document, found) : undefined;
      toldEarly.set(document, isDone ? undefined : { version, found });
      if (!isDone) return sending?.then(taken);
      tell(document, false, true);
      late.wanted(document);
      return sending;
    },
  });
  const refreshBeside = (): void => {
    if (abilities.refreshesHints) connection.languages.inlayHint.refresh().catch(ignore);
    if (abilities.refreshesLenses) connection.sendRequest(CodeLensRefreshRequest.type).catch(ignore);
  };
  /** What stands beside the text in the editor has changed although that text has not. */
  const affected = (documents: readonly TextDocument[]): void => {
    push.affected(documents);
    if (documents.length > 0) refreshBeside();
  };

  const listingChanged = (): void => {
    session.listingChanged();
    push.allAffected();
  };
  const closed = (uri: string): void => {
    if (pull) pull.dropped(uri);
    else void sendTo(uri, undefined, []);
  };
  listenToDocuments(connection, session, { push, late, workspace, unopened, affected, listingChanged, closed, report });
  if (pull) servePull(connection, pull, unopened, report);
  connection.onDidChangeWatchedFiles(
    heeding(report, 'watched files', ({ changes }) => {
      for (const { uri } of changes) session.files.forget(uri);
      workspace.changed(changes.map(({ uri }) => uri));
      unopened.changed(changes.map(({ uri }) => uri));
      lookAround();
      listingChanged();
    }),
  );
  const take = (read: Settings): void => {
    const isToldOtherwise = JSON.stringify([...settings.levels]) !== JSON.stringify([...read.levels]);
    settings = read;
    if (isToldOtherwise) {
      listingChanged();
      unopened.wanted(false);
    }
    unopened.wanted(read.checkScope === 'workspace');
  };
  const fetchSettings = async (): Promise<void> => {
    if (!abilities.configuration) return;
    try {
      take(readSettings(await connection.workspace.getConfiguration(SETTINGS_SECTION)));
      refreshBeside();
    } catch (error) {
      report('settings', error);
    }
  };
  connection.onDidChangeConfiguration(
    heeding(report, 'settings', (params) => {
      if (abilities.configuration) void fetchSettings();
      else take(readSettings(Reflect.get(Object(params?.settings ?? {}), SETTINGS_SECTION)));
    }),
  );
  connection.onInitialized(() => {
    register(connection, abilities);
    lookAround();
    void fetchSettings();
    if (abilities.workspaceFolders) {
      connection.workspace.onDidChangeWorkspaceFolders(async () => {
        const folders = await connection.workspace.getWorkspaceFolders().catch(() => null);
        session.files.setFolders((folders ?? []).map(({ uri }) => uri));
        lookAround();
        listingChanged();
      });
    }
  });
  serveLanguage(connection, {
    session,
    workspace,
    report,
    abilities,
    settings: () => settings,
    rest: () => pace.turn(),
  });
  serveOwnRequests(connection, { session, report, t: abilities.t });
  return {
    setFolders: (uris) => session.files.setFolders(uris),
    result: {
      serverInfo: { name: 'pickup-spec' },
      capabilities: {
        textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental },
        workspace: {
          workspaceFolders: { supported: true, changeNotifications: true },
          fileOperations: { willRename: { filters: MOVED } },
        },
        ...languageCapabilities,
        ...(pull ? { diagnosticProvider: { interFileDependencies: true, workspaceDiagnostics: true } } : {}),
      },
    },
  };
}

function servePull(connection: Connection, pull: Pull, unopened: WorkspaceFindings, report: Report): void {
  const { diagnostics: asked } = connection.languages;
  const nothing: DocumentDiagnosticReport = { kind: DocumentDiagnosticReportKind.Full, items: [] };
  asked.on(
    answering<DocumentDiagnosticParams, DocumentDiagnosticReport, DiagnosticServerCancellationData>(
      report,
      'findings',
      nothing,
      (params, token) => pull.ofDocument(params, token),
    ),
  );
  asked.onWorkspace(
    answering<WorkspaceDiagnosticParams, WorkspaceDiagnosticReport, DiagnosticServerCancellationData>(
      report,
      'findings of the workspace',
      { items: [] },
      async (params) => {
        await unopened.settled();
        return pull.ofWorkspace(params);
      },
    ),
  );
}

interface Listening {
  readonly push: Push;
  readonly late: LateFindings;
  readonly workspace: Workspace;
  readonly unopened: WorkspaceFindings;
  readonly affected: (documents: readonly TextDocument[]) => void;
  readonly listingChanged: () => void;
  /** Nothing more is told of it as an open document. */
  readonly closed: (uri: string) => void;
  readonly report: Report;
}

/** What has been handed over is sent by then, and of no use any more; whoever types pauses longer. */
const SENT_MS = 15;

/**
 * Gives up the processor for a moment. A system that wakes the reader of a message where its writer runs lets it wait there, three
 * milliseconds and more, while the writer goes on.
 */
const taken = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, TAKEN_MS, undefined));
const TAKEN_MS = 1;

/** Long enough that nobody who types has to wait for heavy numbers, short enough to seem to follow. */
const REST_MS = 150;

function listenToDocuments(
  connection: Connection,
  session: Session,
  { push, late, workspace, unopened, affected, listingChanged, closed, report }: Listening,
): void {
  const { documents } = session;
  connection.onDidOpenTextDocument(
    heeding(report, 'opening', (params) => {
      const before = documents.get(params.textDocument.uri);
      if (before) {
        push.dropped(before);
        late.dropped(before);
      }
      const document = documents.open(params);
      workspace.edited();
      unopened.opened(document.uri);
      // Without a folder, the files beside the open ones are the workspace.
      if (session.files.folders().length === 0) void workspace.current();
      push.edited(document);
      listingChanged();
    }),
  );
  connection.onDidChangeTextDocument(
    heeding(report, 'editing', (params) => {
      const document = documents.change(params);
      if (document === undefined) return;
      workspace.edited();
      unopened.changed([document.uri]);
      late.interrupted();
      const others = session.changed([document.uri]).filter((other) => other !== document);
      push.edited(document);
      affected(others);
    }),
  );
  connection.onDidCloseTextDocument(
    heeding(report, 'closing', (params) => {
      const document = documents.close(params);
      if (document === undefined) return;
      workspace.edited();
      push.dropped(document);
      late.dropped(document);
      session.files.forget(document.uri);
      unopened.changed([document.uri]);
      closed(document.uri);
      listingChanged();
    }),
  );
}

/** A folder may hold specs, and be on the way to one. */
const MOVED = [
  { pattern: { glob: '**/*.pickup', matches: FileOperationPatternKind.file } },
  { pattern: { glob: '**', matches: FileOperationPatternKind.folder } },
];

/** What a spec may name; cameras write their endings in capitals. */
const NAMED_GLOB = `**/*.{${[...PHOTO_ENDINGS, ...CURVE_ENDINGS].flatMap((each) => [each, each.toUpperCase()]).join(',')}}`;

function register(connection: Connection, abilities: ClientAbilities): void {
  if (abilities.registersConfiguration) {
    connection.client.register(DidChangeConfigurationNotification.type, { section: SETTINGS_SECTION }).catch(ignore);
  }
  if (abilities.registersWatching) {
    connection.client
      .register(DidChangeWatchedFilesNotification.type, {
        watchers: [{ globPattern: '**/*.pickup' }, { globPattern: NAMED_GLOB }],
      })
      .catch(ignore);
  }
}

function foldersOf({ workspaceFolders, rootUri }: InitializeParams): readonly string[] {
  if (workspaceFolders) return workspaceFolders.map(({ uri }) => uri);
  return rootUri ? [rootUri] : [];
}

/** A client that refuses what it said it could do is no reason to stop. */
const ignore = (): void => undefined;
