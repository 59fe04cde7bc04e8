import {
  commands,
  type Disposable,
  type TextDocumentContentProvider,
  Uri,
  type WorkspaceEdit,
  workspace,
} from 'vscode';

import { PLAN_SCHEME } from '../../client-options.ts';

/** What the files of a plan would be, beside what they are; nothing is written by looking. */
export class PlanPreview implements TextDocumentContentProvider, Disposable {
  private readonly registered = workspace.registerTextDocumentContentProvider(PLAN_SCHEME, this);
  private readonly texts = new Map<string, string>();
  private shown = 0;

  provideTextDocumentContent(uri: Uri): string {
    return this.texts.get(uri.toString()) ?? '';
  }

  async show(title: string, edit: WorkspaceEdit): Promise<void> {
    this.texts.clear();
    this.shown += 1;
    const changes = await Promise.all(
      edit.entries().map(async ([uri, edits]) => {
        const document = await workspace.openTextDocument(uri);
        // From the last to the first, so that the places of those before stay what they are.
        const text = [...edits]
          .sort((a, b) => b.range.start.compareTo(a.range.start))
          .reduce((now, { range, newText }) => {
            return now.slice(0, document.offsetAt(range.start)) + newText + now.slice(document.offsetAt(range.end));
          }, document.getText());
        const after = Uri.from({ scheme: PLAN_SCHEME, path: uri.path, query: String(this.shown) });
        this.texts.set(after.toString(), text);
        return [uri, uri, after] as const;
      }),
    );
    const [only] = changes;
    if (changes.length === 1 && only) {
      // A tab of its own: the spec's may be one that the next file would take.
      await commands.executeCommand('vscode.diff', only[1], only[2], title, { preview: false });
    } else await commands.executeCommand('vscode.changes', title, changes);
  }

  dispose(): void {
    this.registered.dispose();
  }
}
