import {
  commands,
  Disposable,
  type Event,
  EventEmitter,
  type ExtensionContext,
  ViewColumn,
  type WebviewPanel,
  window,
} from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { EXPLAIN_COMMAND } from '../../../../server/src/lsp/protocol.ts';
import { t } from '../words.ts';
import { EXPLANATION_VIEW, ExplanationPanel } from './explanation-panel.ts';
import { codeOf, type FindingAt, findingsAtHand, specEditor } from './finding-at.ts';
import type { ToExplanation } from './messages.ts';

/** What the page shows, and, for tests, what it may send. */
export interface ExplanationControl {
  /** The code of each page that is shown. */
  readonly onDidShow: Event<string>;
  shown(): ToExplanation | undefined;
  receive(message: unknown): Promise<void>;
}

/** The pages of findings, offline: behind the code of each finding, and by command for the one under the cursor. */
export function activateExplanations(context: ExtensionContext, client: BaseLanguageClient): ExplanationControl {
  const shown = new EventEmitter<string>();
  let panel: ExplanationPanel | undefined;
  const adopt = (webview: WebviewPanel): ExplanationPanel => {
    const adopted = new ExplanationPanel(webview, client, {
      extensionUri: context.extensionUri,
      shown: (code) => shown.fire(code),
    });
    panel = adopted;
    webview.onDidDispose(() => {
      if (panel === adopted) panel = undefined;
    });
    return adopted;
  };
  const open = (): ExplanationPanel => {
    if (panel) {
      panel.reveal();
      return panel;
    }
    return adopt(
      window.createWebviewPanel(EXPLANATION_VIEW, t('Finding'), ViewColumn.Beside, { enableFindWidget: true }),
    );
  };
  const explain = async (asked: unknown): Promise<void> => {
    const finding = typeof asked === 'string' ? findingsAtHand(asked)[0] : await chooseFinding();
    const code = typeof asked === 'string' ? asked : finding && codeOf(finding.diagnostic);
    if (code !== undefined) await open().show(code, finding);
  };
  context.subscriptions.push(
    commands.registerCommand(EXPLAIN_COMMAND, explain),
    window.registerWebviewPanelSerializer(EXPLANATION_VIEW, {
      deserializeWebviewPanel: async (webview, state: unknown) => {
        const { code }: { code?: unknown } = Object(state ?? {});
        if (typeof code === 'string') await adopt(webview).show(code, findingsAtHand(code)[0]);
        else webview.dispose();
      },
    }),
    shown,
    Disposable.from({ dispose: () => panel?.dispose() }),
  );
  return { onDidShow: shown.event, shown: () => panel?.shown(), receive: async (message) => panel?.receive(message) };
}

/** The finding under the cursor; where there is none or more than one, the writer chooses. */
async function chooseFinding(): Promise<FindingAt | undefined> {
  if (specEditor() === undefined) return undefined;
  const offered = findingsAtHand();
  if (new Set(offered.map(({ diagnostic }) => codeOf(diagnostic))).size === 1) return offered[0];
  if (offered.length === 0) {
    await window.showInformationMessage(t('This file has no findings.'));
    return undefined;
  }
  const items = offered.map((finding) => ({
    label: codeOf(finding.diagnostic),
    detail: finding.diagnostic.message,
    finding,
  }));
  const picked = await window.showQuickPick(items, { placeHolder: t('Finding to explain'), matchOnDetail: true });
  return picked?.finding;
}
