import { Disposable, languages, type Uri, ViewColumn, type WebviewPanel, window, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  EXPLAIN_REQUEST,
  type ExplainParams,
  type ExplainResult,
  PROTOCOL_VERSION,
} from '../../../../server/src/lsp/protocol.ts';
import { pageHtml, pageOptions, tabIcon } from '../page-html.ts';
import { t } from '../words.ts';
import { applyFix, asItStands, type FindingAt, fixesOf } from './finding-at.ts';
import { fromExplanation, type ToExplanation } from './messages.ts';

export const EXPLANATION_VIEW = 'pickup.explanation';

const REST_MS = 300;

interface Surroundings {
  readonly extensionUri: Uri;
  readonly shown: (code: string) => void;
}

/** The page of a finding beside the text: one panel, in which one page follows another. */
export class ExplanationPanel {
  private readonly panel: WebviewPanel;
  private readonly client: BaseLanguageClient;
  private readonly listening: Disposable;
  private readonly tell: Surroundings['shown'];
  private code = '';
  private at: FindingAt | undefined;
  private last: ToExplanation | undefined;
  private renders = 0;
  private resting: ReturnType<typeof setTimeout> | undefined;

  constructor(panel: WebviewPanel, client: BaseLanguageClient, { extensionUri, shown }: Surroundings) {
    this.tell = shown;
    this.panel = panel;
    this.client = client;
    panel.iconPath = tabIcon(extensionUri, 'finding');
    panel.webview.options = pageOptions(extensionUri);
    panel.webview.html = pageHtml(panel.webview, extensionUri, { title: t('Finding'), script: 'explanation.js' });
    this.listening = Disposable.from(
      panel.webview.onDidReceiveMessage((said: unknown) => this.receive(said)),
      languages.onDidChangeDiagnostics(({ uris }) => {
        const uri = this.at?.uri.toString();
        if (panel.visible && uris.some((each) => each.toString() === uri)) this.later();
      }),
    );
    panel.onDidDispose(() => {
      clearTimeout(this.resting);
      this.listening.dispose();
    });
  }

  dispose(): void {
    this.panel.dispose();
  }

  shown(): ToExplanation | undefined {
    return this.last;
  }

  reveal(): void {
    this.panel.reveal(undefined, false);
  }

  /** `at`: the finding that was asked about, where there is one. */
  async show(code: string, at: FindingAt | undefined): Promise<void> {
    this.code = code;
    this.at = at;
    await this.render();
  }

  async receive(said: unknown): Promise<void> {
    const message = fromExplanation(said);
    switch (message?.type) {
      case 'ready':
        this.post();
        // Hidden, it followed nothing.
        return this.at && this.render();
      case 'explain':
        return this.show(message.code, undefined);
      case 'reveal':
        return this.revealPlace();
      case 'fix':
        return this.fix(message.title);
    }
  }

  /** Fixes are verified by solving: not at each keystroke, but once hands rest. */
  private later(): void {
    clearTimeout(this.resting);
    this.resting = setTimeout(() => void this.render(), REST_MS);
  }

  private async render(): Promise<void> {
    this.renders += 1;
    const mine = this.renders;
    const params: ExplainParams = { protocol: PROTOCOL_VERSION, code: this.code };
    const { page } = await this.client.sendRequest<ExplainResult>(EXPLAIN_REQUEST, params);
    const finding = this.at && asItStands(this.at);
    const fixes = finding ? await fixesOf(finding) : [];
    // A newer one is on its way.
    if (page === undefined || mine !== this.renders) return;
    this.panel.title = page.code;
    this.last = {
      page,
      here: finding && {
        file: workspace.asRelativePath(finding.uri),
        line: finding.diagnostic.range.start.line,
        message: finding.diagnostic.message,
        fixes: fixes.map(({ title }) => title),
      },
    };
    this.post();
    this.tell(page.code);
  }

  private post(): void {
    if (this.last) void this.panel.webview.postMessage(this.last);
  }

  private async revealPlace(): Promise<void> {
    const finding = this.at && asItStands(this.at);
    if (finding === undefined) return;
    const beside = window.visibleTextEditors.find(({ document }) => document.uri.toString() === finding.uri.toString());
    await window.showTextDocument(finding.uri, {
      viewColumn: beside?.viewColumn ?? ViewColumn.One,
      selection: finding.diagnostic.range,
    });
  }

  private async fix(title: string): Promise<void> {
    const finding = this.at && asItStands(this.at);
    const action = finding && (await fixesOf(finding)).find((each) => each.title === title);
    if (action === undefined) return this.render();
    await this.revealPlace();
    await applyFix(action);
  }
}
