import { type ExtensionContext, Uri } from 'vscode';
import { LanguageClient } from 'vscode-languageclient/browser';
import { CLIENT_ID, CLIENT_NAME, clientOptions } from './client-options.ts';

export function createBrowserClient(context: ExtensionContext): LanguageClient {
  const script = Uri.joinPath(context.extensionUri, 'dist/server/main-browser.js').toString(true);
  return new LanguageClient(CLIENT_ID, CLIENT_NAME, new Worker(script), clientOptions());
}
