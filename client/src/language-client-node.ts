import type { ExtensionContext } from 'vscode';
import { LanguageClient, TransportKind } from 'vscode-languageclient/node';
import { CLIENT_ID, CLIENT_NAME, clientOptions } from './client-options.ts';

export function createNodeClient(context: ExtensionContext): LanguageClient {
  const server = { module: context.asAbsolutePath('dist/server/main-node.cjs'), transport: TransportKind.ipc };
  return new LanguageClient(CLIENT_ID, CLIENT_NAME, { run: server, debug: server }, clientOptions());
}
