import { commands, Disposable, type Uri, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { FILE_ENDING, LANGUAGE_ID } from '../../../../server/src/lsp/protocol.ts';
import { DrawnFences } from './drawn-fences.ts';
import { fenceRule } from './fence-rule.ts';
import type { MarkdownIt } from './markdown-it.ts';

const render = (): void => void commands.executeCommand('markdown.preview.refresh').then(undefined, () => undefined);

/** Fences of specs are drawn in the editor's own preview of Markdown. */
export interface MarkdownPreview extends Disposable {
  /** Asked for by that preview, for each engine that it makes. */
  extendMarkdownIt(engine: MarkdownIt): MarkdownIt;
}

/**
 * Between the last change and the new page: several fences are drawn, and files are typed in, one after the other. A preview that is
 * just about to render drops the wish; it is told again, less and less often.
 */
const REST_MS = 150;
const LAST_REST_MS = 5_000;
const SETTING = 'pickup.markdownPreview.drawings';

export function activateMarkdownPreview(client: BaseLanguageClient): MarkdownPreview {
  const fences = new DrawnFences(client);
  let resting: ReturnType<typeof setTimeout> | undefined;
  const touched = new Set<string>();
  const renderAfter = (restMs: number): void => {
    clearTimeout(resting);
    resting = setTimeout(() => {
      fences.changed(touched);
      touched.clear();
      if (!fences.isAnyUnshown) return;
      render();
      if (restMs > LAST_REST_MS) fences.giveUp();
      else renderAfter(2 * restMs);
    }, restMs);
  };
  const changed = (uri: Uri): void => {
    touched.add(uri.toString());
    renderAfter(REST_MS);
  };
  const files = workspace.createFileSystemWatcher(`**/*${FILE_ENDING}`);
  const listening = Disposable.from(
    fences,
    fences.onDidDraw(() => renderAfter(REST_MS)),
    files,
    files.onDidCreate(changed),
    files.onDidChange(changed),
    files.onDidDelete(changed),
    workspace.onDidChangeTextDocument(({ document: { languageId, uri } }) => {
      if (languageId === LANGUAGE_ID) changed(uri);
    }),
    workspace.onDidChangeConfiguration((event) => {
      if (event.affectsConfiguration(SETTING)) render();
    }),
  );
  const drawnAt = (uri: Uri, place: number, text: string) =>
    workspace.getConfiguration(undefined, uri).get(SETTING, true)
      ? fences.at({ uri: uri.toString(), place, text })
      : undefined;
  return {
    extendMarkdownIt: (engine) => {
      const { rules } = engine.renderer;
      rules.fence = fenceRule(drawnAt, rules.fence);
      return engine;
    },
    dispose: () => {
      clearTimeout(resting);
      listening.dispose();
    },
  };
}
