import type { ExtensionContext } from 'vscode';
import { activateExtension, deactivateExtension } from './activation.ts';
import { createNodeClient } from './language-client-node.ts';

/** On the desktop and on a remote machine: the server is a process of its own. */
export const activate = (context: ExtensionContext): Promise<ExtensionInterface> =>
  activateExtension(context, createNodeClient(context));

export const deactivate = (): Promise<void> => deactivateExtension();

type ExtensionInterface = Awaited<ReturnType<typeof activateExtension>>;
