import type {
  CodeAction,
  Color,
  CompletionItem,
  Diagnostic,
  DocumentHighlight,
  DocumentSymbol,
  FoldingRange,
  InlayHint,
  Location,
  MarkupContent,
  Range,
  SignatureHelp,
  SymbolInformation,
  TextDocumentEdit,
  TextEdit,
  WorkspaceEdit,
} from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Span } from '../../../grammar/src/span.ts';
import { given } from '../../../grammar/values/present.ts';
import type { FileSpan } from '../analysis/analysis-types.ts';
import type { Severity } from '../checks/finding.ts';
import type { QuickFix } from '../features/code-actions.ts';
import type * as features from '../features/feature-values.ts';
import { type RichText, toMarkdown, toPlainText } from '../features/rich-text.ts';
import type { ClientAbilities } from './client-abilities.ts';
import { explanationLink } from './protocol.ts';
import {
  CodeActionKind,
  CompletionItemKind,
  DiagnosticSeverity,
  DiagnosticTag,
  DocumentHighlightKind,
  FoldingRangeKind,
  InsertTextFormat,
  SemanticTokensBuilder,
  SymbolKind,
} from './protocol-library.ts';

/** The text of any file that a feature points into. */
export type TextOf = (uri: string) => TextDocument | undefined;

export function toRange(document: TextDocument, { start, end }: Span): Range {
  return { start: document.positionAt(start), end: document.positionAt(end) };
}

export function toLocation(textOf: TextOf, at: FileSpan): Location | undefined {
  const document = textOf(at.uri);
  return document && { uri: document.uri, range: toRange(document, at) };
}

export function toTextEdit(document: TextDocument, edit: { readonly span: Span; readonly newText: string }): TextEdit {
  return { range: toRange(document, edit.span), newText: withLineEnds(document, edit.newText) };
}

/** Edits are written with bare line ends; the text keeps its own. */
const withLineEnds = (document: TextDocument, text: string): string =>
  /\r\n/.test(document.getText()) ? text.replace(/\r?\n/g, '\r\n') : text;

/** A change with gaps, in the form that leads through them; `undefined` where the file cannot be had, or there is no gap. */
export function toSnippetEdit(textOf: TextOf, edits: readonly features.TextEdit[]): WorkspaceEdit | undefined {
  const documentChanges = edits.flatMap(({ at, snippet }): TextDocumentEdit[] => {
    const document = textOf(at.uri);
    if (document === undefined || snippet === undefined) return [];
    const value = withLineEnds(document, snippet);
    const edit = { range: toRange(document, at), snippet: { kind: 'snippet', value } as const };
    return [{ textDocument: { uri: document.uri, version: null }, edits: [edit] }];
  });
  return edits.length > 0 && documentChanges.length === edits.length ? { documentChanges } : undefined;
}

/** `undefined` where a file of the edit cannot be had: half an edit is none. */
export function toWorkspaceEdit(textOf: TextOf, edits: readonly features.TextEdit[]): WorkspaceEdit | undefined {
  const changes: Record<string, TextEdit[]> = {};
  for (const { at, newText } of edits) {
    const document = textOf(at.uri);
    if (document === undefined) return undefined;
    changes[document.uri] ??= [];
    changes[document.uri]?.push(toTextEdit(document, { span: at, newText }));
  }
  return { changes };
}

/** Files that come into being, which must not be there yet, and the changes that go with them. */
export function withNewFiles({ changes }: WorkspaceEdit, files: ReadonlyMap<string, string>): WorkspaceEdit {
  const start = { line: 0, character: 0 };
  return {
    documentChanges: [
      ...[...files].flatMap(
        ([uri, text]): NonNullable<WorkspaceEdit['documentChanges']> => [
          { kind: 'create', uri, options: { overwrite: false, ignoreIfExists: false } },
          { textDocument: { uri, version: null }, edits: [{ range: { start, end: start }, newText: text }] },
        ],
      ),
      ...Object.entries(changes ?? {}).map(([other, edits]) => ({
        textDocument: { uri: other, version: null },
        edits,
      })),
    ],
  };
}

/** The same edit with cautions beside it in its preview; as it is where there are none. */
export function withCautions(edit: WorkspaceEdit, cautions: readonly string[]): WorkspaceEdit {
  if (cautions.length === 0) return edit;
  const documentChanges = Object.entries(edit.changes ?? {}).map(([uri, edits]) => ({
    textDocument: { uri, version: null },
    edits: edits.map((each) => ({ ...each, annotationId: CAUTIONS })),
  }));
  const annotation = { label: 'At the bench, mind', description: cautions.join(' '), needsConfirmation: false };
  return { documentChanges, changeAnnotations: { [CAUTIONS]: annotation } };
}

const CAUTIONS = 'cautions';

const SEVERITIES: Readonly<Record<Severity, DiagnosticSeverity>> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  information: DiagnosticSeverity.Information,
  hint: DiagnosticSeverity.Hint,
};

export type ShowsFindings = Pick<ClientAbilities, 'linksCodes' | 'relatesPlaces' | 'tagsFindings'>;

/** Without markup in its text. */
export interface PlainDiagnostic extends Diagnostic {
  message: string;
}

export function toDiagnostic(
  document: TextDocument,
  found: features.Diagnostic,
  { textOf, linksCodes, relatesPlaces, tagsFindings }: ShowsFindings & { readonly textOf: TextOf },
): PlainDiagnostic {
  const related = (relatesPlaces ? found.related : []).flatMap(({ message, at }) => {
    const location = toLocation(textOf, at);
    return location ? [{ message, location }] : [];
  });
  return {
    range: toRange(document, found.span),
    severity: SEVERITIES[found.severity],
    code: found.code,
    source: 'pickup',
    message: found.message,
    ...(linksCodes ? { codeDescription: { href: explanationLink(found.code) } } : {}),
    ...(related.length > 0 ? { relatedInformation: related } : {}),
    ...(tagsFindings && found.unnecessary ? { tags: [DiagnosticTag.Unnecessary] } : {}),
  };
}

export function toQuickFix(fix: QuickFix, diagnostic: Diagnostic, edit: WorkspaceEdit): CodeAction {
  return {
    title: fix.title,
    kind: CodeActionKind.QuickFix,
    diagnostics: [diagnostic],
    edit,
    ...(fix.preferred ? { isPreferred: true } : {}),
  };
}

export function toInlayHint(document: TextDocument, hint: features.InlayHint, textOf: TextOf): InlayHint {
  const location = hint.restsOn && toLocation(textOf, hint.restsOn);
  return {
    position: document.positionAt(hint.offset),
    label: location ? [{ value: hint.label, location }] : hint.label,
    tooltip: hint.tooltip,
    paddingLeft: true,
  };
}

const SYMBOLS: ReadonlyMap<string, SymbolKind> = new Map([
  ['pickup', SymbolKind.Class],
  ['instrument', SymbolKind.Module],
  ['coil', SymbolKind.Field],
  ['wire', SymbolKind.Struct],
  ['spool', SymbolKind.Struct],
  ['bobbin', SymbolKind.Struct],
  ['magnet', SymbolKind.Struct],
  ['switch', SymbolKind.Struct],
  ['bench', SymbolKind.Constant],
]);

export const toSymbolKind = (kind: string): SymbolKind => SYMBOLS.get(kind) ?? SymbolKind.Property;

export function toDocumentSymbol(document: TextDocument, symbol: features.DocumentSymbol): DocumentSymbol {
  return {
    name: symbol.name,
    detail: symbol.detail,
    kind: toSymbolKind(symbol.kind),
    range: toRange(document, symbol.span),
    selectionRange: toRange(document, symbol.nameSpan),
    children: symbol.children.map((child) => toDocumentSymbol(document, child)),
  };
}

/** For clients that know no tree: the blocks one after the other, each with the one around it. */
export function toSymbolList(
  document: TextDocument,
  symbols: readonly features.DocumentSymbol[],
  container?: string,
): SymbolInformation[] {
  return symbols.flatMap((symbol) => [
    {
      name: symbol.name,
      kind: toSymbolKind(symbol.kind),
      location: { uri: document.uri, range: toRange(document, symbol.span) },
      ...given({ containerName: container }),
    },
    ...toSymbolList(document, symbol.children, symbol.name),
  ]);
}

/** Of `#8557c2`, opaque. */
export function toColor(hex: string): Color {
  const part = (at: number) => Number.parseInt(hex.slice(at, at + 2), 16) / 255;
  return { red: part(1), green: part(3), blue: part(5), alpha: 1 };
}

export function toFoldingRange(document: TextDocument, fold: features.FoldingRange): FoldingRange | undefined {
  const { start, end } = toRange(document, fold.span);
  // The line with the closing brace stays in sight.
  const endLine = fold.kind === 'block' && end.line > start.line + 1 ? end.line - 1 : end.line;
  if (endLine <= start.line) return undefined;
  const kinds = { block: undefined, comment: FoldingRangeKind.Comment, use: FoldingRangeKind.Imports };
  const kind = kinds[fold.kind];
  return { startLine: start.line, endLine, ...given({ kind }) };
}

export function toHighlight(document: TextDocument, highlight: features.Highlight): DocumentHighlight {
  const kind = highlight.kind === 'declares' ? DocumentHighlightKind.Write : DocumentHighlightKind.Read;
  return { range: toRange(document, highlight.span), kind };
}

/** What the kinds of names are called among the token types that every theme knows; units have a type of their own. */
export const TOKEN_TYPES = ['type', 'class', 'variable', 'property', 'parameter', 'unit'] as const;
export const TOKEN_MODIFIERS = ['declaration'] as const;

const TOKENS: Readonly<Record<features.TokenKind, (typeof TOKEN_TYPES)[number]>> = {
  wire: 'type',
  spool: 'type',
  bobbin: 'type',
  magnet: 'type',
  switch: 'type',
  pickup: 'class',
  instrument: 'class',
  coil: 'variable',
  lead: 'property',
  slot: 'parameter',
  unit: 'unit',
};

export function toSemanticTokens(
  document: TextDocument,
  tokens: readonly features.SemanticToken[],
): { data: number[] } {
  const builder = new SemanticTokensBuilder();
  for (const { kind, span, declares } of tokens) {
    const { line, character } = document.positionAt(span.start);
    builder.push(line, character, span.end - span.start, TOKEN_TYPES.indexOf(TOKENS[kind]), declares ? 1 : 0);
  }
  return { data: builder.build().data };
}

type Abilities = Pick<ClientAbilities, 'markdown' | 'snippets'>;

const documentation = (text: RichText, { markdown }: Abilities): MarkupContent =>
  markdown ? { kind: 'markdown', value: toMarkdown(text) } : { kind: 'plaintext', value: toPlainText(text) };

const COMPLETIONS: Readonly<Record<features.Completion['kind'], CompletionItemKind>> = {
  block: CompletionItemKind.Module,
  fact: CompletionItemKind.Property,
  word: CompletionItemKind.EnumMember,
  unit: CompletionItemKind.Unit,
  name: CompletionItemKind.Reference,
  lead: CompletionItemKind.Field,
  value: CompletionItemKind.Value,
  file: CompletionItemKind.File,
};

export function toCompletionItem(item: features.Completion, range: Range, abilities: Abilities): CompletionItem {
  const isSnippet = item.snippet !== undefined && abilities.snippets;
  return {
    label: item.label,
    kind: COMPLETIONS[item.kind],
    ...given({ detail: item.detail }),
    ...given({ documentation: item.about && documentation(item.about, abilities) }),
    sortText: item.sort,
    insertTextFormat: isSnippet ? InsertTextFormat.Snippet : InsertTextFormat.PlainText,
    textEdit: { range, newText: isSnippet ? (item.snippet ?? item.label) : (item.text ?? item.label) },
  };
}

export function toSignatureHelp(signature: features.Signature, abilities: Abilities): SignatureHelp {
  return {
    signatures: [
      {
        label: signature.label,
        documentation: documentation(signature.about, abilities),
        parameters: signature.parameters.map(({ start, end }) => ({ label: [start, end] })),
      },
    ],
    activeSignature: 0,
    ...given({ activeParameter: signature.active }),
  };
}
