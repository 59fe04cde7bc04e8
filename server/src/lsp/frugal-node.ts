import { setFlagsFromString } from 'node:v8';

/**
 * Before the server is loaded: an editor runs many programs side by side. Left to itself the engine keeps up to 48 MB at hand for what is
 * made next, and lets what has become useless lie until there is as much of it as of what is in use. What a keystroke leaves is freed
 * behind it (`tidy-node.ts`), which needs neither of the two. Code compiled before is taken only where these are set as they were then.
 */
export function beFrugal(): void {
  for (const flag of ['--optimize-for-size', KEEPS_SMALL]) setFlagsFromString(flag);
}

/** The place for what is made next stays as large as it is; it grows where `tidy-node.ts` lets it. */
export const KEEPS_SMALL = '--semi-space-growth-factor=1';
