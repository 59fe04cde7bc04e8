import {
  type CodeAction,
  CodeActionKind,
  commands,
  type Diagnostic,
  languages,
  type TextEditor,
  type Uri,
  window,
  workspace,
} from 'vscode';
import { LANGUAGE_ID } from '../../../../server/src/lsp/protocol.ts';

/** A finding at its place in a text. */
export interface FindingAt {
  readonly uri: Uri;
  readonly diagnostic: Diagnostic;
}

export const codeOf = ({ code }: Diagnostic): string => String(typeof code === 'object' ? code.value : (code ?? ''));

export const specEditor = (): TextEditor | undefined =>
  [window.activeTextEditor, ...window.visibleTextEditors].find((editor) => editor?.document.languageId === LANGUAGE_ID);

/** The findings of the text at hand, those under the cursor alone where there are some. */
export function findingsAtHand(code?: string): readonly FindingAt[] {
  const editor = specEditor();
  if (editor === undefined) return [];
  const { uri } = editor.document;
  const all = languages
    .getDiagnostics(uri)
    .filter((diagnostic) => diagnostic.source === 'pickup' && (code === undefined || codeOf(diagnostic) === code));
  const here = all.filter(({ range }) => range.contains(editor.selection.active));
  return (here.length > 0 ? here : all).map((diagnostic) => ({ uri, diagnostic }));
}

/** The same finding as the text stands now; it may have moved, or be gone. */
export function asItStands({ uri, diagnostic }: FindingAt): FindingAt | undefined {
  const same = languages
    .getDiagnostics(uri)
    .filter((each) => codeOf(each) === codeOf(diagnostic))
    .sort((a, b) => distance(a, diagnostic) - distance(b, diagnostic));
  return same[0] && { uri, diagnostic: same[0] };
}

const distance = (a: Diagnostic, b: Diagnostic): number => Math.abs(a.range.start.line - b.range.start.line);

const MOST_FIXES = 12;

/** The quick fixes at the place of a finding, as the lightbulb there offers them. */
export async function fixesOf({ uri, diagnostic }: FindingAt): Promise<readonly CodeAction[]> {
  const offered = await commands.executeCommand<CodeAction[] | undefined>(
    'vscode.executeCodeActionProvider',
    uri,
    diagnostic.range,
    CodeActionKind.QuickFix.value,
    MOST_FIXES,
  );
  return offered ?? [];
}

export async function applyFix(action: CodeAction): Promise<void> {
  if (action.edit) await workspace.applyEdit(action.edit);
  if (action.command) await commands.executeCommand(action.command.command, ...(action.command.arguments ?? []));
}
