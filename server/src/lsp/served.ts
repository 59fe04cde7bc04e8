import type { CancellationToken, ResponseError } from 'vscode-languageserver';
import type { ClientAbilities } from './client-abilities.ts';
import type { Report } from './guard.ts';
import type { Opened, Session } from './session.ts';
import type { Settings } from './settings.ts';
import type { Workspace } from './workspace.ts';

/** What the answers rest on. */
export interface Served {
  readonly session: Session;
  readonly workspace: Workspace;
  readonly report: Report;
  readonly abilities: ClientAbilities;
  readonly settings: () => Settings;
  /** Waits until the hands rest. */
  readonly rest: () => Promise<void>;
}

/** An answer about an open document; where it is not open, or something fails, the empty one. */
export type About = <P extends { readonly textDocument: { readonly uri: string } }, R>(
  what: string,
  empty: R,
  answer: (opened: Opened, params: P, token: CancellationToken) => R | Promise<R>,
) => (params: P, token: CancellationToken) => Promise<R | ResponseError<void>>;
