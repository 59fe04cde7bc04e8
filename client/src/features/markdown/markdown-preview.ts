import { commands, Disposable, type TextDocument, type Uri, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { FILE_ENDING, LANGUAGE_ID } from '../../../../server/src/lsp/protocol.ts';
import { t } from '../words.ts';
import { DrawnFences } from './drawn-fences.ts';
import { fenceRule } from './fence-rule.ts';
import { fencesIn } from './fences-in.ts';
import type { MarkdownIt } from './markdown-it.ts';

/** Fences of specs are drawn in the editor's own preview of Markdown. */
export interface MarkdownPreview extends Disposable {
  /** Asked for by that preview, for each engine that it makes. */
  extendMarkdownIt(engine: MarkdownIt): MarkdownIt;
}

/**
 * Between a new drawing and the new page: several are drawn one after the other, and a preview that follows its text by itself does so
 * in this time. One that is just about to render drops the wish; it is told again, less and less often.
 */
const REST_MS = 400;
const LAST_REST_MS = 5_000;
/** A page that is still being opened may lose what is rendered meanwhile: after its first drawing it is rendered once more. */
const OPENED_MS = 3_000;
const SETTING = 'pickup.markdownPreview.drawings';

export function activateMarkdownPreview(client: BaseLanguageClient): MarkdownPreview {
  const fences = new DrawnFences(client);
  const [resting, opening, changing] = [new Timer(), new Timer(), new Timer()];
  const renderAfter = (restMs: number): void =>
    resting.set(restMs, () => {
      if (!fences.isAnyUnshown) return;
      render();
      if (restMs > LAST_REST_MS) fences.giveUp();
      else renderAfter(2 * restMs);
    });
  const isWanted = (uri: Uri): boolean => workspace.getConfiguration(undefined, uri).get(SETTING, true);
  const expect = (document: TextDocument): void => {
    const { languageId, uri } = document;
    if (languageId !== 'markdown' || !isWanted(uri)) return;
    for (const [place, text] of fencesIn(document.getText()).entries())
      fences.expect({ uri: uri.toString(), place, text });
  };
  const touched = new Set<string>();
  const changed = (uri: Uri): void => {
    touched.add(uri.toString());
    changing.set(REST_MS, () => {
      fences.changed(touched);
      touched.clear();
    });
  };
  const files = workspace.createFileSystemWatcher(`**/*${FILE_ENDING}`);
  const listening = Disposable.from(
    ...[fences, files, resting, opening, changing],
    fences.onDidDraw((isFirst) => {
      renderAfter(REST_MS);
      if (isFirst) opening.set(OPENED_MS, render);
    }),
    files.onDidCreate(changed),
    files.onDidChange(changed),
    files.onDidDelete(changed),
    workspace.onDidOpenTextDocument(expect),
    workspace.onDidChangeTextDocument(({ document }) => {
      if (document.languageId === LANGUAGE_ID) changed(document.uri);
      else expect(document);
    }),
    workspace.onDidChangeConfiguration((event) => {
      if (event.affectsConfiguration(SETTING)) render();
    }),
  );
  for (const document of workspace.textDocuments) expect(document);
  const drawnAt = (uri: Uri, place: number, text: string) =>
    isWanted(uri) ? fences.at({ uri: uri.toString(), place, text }) : undefined;
  return {
    extendMarkdownIt: (engine) => {
      const { rules } = engine.renderer;
      rules.fence = fenceRule(drawnAt, rules.fence, t);
      return engine;
    },
    dispose: () => listening.dispose(),
  };
}

const render = (): void => void commands.executeCommand('markdown.preview.refresh').then(undefined, () => undefined);

/** One thing to be done later; what was to be done before is not. */
class Timer implements Disposable {
  private running: ReturnType<typeof setTimeout> | undefined;

  set(afterMs: number, act: () => void): void {
    this.dispose();
    this.running = setTimeout(act, afterMs);
  }

  dispose(): void {
    clearTimeout(this.running);
  }
}
