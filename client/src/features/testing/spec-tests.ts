import {
  type CancellationToken,
  Disposable,
  type TestItem,
  TestRunProfileKind,
  type TestRunRequest,
  type TextEditor,
  tests,
  window,
  workspace,
} from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { FILE_ENDING, LANGUAGE_ID } from '../../../../server/src/lsp/protocol.ts';
import { t } from '../words.ts';
import { checkSpec, type SpecResult, tellResult } from './spec-result.ts';
import { itemsIn, SpecTree } from './spec-tree.ts';

/** What the tests of the extension see of it. */
export interface SpecTestsControl {
  /** How the spec came out when it was checked last. */
  last(uri: string): SpecResult | undefined;
}

/** Each spec of the workspace is a test, in the editor's own list of tests; its findings are how it comes out. */
export class SpecTests implements SpecTestsControl, Disposable {
  private readonly controller = tests.createTestController('pickup.specs', t('Pickup specs'));
  private readonly tree = new SpecTree(this.controller);
  private readonly results = new Map<string, SpecResult>();
  private readonly listening: Disposable;
  /** Runs that go on with every save. */
  private readonly watching = new Set<Disposable>();
  private isDisposed = false;

  private readonly client: BaseLanguageClient;

  constructor(client: BaseLanguageClient) {
    this.client = client;
    const { controller, tree } = this;
    controller.resolveHandler = (item) => tree.resolve(item);
    controller.refreshHandler = () => tree.list();
    controller.createRunProfile(
      'Check',
      TestRunProfileKind.Run,
      (request, token) => (request.continuous ? this.runOnSave(request, token) : this.run(request)),
      true,
      undefined,
      true,
    );
    const files = workspace.createFileSystemWatcher(`**/*${FILE_ENDING}`, false, true, false);
    const changed = () => tree.changed();
    const inFront = (editor: TextEditor | undefined) => {
      if (editor?.document.languageId === LANGUAGE_ID) void tree.reveal(editor.document);
    };
    inFront(window.activeTextEditor);
    this.listening = Disposable.from(
      files,
      files.onDidCreate(changed),
      files.onDidDelete(changed),
      workspace.onDidChangeWorkspaceFolders(changed),
      window.onDidChangeActiveTextEditor(inFront),
    );
  }

  last(uri: string): SpecResult | undefined {
    return this.results.get(uri);
  }

  dispose(): void {
    this.isDisposed = true;
    for (const each of this.watching) each.dispose();
    this.listening.dispose();
    this.controller.dispose();
  }

  /** Once now, so that it is known which files each rests on; then, after a save, those that rest on the saved file. */
  private async runOnSave(request: TestRunRequest, token: CancellationToken): Promise<void> {
    let before = Promise.resolve();
    const saving = workspace.onDidSaveTextDocument(({ uri, languageId }) => {
      const saved = uri.toString();
      if (languageId !== LANGUAGE_ID) return;
      before = before.then(() =>
        token.isCancellationRequested
          ? undefined
          : this.run(request, ({ id }) => id === saved || this.results.get(id)?.uris.has(saved) === true),
      );
    });
    this.watching.add(saving);
    token.onCancellationRequested(() => {
      saving.dispose();
      this.watching.delete(saving);
    });
    before = this.run(request);
    await before;
  }

  private async run(request: TestRunRequest, isWanted: (spec: TestItem) => boolean = () => true): Promise<void> {
    await this.tree.resolve();
    const chosen = request.include ?? itemsIn(this.controller.items);
    const specs = (await this.tree.specsIn(chosen, new Set(request.exclude))).filter(isWanted);
    if (specs.length === 0 || this.isDisposed) return;
    const run = this.controller.createTestRun(request);
    for (const spec of specs) run.enqueued(spec);
    for (const spec of specs) {
      run.started(spec);
      const result = await checkSpec(this.client, spec.id, run.token);
      // What was not looked at to its end is left as it was.
      if (run.token.isCancellationRequested || this.isDisposed) break;
      this.results.set(spec.id, result);
      tellResult(run, spec, result);
    }
    run.end();
  }
}
