import { Uri, type Webview, type WebviewOptions } from 'vscode';
import { bundleAttribute, pageLanguage, t } from './words.ts';

const FILES = 'dist/client';

/** A page of ours: scripts of its own, files of the extension and of the workspace, and no command of the editor. */
export const pageOptions = (extensionUri: Uri, ...more: readonly Uri[]): WebviewOptions => ({
  enableScripts: true,
  localResourceRoots: [Uri.joinPath(extensionUri, FILES), ...more],
});

/** What stands in the tab of a page of ours. */
export const tabIcon = (extensionUri: Uri, name: 'bench' | 'finding'): { readonly light: Uri; readonly dark: Uri } => ({
  light: Uri.joinPath(extensionUri, 'client', `icon-${name}-light.svg`),
  dark: Uri.joinPath(extensionUri, 'client', `icon-${name}-dark.svg`),
});

/** The frame of a page: no script and no style but our own files, no connection to anywhere. */
export function pageHtml(
  webview: Webview,
  extensionUri: Uri,
  { title, script }: { readonly title: string; readonly script: string },
): string {
  const from = (file: string): string => webview.asWebviewUri(Uri.joinPath(extensionUri, FILES, file)).toString();
  // Pictures: photographs of the workspace; and blob addresses, which nobody but our script can make, for painting a drawing as PNG.
  const policy = `default-src 'none'; script-src ${webview.cspSource}; style-src ${webview.cspSource}; img-src blob: ${webview.cspSource};`;
  return `<!doctype html>
<html lang="${pageLanguage()}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${title}</title>
<link rel="stylesheet" href="${from('webview.css')}">
</head>
<body data-words="${bundleAttribute()}">
<main id="page"><p class="q">${t('Reading …')}</p></main>
<script src="${from(script)}"></script>
</body>
</html>`;
}
