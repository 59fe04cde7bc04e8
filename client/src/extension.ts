import { type ExtensionContext, Uri } from 'vscode';
import { LanguageClient, TransportKind } from 'vscode-languageclient/node';
import { activateExtension } from './activation.ts';
import { CLIENT_ID, CLIENT_NAME, clientOptions } from './client-options.ts';

/** On the desktop and on a remote machine: the server is a process of its own. */
export function activate(context: ExtensionContext) {
  const server = {
    module: context.asAbsolutePath('dist/server/main-node.cjs'),
    transport: TransportKind.ipc,
    options: {
      env: {
        // Node keeps the compiled server there, which halves the time that loading it takes from the second start on.
        NODE_COMPILE_CACHE: Uri.joinPath(context.globalStorageUri, 'compiled').fsPath,
        // Where memory comes from glibc: one store for all threads of the engine instead of one each, which saves some 6 MB.
        MALLOC_ARENA_MAX: '1',
      },
    },
  };
  const client = new LanguageClient(CLIENT_ID, CLIENT_NAME, { run: server, debug: server }, clientOptions());
  return activateExtension(context, client);
}

export { deactivateExtension as deactivate } from './activation.ts';
