import type { ExtensionContext } from 'vscode';
import { activateExtension, deactivateExtension } from './activation.ts';
import { createBrowserClient } from './language-client-browser.ts';

/** In a browser: the server is a worker. */
export const activate = (context: ExtensionContext): Promise<ExtensionInterface> =>
  activateExtension(context, createBrowserClient(context));

export const deactivate = (): Promise<void> => deactivateExtension();

type ExtensionInterface = Awaited<ReturnType<typeof activateExtension>>;
