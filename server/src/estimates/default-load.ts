/** What stands in for a cable and an input that an instrument does not state. Common practice, no published source. */
export const DEFAULT_CABLE_F = 450e-12;
export const DEFAULT_INPUT_OHM = 1e6;

/** A cable's capacitance as the words of an estimate have it. */
export const farads = (farad: number): string => `${Number((farad * 1e12).toPrecision(4))} pF`;
