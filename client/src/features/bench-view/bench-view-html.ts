import { Uri, type Webview } from 'vscode';

/** The frame of the bench view: no script and no style but our two files, no connection to anywhere. */
export function benchViewHtml(webview: Webview, extensionUri: Uri): string {
  const from = (file: string): string =>
    webview.asWebviewUri(Uri.joinPath(extensionUri, 'dist/client', file)).toString();
  // Pictures: photographs of the workspace; and blob addresses, which nobody but our script can make, for painting a drawing as PNG.
  const policy = `default-src 'none'; script-src ${webview.cspSource}; style-src ${webview.cspSource}; img-src blob: ${webview.cspSource};`;
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Bench</title>
<link rel="stylesheet" href="${from('webview.css')}">
</head>
<body>
<main id="bench"><p class="q">Reading the file …</p></main>
<script src="${from('webview.js')}"></script>
</body>
</html>`;
}
