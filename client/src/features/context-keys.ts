import { commands, Disposable, languages, window } from 'vscode';
import { LANGUAGE_ID } from '../../../server/src/lsp/protocol.ts';
import type { OnDidAnalyse } from './analysed.ts';

/** What menus and the palette ask before they offer a command. */
type ContextKey =
  /** The file in front has findings. */
  | 'pickup.file.findings'
  /** It declares pickups or instruments. */
  | 'pickup.file.builds'
  | 'pickup.benchView.open'
  /** There is a drawing in it. */
  | 'pickup.benchView.drawn'
  /** With another state beside it. */
  | 'pickup.benchView.compared';

const known = new Map<ContextKey, boolean>();

export function setContextKey(key: ContextKey, value: boolean): void {
  if (known.get(key) === value) return;
  known.set(key, value);
  void commands.executeCommand('setContext', key, value);
}

/** Follows the file in front: a command that has nothing to do there is not offered. */
export function activateContextKeys(onDidAnalyse: OnDidAnalyse): Disposable {
  const builds = new Map<string, number>();
  const update = (): void => {
    const document = window.activeTextEditor?.document;
    // A view in front says nothing of the file behind it.
    if (document === undefined) return;
    const isSpec = document.languageId === LANGUAGE_ID;
    const found = isSpec ? languages.getDiagnostics(document.uri) : [];
    setContextKey(
      'pickup.file.findings',
      found.some(({ source }) => source === 'pickup'),
    );
    setContextKey('pickup.file.builds', isSpec && (builds.get(document.uri.toString()) ?? 0) > 0);
  };
  return Disposable.from(
    onDidAnalyse(({ uri, builds: count }) => {
      builds.set(uri, count);
      update();
    }),
    window.onDidChangeActiveTextEditor(update),
    languages.onDidChangeDiagnostics(update),
  );
}
