/** Nothing that cancels is shown lower than this, in dB: no coil is wound to a millionth. */
export const cancelledDb = -120;

/** As low a level is silence, not a number: nothing but strays and rounding carries it. */
export const isSilentDb = (db: number): boolean => db <= cancelledDb;
