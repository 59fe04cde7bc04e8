import { WIRE_ALLOWANCE } from '../estimates/common-practice.ts';

/** What wire is told to be needed beyond that in the coil: for both ends and a break. */
export const WIRE_SPARE_SHARE = `${Math.round((WIRE_ALLOWANCE - 1) * 100)}\u202F%`;
export const WIRE_SPARE = `${WIRE_SPARE_SHARE} spare`;
