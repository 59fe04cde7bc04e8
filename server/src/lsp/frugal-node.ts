import { setFlagsFromString } from 'node:v8';

/**
 * Before the server is loaded: an editor runs many programs side by side. Left to itself the engine keeps up to 48 MB at hand for what is
 * made next, and lets what has become useless lie until there is as much of it as of what is in use. What a keystroke leaves is freed
 * behind it (`tidy-node.ts`), which needs neither of the two. Code compiled before is taken only where these are set as they were then.
 */
export function beFrugal(): void {
  for (const flag of ['--optimize-for-size', KEEPS_SMALL, OPTIMIZES_LATE]) setFlagsFromString(flag);
}

/** The place for what is made next stays as large as it is: what a keystroke tells first is out before much is made. */
const KEEPS_SMALL = '--semi-space-growth-factor=1';

/**
 * Bytes of code that a function runs before it is worth optimizing: seven times what the engine waits for. Sooner it optimizes what is
 * hardly run again, beside the first findings, for as much time as they take, and keeps 10 MB for it.
 */
const OPTIMIZES_LATE = '--interrupt-budget=1000000';
