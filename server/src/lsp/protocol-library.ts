/**
 * Values of the protocol's library, for all files of this part. The bundle makes a list of everything in the library for each file that
 * imports it itself, which takes half a millisecond of each start.
 */
export {
  CodeActionKind,
  CodeActionTriggerKind,
  CodeLensRefreshRequest,
  CompletionItemKind,
  DiagnosticSeverity,
  DiagnosticTag,
  DidChangeConfigurationNotification,
  DidChangeWatchedFilesNotification,
  DocumentDiagnosticReportKind,
  DocumentHighlightKind,
  FileOperationPatternKind,
  FoldingRangeKind,
  InsertTextFormat,
  LSPErrorCodes,
  PublishDiagnosticsNotification,
  ResponseError,
  SemanticTokensBuilder,
  SymbolKind,
  TextDocumentSyncKind,
  WillRenameFilesRequest,
} from 'vscode-languageserver';
