import { commands, Disposable, languages, type TextDocumentContentProvider, Uri, window, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  EXPLAIN_REQUEST,
  EXPLANATION_SCHEME,
  type ExplainParams,
  type ExplainResult,
  explainedCode,
  explanationUri,
  LANGUAGE_ID,
  PROTOCOL_VERSION,
} from '../../../../server/src/lsp/protocol.ts';

/** The pages of findings, offline: behind the code of each finding, and by command for the one under the cursor. */
export function activateExplanations(client: BaseLanguageClient): Disposable {
  return Disposable.from(
    workspace.registerTextDocumentContentProvider(EXPLANATION_SCHEME, pagesFrom(client)),
    commands.registerCommand('pickup.explainFinding', (code?: unknown) =>
      explain(typeof code === 'string' ? code : undefined),
    ),
  );
}

function pagesFrom(client: BaseLanguageClient): TextDocumentContentProvider {
  return {
    provideTextDocumentContent: async (uri) => {
      const code = explainedCode(uri.path);
      const params: ExplainParams = { protocol: PROTOCOL_VERSION, code };
      const { page } = await client.sendRequest<ExplainResult>(EXPLAIN_REQUEST, params);
      return page ?? `No finding has the code ${code}.`;
    },
  };
}

async function explain(code: string | undefined): Promise<void> {
  const chosen = code ?? (await chooseCode());
  if (chosen === undefined) return;
  const page = Uri.parse(explanationUri(chosen));
  const document = await workspace.openTextDocument(page);
  await languages.setTextDocumentLanguage(document, 'markdown');
  await window.showTextDocument(document, { preview: true });
}

/** The code of the finding under the cursor; where there is none or more than one, the writer chooses. */
async function chooseCode(): Promise<string | undefined> {
  const editor = window.activeTextEditor;
  if (editor?.document.languageId !== LANGUAGE_ID) return undefined;
  const findings = languages.getDiagnostics(editor.document.uri).flatMap(({ code, message, range }) => {
    const label = typeof code === 'object' ? code.value : code;
    return typeof label === 'string' ? [{ label, detail: message, range }] : [];
  });
  const here = findings.filter(({ range }) => range.contains(editor.selection.active));
  const offered = here.length > 0 ? here : findings;
  if (new Set(offered.map(({ label }) => label)).size === 1) return offered[0]?.label;
  if (offered.length === 0) {
    await window.showInformationMessage('This file has no findings.');
    return undefined;
  }
  const picked = await window.showQuickPick(offered, { placeHolder: 'Finding to explain', matchOnDetail: true });
  return picked?.label;
}
