import type { ClientAbilities } from './client-abilities.ts';
import type { Report } from './guard.ts';
import type { Session } from './session.ts';
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
