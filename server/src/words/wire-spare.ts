import { WIRE_ALLOWANCE } from '../estimates/common-practice.ts';

/** What wire is told to be needed beyond that in the coil: for both ends and a break. */
export const WIRE_SPARE = `${Math.round((WIRE_ALLOWANCE - 1) * 100)}\u202F% spare`;
