import type {
  CancellationToken,
  CodeAction,
  CodeActionParams,
  Connection,
  Hover as HoverAnswered,
  HoverParams,
  RenameFilesParams,
  ServerCapabilities,
  WorkspaceEdit,
} from 'vscode-languageserver';
import type { Span } from '../../../grammar/src/span.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import { fixAll, type QuickFix, quickFixes } from '../features/code-actions.ts';
import { completions } from '../features/completion.ts';
import { unitConversions } from '../features/convert-unit.ts';
import { definition } from '../features/definition.ts';
import { diagnostics } from '../features/diagnostics.ts';
import { documentHighlights } from '../features/document-highlight.ts';
import { documentLinks } from '../features/document-links.ts';
import { documentSymbols } from '../features/document-symbols.ts';
import { extractions } from '../features/extract-part.ts';
import { fitActions } from '../features/fit-actions.ts';
import { foldingRanges } from '../features/folding.ts';
import { formatting } from '../features/formatting.ts';
import { hover } from '../features/hover.ts';
import { identifyOffers } from '../features/identify-actions.ts';
import { inlayHints } from '../features/inlay-hints.ts';
import { lineFixes } from '../features/line-fixes.ts';
import { namedThere } from '../features/name-at.ts';
import { proposalActions } from '../features/proposal-actions.ts';
import { refactorings } from '../features/refactorings.ts';
import { references } from '../features/references.ts';
import { NOTHING_NAMED, prepareRename } from '../features/rename.ts';
import { repairActions } from '../features/repair-actions.ts';
import { toMarkdown, toPlainText } from '../features/rich-text.ts';
import { selectorActions } from '../features/selector-actions.ts';
import { semanticTokens } from '../features/semantic-tokens.ts';
import { signatureHelp } from '../features/signature-help.ts';
import { sortings } from '../features/sort-block.ts';
import { splits } from '../features/split-file.ts';
import { wiringActions } from '../features/wiring-actions.ts';
import type { ClientAbilities } from './client-abilities.ts';
import { fileKey } from './file-key.ts';
import { offsetFrom, spanFrom } from './from-protocol.ts';
import { answering } from './guard.ts';
import { withPictures } from './hover-pictures.ts';
import { inSlices } from './in-slices.ts';
import { serveLenses } from './lens-requests.ts';
import {
  CodeActionKind,
  CodeActionTriggerKind,
  LSPErrorCodes,
  ResponseError,
  WillRenameFilesRequest,
} from './protocol-library.ts';
import type { About, Served } from './served.ts';
import type { Opened } from './session.ts';
import { serveText, textCapabilities } from './text-requests.ts';
import * as to from './to-protocol.ts';
import { namedByKey } from './workspace.ts';

export const languageCapabilities: Omit<ServerCapabilities, 'textDocumentSync' | 'workspace'> = {
  hoverProvider: true,
  completionProvider: { triggerCharacters: [' ', '.', '"', '/'] },
  // On demand only: a space ends every word here, and the list of completions comes with it already.
  signatureHelpProvider: {},
  definitionProvider: true,
  referencesProvider: true,
  documentHighlightProvider: true,
  documentSymbolProvider: true,
  workspaceSymbolProvider: true,
  codeActionProvider: {
    codeActionKinds: [
      CodeActionKind.QuickFix,
      CodeActionKind.RefactorRewrite,
      CodeActionKind.RefactorExtract,
      CodeActionKind.SourceFixAll,
    ],
  },
  documentFormattingProvider: true,
  renameProvider: { prepareProvider: true },
  foldingRangeProvider: true,
  documentLinkProvider: {},
  codeLensProvider: { resolveProvider: true },
  ...textCapabilities,
  inlayHintProvider: true,
  semanticTokensProvider: {
    legend: { tokenTypes: [...to.TOKEN_TYPES], tokenModifiers: [...to.TOKEN_MODIFIERS] },
    full: true,
    range: true,
  },
};

/** Answers the requests of the Language Server Protocol from the features. */
export function serveLanguage(connection: Connection, served: Served): void {
  const { session, workspace, report, abilities, settings } = served;
  const textOf: to.TextOf = (uri) => session.files.document(uri);
  const opened = async (uri: string, token: CancellationToken): Promise<Opened | undefined> => {
    const document = session.documents.get(uri);
    const version = document?.version;
    const found = await session.whenAnalysed(uri, token);
    // What was asked about a place is not answered for another text.
    if (document?.version !== version)
      throw new ResponseError(LSPErrorCodes.ContentModified, 'the text is another now');
    return found;
  };
  const about: About = (what, empty, answer) =>
    answering(report, what, empty, async (params, token) => {
      const found = await opened(params.textDocument.uri, token);
      return found ? answer(found, params, token) : empty;
    });

  /** Where a spool is named, every file that names it: coils of all of them are wound from it. */
  const plansOnSpool = async (analysis: Analysis, offset: number): Promise<readonly Analysis[] | undefined> => {
    const named = namedThere(analysis, offset);
    if (named?.kind !== 'spool') return undefined;
    const places = references(namedByKey(named), { among: await workspace.mentionsOf(named), declaration: false });
    const others = new Set(places.map(({ uri }) => uri).filter((uri) => uri !== fileKey(analysis.uri)));
    return [analysis, ...(await workspace.analysesOf([...others]))];
  };

  serveLenses(connection, served, opened);
  serveText(connection, served, about);
  connection.onHover(
    about<HoverParams, HoverAnswered | null>('hover', null, async ({ document, analysis }, { position }) => {
      const offset = offsetFrom(document, position);
      const found = hover(analysis, offset, await plansOnSpool(analysis, offset));
      if (found === undefined) return null;
      const contents = abilities.markdown
        ? ({ kind: 'markdown', value: toMarkdown(await withPictures(found.text, session.files, abilities)) } as const)
        : ({ kind: 'plaintext', value: toPlainText(found.text) } as const);
      return { contents, range: to.toRange(document, found.span) };
    }),
  );
  connection.onCompletion(
    about('completion', null, ({ document, analysis }, { position }) => {
      const { uri } = document;
      const near = {
        specs: workspace.pathsFrom(uri),
        photos: session.files.photosNear?.(uri) ?? [],
        curves: session.files.curvesNear(uri),
      };
      const { items, replace } = completions(analysis, offsetFrom(document, position), near);
      const range = to.toRange(document, replace);
      return { isIncomplete: false, items: items.map((item) => to.toCompletionItem(item, range, abilities)) };
    }),
  );
  connection.onSignatureHelp(
    about('signature help', null, ({ document, analysis }, { position }) => {
      const signature = signatureHelp(analysis, offsetFrom(document, position));
      return signature ? to.toSignatureHelp(signature, abilities) : null;
    }),
  );
  connection.onDefinition(
    about('definition', null, ({ document, analysis }, { position }) => {
      const found = definition(analysis, offsetFrom(document, position));
      const location = found && to.toLocation(textOf, found.to);
      if (found === undefined || location === undefined) return null;
      if (!abilities.definitionLinks) return location;
      const { uri, range } = location;
      const originSelectionRange = to.toRange(document, found.from);
      return [{ originSelectionRange, targetUri: uri, targetRange: range, targetSelectionRange: range }];
    }),
  );
  connection.onReferences(
    about('references', [], async ({ document, analysis }, { position, context }) => {
      const named = namedThere(analysis, offsetFrom(document, position));
      if (named === undefined) return [];
      const options = { among: await workspace.mentionsOf(named), declaration: context?.includeDeclaration === true };
      return references(namedByKey(named), options).flatMap((at) => to.toLocation(textOf, at) ?? []);
    }),
  );
  connection.onDocumentHighlight(
    about('highlight', [], ({ document, analysis }, { position }) =>
      documentHighlights(analysis, offsetFrom(document, position)).map((each) => to.toHighlight(document, each)),
    ),
  );
  connection.onDocumentSymbol(
    about('outline', [], ({ document, analysis }) => {
      const symbols = documentSymbols(analysis);
      return abilities.symbolTree
        ? symbols.map((symbol) => to.toDocumentSymbol(document, symbol))
        : to.toSymbolList(document, symbols);
    }),
  );
  connection.onWorkspaceSymbol(
    answering(report, 'workspace symbols', [], async ({ query }) =>
      (await workspace.symbols(query)).map(({ kind, name, isRecord, uri, range }) => ({
        name,
        kind: to.toSymbolKind(kind),
        location: { uri, range },
        ...(isRecord ? { containerName: 'record' } : {}),
      })),
    ),
  );
  connection.onFoldingRanges(
    about('folding', [], ({ document, analysis }) =>
      foldingRanges(analysis).flatMap((fold) => to.toFoldingRange(document, fold) ?? []),
    ),
  );
  connection.onDocumentLinks(
    about('links', [], ({ document, analysis }) =>
      documentLinks(analysis).map(({ span, target }) => ({ range: to.toRange(document, span), target })),
    ),
  );
  connection.onDocumentFormatting(
    about('formatting', [], ({ document, analysis }) =>
      formatting(analysis).map((edit) => to.toTextEdit(document, edit)),
    ),
  );
  connection.onCodeAction(
    about('code actions', [], async ({ document, analysis }, params, token) => [
      ...codeActions({ document, analysis }, params, { ...abilities, textOf }),
      ...(await wiringActionsAt({ document, analysis }, params, token)),
      ...(await extractActions({ document, analysis }, params)),
    ]),
  );
  connection.onPrepareRename(
    about('rename', null, ({ document, analysis }, { position }) => {
      const offset = offsetFrom(document, position);
      const named = namedThere(analysis, offset);
      const found = prepareRename(analysis, offset);
      if (named === undefined || found === undefined) return null;
      workspace.mayRename(named);
      return { range: to.toRange(document, found.span), placeholder: found.placeholder };
    }),
  );
  connection.onRenameRequest(
    about('rename', null, async ({ document, analysis }, { position, newName }) => {
      const named = namedThere(analysis, offsetFrom(document, position));
      if (named === undefined) throw new ResponseError(LSPErrorCodes.RequestFailed, NOTHING_NAMED);
      return workspace.rename(named, newName);
    }),
  );
  connection.onRequest<WorkspaceEdit | null, void>(
    WillRenameFilesRequest.type.method,
    answering<RenameFilesParams, WorkspaceEdit | null>(report, 'moved files', null, ({ files }) =>
      workspace.moving(files),
    ),
  );
  connection.languages.inlayHint.on(
    about('inlay hints', [], ({ document, analysis }, { range }) =>
      inlayHints(analysis, spanFrom(document, range), settings().hints).map((hint) =>
        to.toInlayHint(document, hint, textOf),
      ),
    ),
  );
  /** Planned only for somebody who opens the list. */
  const wiringActionsAt = async (
    { document, analysis }: Opened,
    { range, context }: CodeActionParams,
    token: CancellationToken,
  ): Promise<readonly CodeAction[]> => {
    const kind = CodeActionKind.RefactorRewrite;
    if (context?.triggerKind === CodeActionTriggerKind.Automatic || !wants(kind, context?.only)) return [];
    const planned = await inSlices(wiringActions(analysis, spanFrom(document, range)), token);
    return (planned ?? []).flatMap(({ title, edits }) => {
      const edit = to.toWorkspaceEdit(textOf, edits);
      return edit ? [{ title, kind, edit }] : [];
    });
  };
  /** Looked for in other files only where somebody opens the list in the first line of a part or a pickup. */
  const extractActions = async (
    { document, analysis }: Opened,
    { range, context }: CodeActionParams,
  ): Promise<readonly CodeAction[]> => {
    const kind = CodeActionKind.RefactorExtract;
    if (context?.triggerKind === CodeActionTriggerKind.Automatic || !wants(kind, context?.only)) return [];
    const actions: CodeAction[] = [];
    const { uri } = document;
    for (const each of extractions(analysis, spanFrom(document, range), workspace.pathsFrom(uri))) {
      const { title, edits, target, moved, newFile } = each;
      const changes = to.toWorkspaceEdit(textOf, edits);
      if (!changes || (newFile !== undefined && !abilities.createsFiles)) continue;
      if (!(await workspace.isFree(moved, uri, target))) continue;
      actions.push({
        title,
        kind,
        edit: newFile === undefined ? changes : to.withNewFiles(changes, new Map([[target, newFile]])),
      });
    }
    if (!abilities.createsFiles) return actions;
    for (const { title, edits, newFiles } of splits(analysis, spanFrom(document, range), workspace.pathsFrom(uri))) {
      const changes = to.toWorkspaceEdit(textOf, edits);
      if (changes) actions.push({ title, kind, edit: to.withNewFiles(changes, newFiles) });
    }
    return actions;
  };
  const tokens = ({ document, analysis }: Opened, span?: Span): { data: number[] } =>
    to.toSemanticTokens(document, semanticTokens(analysis, span));
  connection.languages.semanticTokens.on(about('tokens', { data: [] }, (found) => tokens(found)));
  connection.languages.semanticTokens.onRange(
    about('tokens', { data: [] }, (found, { range }) => tokens(found, spanFrom(found.document, range))),
  );
}

/** By the kinds that are asked for; all where none is named. */
const wants = (kind: string, only: readonly string[] | undefined): boolean =>
  only === undefined || only.some((asked) => kind === asked || kind.startsWith(`${asked}.`));

function codeActions(
  { document, analysis }: Opened,
  { range, context }: CodeActionParams,
  options: to.ShowsFindings &
    Pick<ClientAbilities, 'annotatesChanges' | 'snippetEdits' | 't'> & { readonly textOf: to.TextOf },
): CodeAction[] {
  const cautioned = (edit: WorkspaceEdit, cautions: readonly string[]): WorkspaceEdit =>
    options.annotatesChanges ? to.withCautions(edit, cautions) : edit;
  const { t } = options;
  const span = spanFrom(document, range);
  const only = context?.only;
  const actions: CodeAction[] = [];
  if (wants(CodeActionKind.QuickFix, only)) {
    const add = (fix: QuickFix): void => {
      const withStops = options.snippetEdits ? to.toSnippetEdit(options.textOf, fix.edits) : undefined;
      const edit = withStops ?? to.toWorkspaceEdit(options.textOf, fix.edits);
      const [found] = diagnostics({ ...analysis, findings: [fix.finding] }, t);
      if (edit && found)
        actions.push(to.toQuickFix(fix, to.toDiagnostic(document, found, options), cautioned(edit, fix.cautions)));
    };
    for (const fix of quickFixes(analysis, span, t)) add(fix);
    // After the single fixes: a plan settles several findings at once.
    for (const { title, edits, cautions, findings } of repairActions(analysis, span, t)) {
      const edit = to.toWorkspaceEdit(options.textOf, edits);
      const settled = diagnostics({ ...analysis, findings }, t).map((found) =>
        to.toDiagnostic(document, found, options),
      );
      if (edit)
        actions.push({
          title,
          kind: CodeActionKind.QuickFix,
          diagnostics: settled,
          edit: cautioned(edit, cautions),
        });
    }
    for (const fix of lineFixes(analysis, span, t)) add(fix);
  }
  if (wants(CodeActionKind.RefactorRewrite, only)) {
    // Worked out only for someone who opens the list: at every move of the cursor it would cost too much.
    const isAsked = context?.triggerKind !== CodeActionTriggerKind.Automatic;
    const asked = [identifyOffers, unitConversions, sortings, fitActions, proposalActions, selectorActions].flatMap(
      (of) => (isAsked ? of(analysis, span, t) : []),
    );
    for (const { title, edits } of asked) {
      const edit = to.toWorkspaceEdit(options.textOf, edits);
      if (edit) actions.push({ title, kind: CodeActionKind.RefactorRewrite, edit });
    }
    for (const { title, edits } of refactorings(analysis, span)) {
      const edit = to.toWorkspaceEdit(options.textOf, edits);
      if (edit) actions.push({ title, kind: CodeActionKind.RefactorRewrite, edit });
    }
  }
  // Only where it is asked for by name, as on save: in the list of one line's fixes it would surprise.
  if (only?.some((asked) => asked.startsWith(CodeActionKind.Source)) && wants(CodeActionKind.SourceFixAll, only)) {
    const edits = fixAll(analysis);
    const edit = edits.length > 0 ? to.toWorkspaceEdit(options.textOf, edits) : undefined;
    if (edit) actions.push({ title: 'Correct units and spelling', kind: CodeActionKind.SourceFixAll, edit });
  }
  return actions;
}
