import { type ExtensionContext, Uri } from 'vscode';
import { LanguageClient } from 'vscode-languageclient/browser';
import { activateExtension } from './activation.ts';
import { CLIENT_ID, CLIENT_NAME, clientOptions } from './client-options.ts';

/** In a browser: the server is a worker. */
export function activate(context: ExtensionContext) {
  const script = Uri.joinPath(context.extensionUri, 'dist/server/main-browser.js').toString(true);
  return activateExtension(context, new LanguageClient(CLIENT_ID, CLIENT_NAME, new Worker(script), clientOptions()));
}

export { deactivateExtension as deactivate } from './activation.ts';
