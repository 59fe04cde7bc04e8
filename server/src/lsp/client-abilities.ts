import type { InitializeParams } from 'vscode-languageserver';
import { type Language, languageOf } from '../words/languages/language.ts';
import { DiagnosticTag } from './protocol-library.ts';

/** What the client says it can do. Everything that it does not say, it cannot. */
export interface ClientAbilities {
  /** It is our own client and speaks the further messages. */
  readonly isOurs: boolean;
  /** The language that its reader reads. */
  readonly t: Language;
  readonly readsFiles: boolean;
  readonly linksCodes: boolean;
  /** Shows the places that a finding rests on beside it. */
  readonly relatesPlaces: boolean;
  /** Fades what a finding calls superfluous. */
  readonly tagsFindings: boolean;
  readonly configuration: boolean;
  readonly workspaceFolders: boolean;
  readonly registersConfiguration: boolean;
  readonly registersWatching: boolean;
  readonly refreshesHints: boolean;
  readonly refreshesLenses: boolean;
  /** It asks for findings, and asks again when it is told to; ours is sent them, those of the text before those of the circuit. */
  readonly pullsFindings: boolean;
  readonly markdown: boolean;
  readonly snippets: boolean;
  readonly symbolTree: boolean;
  readonly definitionLinks: boolean;
  /** Shows words of our own beside a change in its preview. */
  readonly annotatesChanges: boolean;
  /** Leads a person through the gaps of a change. */
  readonly snippetEdits: boolean;
  /** A change may bring a new file. */
  readonly createsFiles: boolean;
}

export function readAbilities(params: InitializeParams): ClientAbilities {
  const { workspace, textDocument } = params.capabilities ?? {};
  const ours = optionsOf(params.initializationOptions);
  const findings = [textDocument?.publishDiagnostics, textDocument?.diagnostic];
  const isOurs = typeof ours.protocol === 'number';
  return {
    isOurs,
    t: languageOf(params.locale),
    readsFiles: ours.readsFiles === true,
    linksCodes: ours.showsExplanations === true,
    relatesPlaces: findings.some((of) => of?.relatedInformation === true),
    tagsFindings: findings.some((of) => of?.tagSupport?.valueSet?.includes(DiagnosticTag.Unnecessary)),
    configuration: workspace?.configuration === true,
    workspaceFolders: workspace?.workspaceFolders === true,
    registersConfiguration: workspace?.didChangeConfiguration?.dynamicRegistration === true,
    registersWatching: workspace?.didChangeWatchedFiles?.dynamicRegistration === true,
    refreshesHints: workspace?.inlayHint?.refreshSupport === true,
    refreshesLenses: workspace?.codeLens?.refreshSupport === true,
    pullsFindings: !isOurs && textDocument?.diagnostic !== undefined && workspace?.diagnostics?.refreshSupport === true,
    markdown: textDocument?.hover?.contentFormat?.includes('markdown') === true,
    snippets: textDocument?.completion?.completionItem?.snippetSupport === true,
    symbolTree: textDocument?.documentSymbol?.hierarchicalDocumentSymbolSupport === true,
    definitionLinks: textDocument?.definition?.linkSupport === true,
    annotatesChanges:
      workspace?.workspaceEdit?.documentChanges === true &&
      workspace.workspaceEdit.changeAnnotationSupport !== undefined,
    snippetEdits:
      workspace?.workspaceEdit?.documentChanges === true && workspace.workspaceEdit.snippetEditSupport === true,
    createsFiles:
      workspace?.workspaceEdit?.documentChanges === true &&
      workspace.workspaceEdit.resourceOperations?.includes('create') === true,
  };
}

function optionsOf(sent: unknown): { protocol?: unknown; readsFiles?: unknown; showsExplanations?: unknown } {
  return typeof sent === 'object' && sent !== null ? sent : {};
}
