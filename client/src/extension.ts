import { type ExtensionContext, Uri } from 'vscode';
import { LanguageClient, TransportKind } from 'vscode-languageclient/node';
import { activateExtension } from './activation.ts';
import { CLIENT_ID, CLIENT_NAME, clientOptions } from './client-options.ts';

/** On the desktop and on a remote machine: the server is a process of its own. */
export function activate(context: ExtensionContext) {
  const server = {
    module: context.asAbsolutePath('dist/server/main-node.cjs'),
    transport: TransportKind.ipc,
    // Node keeps the compiled server there, which halves the time that loading it takes from the second start on.
    options: { env: { NODE_COMPILE_CACHE: Uri.joinPath(context.globalStorageUri, 'compiled').fsPath } },
  };
  const client = new LanguageClient(CLIENT_ID, CLIENT_NAME, { run: server, debug: server }, clientOptions());
  return activateExtension(context, client);
}

export { deactivateExtension as deactivate } from './activation.ts';
